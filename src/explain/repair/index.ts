import type { PairRef } from '../../model/difference.js';
import type { Frame } from '../../model/film.js';
import type { Finding, Repair } from '../../model/findings.js';
import { rightCopy } from '../documents/copies.js';
import type { FindingDraft } from '../draft.js';
import { fieldName } from '../facts/names.js';
import { type Fact, isOfIssue } from '../facts/statements.js';
import { pairKey } from '../runs.js';
import { expectedFrame, pairOf, recordFrame, returnFrame, returnIssueOf, type Scene } from '../scene.js';
import type { WordedDifference } from '../worded.js';
import { emptied, homeOf, listedInstead, movedPages } from './documents.js';
import { alongInWords, followingSteps } from './names.js';
import { renumbered } from './numbers.js';
import { atPage, byTheRecord, inDocument, NOWHERE, ofFrame, onReel, theirReel, type Where } from './places.js';
import { problemSteps } from './problems.js';

/** A finding with how far it reaches and what would put the return right. */
export type Explained = FindingDraft & Pick<Finding, 'scope' | 'repair'>;

/** Adds to a finding how far its cause reaches and what would have to be done to the return. */
export function explained(scene: Scene, draft: FindingDraft): Explained {
  // where the record is likelier wrong nothing is to be done to the return
  const repair = draft.cause === 'collation' || draft.cause === 'film' ? [] : repairOf(scene, draft);
  return { ...draft, instruction: withAlong(scene, draft, repair), scope: draft.reach ?? reachOf(scene, draft), repair };
}

/** The instruction, with the names and lists in which the same wrong reading stands, and which are changed with it. */
function withAlong(scene: Scene, { instruction, explains }: FindingDraft, repair: readonly Repair[]): string | null {
  const told = new Set(explains.flatMap((id) => (scene.differences[id]?.field === 'copy' ? (scene.differences[id].about ?? '') : [])));
  const along = alongInWords(repair.filter(({ field }) => field !== null && !told.has(field)));
  return instruction === null || along === null ? instruction : `${instruction} ${along}`;
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

function repairOf(scene: Scene, draft: FindingDraft): Repair[] {
  const differences = draft.explains.flatMap((id) => scene.differences[id] ?? []);
  const gone = new Set(
    differences.filter(({ field }) => field === 'delivered' || field === 'surplus').flatMap(({ pairs }) => pairs.map(pairKey)),
  );
  const moved = movedPages(scene, draft);
  const rest = differences.filter(
    ({ field, pairs }) =>
      field !== 'number' &&
      !(moved.length > 0 && (isOfIssue(field as Fact) || field === 'extra-document')) &&
      // what is taken out needs no other reading; nor does a document all of whose pages are
      !(field !== 'delivered' && field !== 'surplus' && pairs.length > 0 && pairs.every((ref) => gone.has(pairKey(ref)))),
  );
  const numbers = differences.filter(({ field, pairs }) => field === 'number' && !pairs.some((ref) => gone.has(pairKey(ref))));
  const all = [
    ...moved,
    ...rest.flatMap((difference) => steps(scene, difference, draft)),
    ...listedInstead(scene, differences),
    ...emptied(scene, draft, moved, gone),
    ...renumbered(scene, numbers),
  ];
  // several differences may come to the same step, which is done once
  return [...new Map(all.map((step) => [JSON.stringify(step), step])).values()];
}

const bare = (act: Repair['do'], scene: Scene, ref: PairRef, field: string | null): Repair => ({
  do: act,
  ...atPage(scene, ref),
  field,
  from: null,
  to: null,
});

/** What undoes one difference. */
function steps(scene: Scene, difference: WordedDifference, { rescan }: Pick<FindingDraft, 'rescan'>): Repair[] {
  const { field, pairs, given, expected, recordIssue, returnIssue } = difference;
  const document = returnIssueOf(scene, returnIssue)?.place.document ?? null;
  const [right] = expected;
  const reading = { from: given?.text ?? null, to: (field === 'reel' ? theirReel(scene, right?.key) : null) ?? right?.text ?? null };
  const each = (act: Repair['do'], name: string | null): Repair[] => pairs.map((ref) => bare(act, scene, ref, name));
  switch (field) {
    case 'not-scanned':
      // a frame that is held back is only counted: nothing of it has to be scanned anew
      return pairs.map((ref) => {
        if (recordFrame(scene, ref)?.deliver === false) return bare('add', scene, ref, 'frame');
        return rescan === 'yes' ? bare('rescan', scene, ref, null) : addedPage(scene, ref);
      });
    case 'not-delivered':
      return pairs.map((ref) => addedPage(scene, ref));
    case 'delivered':
    case 'surplus':
      return each('remove', null);
    case 'empty-number':
      return pairs.map((ref) => ({
        do: 'remove',
        ...NOWHERE,
        ...onReel(scene, ref),
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
      return [{ do: 'merge', ...NOWHERE, document, field: null, from: document, to: homeOf(scene, recordIssue) }];
    case 'empty-document':
      return [{ do: 'remove', ...NOWHERE, document, field: null, from: null, to: null }];
    case 'absence-missing':
      return [{ do: 'add', ...NOWHERE, document: homeOf(scene, recordIssue), field: 'absence', from: null, to: difference.collation }];
    case 'absence-extra':
      return [
        {
          do: 'remove',
          ...inDocument(scene.returned.absences[difference.absence ?? -1]?.place),
          field: 'absence',
          from: difference.returned,
          to: null,
        },
      ];
    case 'absence-published':
      return [
        {
          do: 'set',
          ...inDocument(scene.returned.absences[difference.absence ?? -1]?.place),
          field: 'absence',
          from: difference.returned,
          to: difference.collation,
        },
      ];
    case 'file':
      return [{ do: 'add', ...ofFrame(frameAt(scene, difference)), field: 'file', from: null, to: given?.text ?? difference.collation }];
    case 'digest':
    case 'same-file':
      return [{ do: 'set', ...ofFrame(frameAt(scene, difference)), field: 'file', from: difference.returned, to: null }];
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
      return problem === undefined ? [] : problemSteps(scene, problem);
    }
    case 'copy': {
      const to = rightCopy(scene, difference);
      return to === null ? [] : [{ do: 'set', ...placeOfCopy(scene, difference), field: difference.about, from: difference.returned, to }];
    }
    case 'number':
      return [];
    default:
      return isOfIssue(field)
        ? [{ do: 'set', ...NOWHERE, document, field, ...reading }, ...followingSteps(scene, difference, null)]
        : pairs.flatMap((ref): Repair[] => [
            { do: 'set', ...atPage(scene, ref), field: fieldName(field), ...reading },
            ...followingSteps(scene, difference, ref),
          ]);
  }
}

/** Where the other place of a fact stands, such as the manifest's line of a document. */
function placeOfCopy(scene: Scene, difference: WordedDifference): Where {
  const { returnIssue, about, returned } = difference;
  const frame = frameAt(scene, difference);
  const holder = frame ?? returnIssueOf(scene, returnIssue);
  const copy = holder?.copies.find(({ fact, source, text }) => `${fact} ${source}` === about && text === returned);
  return { ...inDocument(copy?.place ?? holder?.place), frame: frame?.frame?.text ?? null };
}

/** The frame of the return that a difference names. */
function frameAt(scene: Scene, { ref }: WordedDifference): Frame | undefined {
  return ref === null ? undefined : scene.returned.reels[ref.reel]?.frames[ref.frame];
}

function addedPage(scene: Scene, ref: PairRef): Repair {
  const document = homeOf(scene, recordFrame(scene, ref)?.issue ?? null);
  const to = expectedFrame(scene, ref)?.facts.page.right[0]?.text ?? null;
  return { do: 'add', ...NOWHERE, document, ...byTheRecord(scene, ref), field: null, from: null, to };
}
