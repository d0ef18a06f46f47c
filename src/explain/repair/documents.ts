import type { PairRef } from '../../model/difference.js';
import type { Repair } from '../../model/findings.js';
import { mainDocument } from '../documents/meetings.js';
import { type FindingDraft, issueName } from '../draft.js';
import { pairKey } from '../runs.js';
import { expectedFrame, recordFrame, returnFrame, returnIssueOf, type Scene } from '../scene.js';
import type { WordedDifference } from '../worded.js';
import { atPage, NOWHERE, onReel } from './places.js';

/** Codes of documents that hold pages of another issue, or only some of one: what is done to the pages mends what their documents say. */
const OF_DOCUMENTS: Readonly<Partial<Record<FindingDraft['code'], Repair['do']>>> = {
  'issues-merged': 'split',
  'issue-split': 'merge',
  'issue-boundary-moved': 'move',
  'retake-not-placed': 'move',
};

/** Pages that belong in another document. */
export function movedPages(scene: Scene, { about, code }: FindingDraft): Repair[] {
  const act = OF_DOCUMENTS[code];
  if (act === undefined) return [];
  return about.flatMap((ref): Repair[] => {
    const [mine, theirs] = [recordFrame(scene, ref), returnFrame(scene, ref)];
    if (mine?.issue == null || theirs === undefined) return [];
    const home = code === 'issues-merged' ? null : homeOf(scene, mine.issue);
    const to = home ?? issueName(scene, mine.issue);
    return [{ ...atPage(scene, ref), do: act, field: null, from: theirs.place.document ?? null, to }];
  });
}

/** Targets that came as pages, and that the right return lists as what they are. */
export function listedInstead(scene: Scene, differences: readonly WordedDifference[]): Repair[] {
  const refs = differences.filter(({ field }) => field === 'delivered').flatMap(({ pairs }) => pairs);
  return refs.flatMap((ref): Repair[] => {
    const listed = expectedFrame(scene, ref)?.listed;
    const listing = scene.alignments[ref.alignment]?.returnReels
      .map((reel) => scene.returned.reels[reel])
      .find((reel) => reel?.targetsListed);
    if (listed !== 'must' && !(listed === 'with-others' && listing !== undefined)) return [];
    const document = listing?.place.document ?? null;
    const frame = returnFrame(scene, ref)?.frame?.text ?? null;
    return [{ do: 'add', ...NOWHERE, ...onReel(scene, ref), document, frame, field: 'target', from: null, to: null }];
  });
}

/** Documents of which every page is taken out or goes elsewhere, and that state nothing else. */
export function emptied(scene: Scene, { about }: FindingDraft, moved: readonly Repair[], gone: ReadonlySet<string>): Repair[] {
  const isGone = (ref: PairRef): boolean => gone.has(pairKey(ref));
  const going = about.filter((ref) => isGone(ref) || moved.length > 0);
  const issues = new Set(going.flatMap((ref) => returnFrame(scene, ref)?.issue ?? []));
  const away = new Set(going.map(pairKey));
  const homes = new Set(moved.map(({ to }) => to));
  return [...issues].flatMap((issue): Repair[] => {
    const document = returnIssueOf(scene, issue)?.place.document ?? null;
    const pages = scene.pairsOfReturnIssue.get(issue) ?? [];
    const says = scene.returned.absences.some((absence) => absence.issue === issue);
    if (document === null || says || homes.has(document) || !pages.every((ref) => away.has(pairKey(ref)))) return [];
    return [{ do: 'remove', ...NOWHERE, document, field: null, from: null, to: null }];
  });
}

/** The document that an issue of the record came in. */
export function homeOf(scene: Scene, recordIssue: number | null): string | null {
  const home = recordIssue === null ? null : mainDocument(scene, recordIssue);
  return returnIssueOf(scene, home)?.place.document ?? null;
}
