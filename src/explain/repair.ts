import type { PairRef } from '../model/difference.js';
import type { Finding, Repair } from '../model/findings.js';
import { rightCopy } from './documents/copies.js';
import { mainDocument } from './documents/meetings.js';
import { type FindingDraft, frameName, issueName } from './draft.js';
import { fieldName } from './facts/names.js';
import { type Fact, isOfIssue } from './facts/statements.js';
import { exposureOffset } from './film/shift-events.js';
import { inFilmOrder, pairKey } from './runs.js';
import { pairOf, recordFrame, returnFrame, returnIssueOf, type Scene } from './scene.js';
import type { WordedDifference } from './worded.js';

/** A finding with how far it reaches and what would put the return right. */
export type Explained = FindingDraft & Pick<Finding, 'scope' | 'repair'>;

/** Adds to a finding how far its cause reaches and what would have to be done to the return. */
export function explained(scene: Scene, draft: FindingDraft): Explained {
  // where the record is likelier wrong nothing is to be done to the return
  const repair = draft.cause === 'collation' || draft.cause === 'film' ? [] : repairOf(scene, draft);
  return { ...draft, scope: draft.reach ?? reachOf(scene, draft), repair };
}

/** How far a cause reaches that does not say so itself: by what it is about. */
function reachOf(scene: Scene, { about, reel, title, date, count }: FindingDraft): Finding['scope'] {
  if (about.length === 0) return date !== null ? 'issue' : reel !== null ? 'reel' : title !== null ? 'title' : 'batch';
  if (about.length === 1) return count > 1 ? 'run' : 'page';
  const issues = new Set(about.map((ref) => recordFrame(scene, ref)?.issue ?? returnFrame(scene, ref)?.issue ?? null));
  const [issue] = issues;
  if (issues.size !== 1 || issue == null) return 'run';
  const pages = (scene.pairsOfRecordIssue.get(issue) ?? []).filter((ref) => recordFrame(scene, ref)?.deliver === true);
  return pages.length <= about.length ? 'issue' : 'run';
}

/** Codes of documents that hold pages of another issue, or only some of one: what is done to the pages mends what their documents say. */
const OF_DOCUMENTS: Readonly<Partial<Record<FindingDraft['code'], Repair['do']>>> = {
  'issues-merged': 'split',
  'issue-split': 'merge',
  'issue-boundary-moved': 'move',
  'retake-not-placed': 'move',
};

function repairOf(scene: Scene, draft: FindingDraft): Repair[] {
  const differences = draft.explains.flatMap((id) => scene.differences[id] ?? []);
  const gone = new Set(
    differences.filter(({ field }) => field === 'delivered' || field === 'surplus').flatMap(({ pairs }) => pairs.map(pairKey)),
  );
  const toMove = OF_DOCUMENTS[draft.code];
  const moved = toMove === undefined ? [] : movedPages(scene, draft, toMove);
  const rest = differences.filter(
    ({ field, pairs }) =>
      field !== 'number' &&
      !(moved.length > 0 && (isOfIssue(field as Fact) || field === 'extra-document')) &&
      // what is taken out needs no other reading; nor does a document all of whose pages are
      !(field !== 'delivered' && field !== 'surplus' && pairs.length > 0 && pairs.every((ref) => gone.has(pairKey(ref)))),
  );
  const numbers = differences.filter(({ field, pairs }) => field === 'number' && !pairs.some((ref) => gone.has(pairKey(ref))));
  const all = [...moved, ...rest.flatMap((difference) => steps(scene, difference)), ...renumbered(scene, numbers)];
  // several differences may come to the same step, which is done once
  return [...new Map(all.map((step) => [JSON.stringify(step), step])).values()];
}

/** Pages that belong in another document. */
function movedPages(scene: Scene, { about, code }: FindingDraft, act: Repair['do']): Repair[] {
  return about.flatMap((ref): Repair[] => {
    const [mine, theirs] = [recordFrame(scene, ref), returnFrame(scene, ref)];
    if (mine?.issue == null || theirs === undefined) return [];
    const home = code === 'issues-merged' ? null : mainDocument(scene, mine.issue);
    const to = returnIssueOf(scene, home)?.place.document ?? issueName(scene, mine.issue);
    return [{ ...at(scene, ref), do: act, field: null, from: theirs.place.document ?? null, to }];
  });
}

type Where = Pick<Repair, 'document' | 'element' | 'frame' | 'numberedBy'>;

/** Where a page stands in the return, by its own number; for what did not come, the number that it must have. */
function at(scene: Scene, ref: PairRef): Where {
  const theirs = returnFrame(scene, ref);
  if (theirs === undefined) return { document: null, element: null, ...byTheRecord(scene, ref) };
  const frame = theirs.frame === null ? null : theirs.frame.text;
  return { document: theirs.place.document ?? null, element: theirs.place.element ?? null, frame };
}

/** The number of a frame for which nothing came, marked as the record's. */
function byTheRecord(scene: Scene, ref: PairRef): Pick<Repair, 'frame' | 'numberedBy'> {
  return { frame: frameName(recordFrame(scene, ref)), numberedBy: 'record' };
}

const NOWHERE: Where = { document: null, element: null, frame: null };

const bare = (act: Repair['do'], scene: Scene, ref: PairRef, field: string | null): Repair => ({
  do: act,
  ...at(scene, ref),
  field,
  from: null,
  to: null,
});

/** What undoes one difference. */
function steps(scene: Scene, difference: WordedDifference): Repair[] {
  const { field, pairs, given, expected, returnIssue } = difference;
  const document = returnIssueOf(scene, returnIssue)?.place.document ?? null;
  const reading = { from: given?.text ?? null, to: expected[0]?.text ?? null };
  const each = (act: Repair['do'], name: string | null): Repair[] => pairs.map((ref) => bare(act, scene, ref, name));
  switch (field) {
    case 'not-scanned':
      // a frame that is held back is only counted: nothing of it has to be scanned anew
      return pairs.map((ref) =>
        recordFrame(scene, ref)?.deliver === false ? bare('add', scene, ref, 'frame') : bare('rescan', scene, ref, null),
      );
    case 'not-delivered':
      return pairs.map((ref) => addedPage(scene, ref));
    case 'delivered':
    case 'surplus':
      return each('remove', null);
    case 'empty-number':
      return pairs.map((ref) => ({
        do: 'remove',
        ...NOWHERE,
        frame: String(pairOf(scene, ref).exposure ?? ''),
        field: 'frame',
        from: reading.from,
        to: null,
      }));
    case 'number-unfilled':
      return each('add', 'frame');
    case 'target':
      return each(difference.form === 'missing' ? 'add' : 'remove', 'target');
    case 'extra-document':
      return [{ do: 'merge', ...NOWHERE, document, field: null, from: document, to: homeOf(scene, difference) }];
    case 'empty-document':
      return [{ do: 'remove', ...NOWHERE, document, field: null, from: null, to: null }];
    case 'absence-missing':
      return [{ do: 'add', ...NOWHERE, document: homeOf(scene, difference), field: 'absence', from: null, to: difference.collation }];
    case 'absence-extra':
      return [{ do: 'remove', ...NOWHERE, ...placeOfAbsence(scene, difference), field: 'absence', from: difference.returned, to: null }];
    case 'absence-published':
      return [
        {
          do: 'set',
          ...NOWHERE,
          ...placeOfAbsence(scene, difference),
          field: 'absence',
          from: difference.returned,
          to: difference.collation,
        },
      ];
    case 'file':
      return [{ do: 'add', ...atFrame(scene, difference), field: 'file', from: null, to: given?.text ?? difference.collation }];
    case 'digest':
    case 'same-file':
      return [{ do: 'set', ...atFrame(scene, difference), field: 'file', from: difference.returned, to: null }];
    case 'reel-fact':
    case 'count':
      return [
        {
          do: 'set',
          ...NOWHERE,
          document: scene.returned.reels[difference.ref?.reel ?? -1]?.place.document ?? null,
          field: difference.about,
          ...reading,
        },
      ];
    case 'document': {
      const problem = scene.returned.problems[difference.problem ?? -1];
      const place = { document: problem?.place.document ?? null, element: problem?.place.element ?? null, frame: null };
      return [{ do: 'set', ...place, field: problem?.field ?? null, from: problem?.returned ?? null, to: problem?.collation ?? null }];
    }
    case 'copy': {
      const to = rightCopy(scene, difference);
      return to === null ? [] : [{ do: 'set', ...NOWHERE, document, field: difference.about, from: difference.returned, to }];
    }
    case 'number':
      return [];
    default:
      return isOfIssue(field)
        ? [{ do: 'set', ...NOWHERE, document, field, ...reading }]
        : pairs.map((ref) => ({ do: 'set', ...at(scene, ref), field: fieldName(field), ...reading }));
  }
}

function addedPage(scene: Scene, ref: PairRef): Repair {
  const mine = recordFrame(scene, ref);
  const home = mine?.issue == null ? null : mainDocument(scene, mine.issue);
  const document = returnIssueOf(scene, home)?.place.document ?? null;
  return { do: 'add', ...NOWHERE, document, ...byTheRecord(scene, ref), field: null, from: null, to: mine?.page ?? null };
}

function homeOf(scene: Scene, { recordIssue }: WordedDifference): string | null {
  const home = recordIssue === null ? null : mainDocument(scene, recordIssue);
  return returnIssueOf(scene, home)?.place.document ?? null;
}

function placeOfAbsence(scene: Scene, { absence }: WordedDifference): Partial<Where> {
  const place = scene.returned.absences[absence ?? -1]?.place;
  return { document: place?.document ?? null, element: place?.element ?? null };
}

function atFrame(scene: Scene, { ref }: WordedDifference): Where {
  const frame = ref === null ? undefined : scene.returned.reels[ref.reel]?.frames[ref.frame];
  return { document: frame?.place.document ?? null, element: frame?.place.element ?? null, frame: frame?.frame?.text ?? null };
}

/** Wrong numbers, those that follow one another and are as far off as one run. */
function renumbered(scene: Scene, differences: readonly WordedDifference[]): Repair[] {
  const refs = inFilmOrder(differences.flatMap(({ pairs }) => pairs)).filter((ref) => returnFrame(scene, ref) !== undefined);
  const runs: { readonly by: number | null; readonly refs: PairRef[] }[] = [];
  for (const ref of refs) {
    const by = sameHalf(scene, ref) ? exposureOffset(scene, ref) : null;
    const last = runs.at(-1);
    const before = last?.refs.at(-1);
    if (last !== undefined && by !== null && last.by === by && before?.alignment === ref.alignment) last.refs.push(ref);
    else runs.push({ by, refs: [ref] });
  }
  return runs.map(({ by, refs: run }): Repair => {
    const first = run[0];
    if (first === undefined || by === null || run.length === 1) {
      const where = first === undefined ? NOWHERE : at(scene, first);
      return {
        do: 'set',
        ...where,
        field: 'frame',
        from: where.frame,
        to: first === undefined ? null : frameName(recordFrame(scene, first)),
      };
    }
    const names = [first, run.at(-1) ?? first].map((ref) => frameName(returnFrame(scene, ref)));
    return {
      do: 'renumber',
      ...NOWHERE,
      frame: names.join(' to '),
      field: 'frame',
      from: null,
      to: `${by < 0 ? '+' : '-'}${String(Math.abs(by))}`,
    };
  });
}

function sameHalf(scene: Scene, ref: PairRef): boolean {
  return recordFrame(scene, ref)?.frame?.half === returnFrame(scene, ref)?.frame?.half;
}
