import type { PairRef } from '../../model/difference.js';
import { type Candidate, candidate } from '../choose.js';
import { mainDocument } from '../documents/meetings.js';
import { capital, counted, draft, framesInWords, issueName, rangeOf, thing } from '../draft.js';
import { sidedBy } from '../facts/sided.js';
import { groupBy, idsOf, neighbouringRuns } from '../runs.js';
import { differencesAt, factsOf, fieldOf, recordFrame, returnFrame, type Scene } from '../scene.js';
import type { WordedDifference } from '../worded.js';
import { calledPresent } from './called-present.js';
import { heldBackDelivered, twinsOf } from './held-back.js';
import { looseImages } from './loose-images.js';
import { missingIssues } from './lost-issues.js';
import { behind, movedBy } from './moved-pages.js';
import { unknownPages } from './unknown-pages.js';
import { missingPages } from './wanting.js';

/** Pages, issues and other frames that came although they must not, or did not although they must. */
export function presence(scene: Scene): Candidate[] {
  return [
    ...calledPresent(scene),
    ...missingIssues(scene),
    ...missingPages(scene),
    ...nonPages(scene),
    ...heldBack(scene),
    ...unknownPages(scene),
    ...looseImages(scene),
  ];
}

/** Blanks, targets and voids that came as pages; the issue they were put into has its pages moved along. */
function nonPages(scene: Scene): Candidate[] {
  const refs = fieldOf(scene, 'delivered')
    .flatMap((difference) => difference.pairs)
    .filter((ref) => recordFrame(scene, ref)?.kind !== 'page');
  const runs = neighbouringRuns(refs, (a, b) => returnFrame(scene, a)?.issue === returnFrame(scene, b)?.issue);
  return runs.map((run) => {
    const first = run[0];
    const document = first === undefined ? null : (returnFrame(scene, first)?.issue ?? null);
    const words = framesInWords(rangeOf(scene, run).frames);
    const kind = run.length === 1 && first !== undefined ? thing(recordFrame(scene, first)) : counted(run.length, 'frame');
    const alone =
      document !== null && (scene.pairsOfReturnIssue.get(document) ?? []).every((ref) => recordFrame(scene, ref)?.kind !== 'page');
    const moved =
      document === null || first === undefined
        ? []
        : movedBy(scene, behind(scene.pairsOfReturnIssue.get(document) ?? [], first), run.length);
    return candidate(
      draft(scene, {
        code: 'non-page-delivered',
        cause: 'vendor-metadata',
        about: run,
        returnIssue: document,
        explains: [...idsOf(run.flatMap((ref) => differencesAt(scene, ref, 'delivered'))), ...idsOf(moved)],
        field: 'deliver',
        collation: `to be held back (${first === undefined ? '' : (recordFrame(scene, first)?.kind ?? '')})`,
        return: 'delivered as a page',
        says: `${capital(words)} (${kind}) ${run.length === 1 ? 'is not a page of a newspaper and was' : 'are not pages of a newspaper and were'} delivered as ${run.length === 1 ? 'one' : 'such'}${alone ? ', in a document of its own' : ` in ${issueName(scene, document, 'return')}`}.`,
        instruction: `Hold ${words} back${alone ? ' and withdraw the document' : ''}${restored(moved)}.`,
        billable: [{ class: 'page', change: -run.length }],
      }),
    );
  });
}

/** Pages that were to be held back and came all the same. */
function heldBack(scene: Scene): Candidate[] {
  const own = (ref: PairRef): boolean => mainDocument(scene, recordFrame(scene, ref)?.issue ?? -1) === returnFrame(scene, ref)?.issue;
  const runs = neighbouringRuns(
    heldBackDelivered(scene),
    (a, b) =>
      (recordFrame(scene, a)?.issue === recordFrame(scene, b)?.issue && returnFrame(scene, a)?.issue === returnFrame(scene, b)?.issue) ||
      (own(a) && own(b)),
  );
  return runs.map((run) => {
    const first = run[0];
    const issue = first === undefined ? null : (recordFrame(scene, first)?.issue ?? null);
    const document = first === undefined ? null : (returnFrame(scene, first)?.issue ?? null);
    const words = framesInWords(rangeOf(scene, run).frames);
    const alone =
      document !== null && (scene.pairsOfReturnIssue.get(document) ?? []).every((ref) => recordFrame(scene, ref)?.deliver !== true);
    const byDocument = groupBy(run, (ref) => returnFrame(scene, ref)?.issue ?? null);
    const moved = alone
      ? []
      : [...byDocument].flatMap(([home, refs]) =>
          home === null ? [] : movedBy(scene, scene.pairsOfReturnIssue.get(home) ?? [], refs.length),
        );
    const issues = new Set(run.map((ref) => recordFrame(scene, ref)?.issue)).size;
    const whose = issues > 1 ? counted(issues, 'issue') : issueName(scene, issue);
    const facts =
      alone && issue !== null && (mainDocument(scene, issue) !== document || !hasDelivered(scene, issue))
        ? idsOf(factsOf(scene, issue, document))
        : [];
    const unlike = repeatsNothing(scene, run);
    return candidate(
      sidedBy(
        unlike ? 'collation' : 'vendor-metadata',
        words,
        draft(scene, {
          code: 'suppressed-frame-delivered',
          cause: 'vendor-metadata',
          evidence: unlike
            ? ['What the record holds back there repeats no other page of the issue, and without it the issue is not whole.']
            : [],
          about: run,
          returnIssue: document,
          explains: [
            ...idsOf(run.flatMap((ref) => differencesAt(scene, ref, 'delivered', 'page', 'order', 'section'))),
            ...idsOf(moved),
            ...facts,
          ],
          field: 'deliver',
          collation: 'to be held back',
          return: 'delivered',
          says: `${capital(words)} (${first === undefined || run.length > 1 ? counted(run.length, 'page') : thing(recordFrame(scene, first))} of ${whose}) ${run.length === 1 ? 'was' : 'were'} to be held back and ${run.length === 1 ? 'was' : 'were'} delivered.`,
          instruction: `Hold ${words} back${alone ? ` and withdraw the document made of ${run.length === 1 ? 'it' : 'them'}` : ''}${restored(moved)}.`,
          billable: unlike ? [] : [{ class: 'page', change: -run.length }],
        }),
      ),
    );
  });
}

/** Pages that are held back in an issue that is delivered, though they repeat none of its pages and nothing is said to be wrong with them. */
function repeatsNothing(scene: Scene, run: readonly PairRef[]): boolean {
  return run.every((ref) => {
    const mine = recordFrame(scene, ref);
    if (mine?.issue == null || mine.duplicateOf !== null || mine.retakeOf !== null || mine.condition.length > 0 || mine.note !== null)
      return false;
    const others = (scene.pairsOfRecordIssue.get(mine.issue) ?? []).filter((other) => recordFrame(scene, other)?.deliver === true);
    return others.length > 0 && mine.pageKey !== null && twinsOf(scene, ref, others) === undefined;
  });
}

/** What the pages behind a surplus one must get back: their places, and their labels where these moved along. */
function restored(moved: readonly WordedDifference[]): string {
  if (moved.length === 0) return '';
  return `, and restore ${moved.some(({ field }) => field === 'page') ? 'the labels and ' : ''}the order of the pages after it`;
}

function hasDelivered(scene: Scene, issue: number): boolean {
  return (scene.pairsOfRecordIssue.get(issue) ?? []).some((ref) => recordFrame(scene, ref)?.deliver === true);
}
