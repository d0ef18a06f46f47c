import type { PairRef } from '../../model/difference.js';
import { type Candidate, candidate } from '../choose.js';
import { mainDocument } from '../documents/meetings.js';
import { capital, counted, draft, framesInWords, issueName, rangeOf } from '../draft.js';
import { sidedBy } from '../facts/sided.js';
import type { Testimony } from '../facts/sides.js';
import { groupBy, idsOf, neighbouringRuns } from '../runs.js';
import { differencesAt, fieldOf, pairOf, recordFrame, returnFrame, type Scene } from '../scene.js';
import type { WordedDifference } from '../worded.js';
import { movedBy } from './moved-pages.js';
import { needless } from './needless.js';

/** Pages that must come and did not, in film order. */
export function wanting(scene: Scene): PairRef[] {
  return [...fieldOf(scene, 'not-delivered'), ...fieldOf(scene, 'not-scanned')]
    .flatMap((difference) => difference.pairs)
    .filter((ref) => recordFrame(scene, ref)?.deliver === true && recordFrame(scene, ref)?.kind === 'page')
    .sort((a, b) => a.alignment - b.alignment || a.pair - b.pair);
}

/** Nothing speaks against the record. */
const SURE: Testimony = { cause: 'vendor-image', evidence: [] };

/** Pages that did not come, of issues of which others did. */
export function missingPages(scene: Scene): Candidate[] {
  const refs = wanting(scene).filter((ref) => pairOf(scene, ref).slot);
  const runs = neighbouringRuns(refs);
  return runs.map((run) => {
    const first = run[0];
    const issue = first === undefined ? null : (recordFrame(scene, first)?.issue ?? null);
    const words = framesInWords(rangeOf(scene, run).frames);
    const torn = fieldOf(scene, 'absence-extra').filter((difference) => {
      const absence = difference.absence === null ? undefined : scene.returned.absences[difference.absence];
      return run.some((ref) => {
        const mine = recordFrame(scene, ref);
        const entry = mine?.issue == null ? undefined : scene.record.issues[mine.issue];
        if (absence === undefined || entry === undefined) return false;
        const samePage =
          (absence.order !== null && absence.order === mine?.order) ||
          (absence.page !== null && absence.page.toUpperCase() === mine?.pageKey);
        const sameIssue = absence.title === entry.title && absence.date?.day != null && absence.date.day === entry.date?.day;
        return samePage && sameIssue && (absence.edition ?? 1) === (entry.edition ?? 1);
      });
    });
    const byIssue = groupBy(run, (ref) => recordFrame(scene, ref)?.issue ?? null);
    const shifted = [...byIssue].flatMap(([one, list]) => (one === null ? [] : laterOrders(scene, one, list, -list.length)));
    const name = byIssue.size > 1 ? counted(byIssue.size, 'issue') : issueName(scene, issue);
    const pages =
      run.length === 1
        ? `page ${first === undefined ? '?' : (recordFrame(scene, first)?.page ?? recordFrame(scene, first)?.order ?? '?')}`
        : counted(run.length, 'page');
    const unmatched = run.some((ref) => returnFrame(scene, ref) !== undefined);
    const { cause, evidence } = byIssue.size > 1 ? SURE : needless(scene, run, issue);
    const told = draft(scene, {
      code: torn.length > 0 ? 'absence-stated-wrongly' : 'page-not-delivered',
      // an image that came outside any issue was scanned; only its place is wrong
      cause: unmatched ? 'vendor-metadata' : 'vendor-image',
      about: run,
      explains: [
        ...idsOf(run.flatMap((ref) => differencesAt(scene, ref, 'not-delivered'))),
        ...idsOf(torn),
        ...shifted,
        ...idsOf([...byIssue.keys()].flatMap((one) => leftFiles(scene, one))),
      ],
      field: 'deliver',
      collation: 'to be delivered',
      return: torn.length > 0 ? 'stated as absent' : unmatched ? 'delivered outside any issue' : 'did not come',
      says:
        torn.length > 0
          ? `${capital(pages)} of ${name} is stated as absent, but lies on ${words}.`
          : `${capital(pages)} of ${name} (${words}) ${run.length === 1 ? 'was' : 'were'} ${unmatched ? 'delivered outside any issue' : 'not delivered'}.`,
      instruction: `Deliver ${words} as ${pages} of ${name}${torn.length > 0 ? ', and take back the statement that it is absent' : ''}${shifted.length > 0 ? '; restore the order of the pages after it' : ''}.`,
      rescan: 'no',
      billable: unmatched ? [] : [{ class: 'page', change: run.length }],
      evidence: cause === 'collation' ? evidence : [],
    });
    return candidate(cause === 'collation' ? { ...sidedBy(cause, words, told, 'the film'), billable: [] } : told);
  });
}

/** Order and label differences of later pages of an issue that are off by exactly `step`. */
function laterOrders(scene: Scene, issue: number, refs: readonly PairRef[], step: number): number[] {
  const last = refs.at(-1);
  if (last === undefined) return [];
  const own = recordFrame(scene, last)?.order ?? null;
  // An issue may go on on the next reel, and a page that follows in the issue may have been filmed before.
  const later = (scene.pairsOfRecordIssue.get(issue) ?? []).filter(
    (ref) =>
      ref.alignment > last.alignment ||
      (ref.alignment === last.alignment && (ref.pair > last.pair || (own !== null && (recordFrame(scene, ref)?.order ?? 0) > own))),
  );
  return idsOf(movedBy(scene, later, step));
}

/** Files that lie beside the document of an issue and that no page names: where a page is missing they are that page's. */
function leftFiles(scene: Scene, issue: number | null): readonly WordedDifference[] {
  const home = issue === null ? null : mainDocument(scene, issue);
  const document = home === null ? undefined : scene.returned.issues[home]?.place.document;
  if (document === undefined) return [];
  const folder = document.slice(0, document.lastIndexOf('/') + 1);
  return fieldOf(scene, 'document').filter(({ problem }) => {
    const found = problem === null ? undefined : scene.returned.problems[problem];
    return found?.code === 'file-not-listed' && found.place.document?.startsWith(folder) === true && folder !== '';
  });
}
