import { daysBetween } from '../../calendar/civil.js';
import { type Candidate, candidate } from '../choose.js';
import { counted, draft, framesInWords, rangeOf } from '../draft.js';
import { dateTestimony, follows } from '../film/witnesses.js';
import { idsOf, inFilmOrder } from '../runs.js';
import { recordIssueOf, returnIssueOf, type Scene } from '../scene.js';
import type { WordedDifference } from '../worded.js';
import { asEditions, mainDates, sameDocument } from './issue-dates.js';

/** So many issues in a row that are wrong by as much are one slip. */
const YEARS = 2;
const DAYS = 3;

/** Issues in a row whose dates are wrong by the same number of years, as where the year was not turned in January, or of days. */
export function datesMoved(scene: Scene): Candidate[] {
  const runs: { by: string; list: WordedDifference[] }[] = [];
  for (const difference of mainDates(scene)) {
    const by = moved(scene, difference);
    const last = runs.at(-1);
    const before = last?.list.at(-1)?.recordIssue ?? null;
    if (by !== null && last?.by === by && follows(scene, before, difference.recordIssue)) last.list.push(difference);
    else if (by !== null) runs.push({ by, list: [difference] });
  }
  return runs.flatMap(({ by, list }) => (list.length >= (by.endsWith('years') ? YEARS : DAYS) ? [run(scene, by, list)] : []));
}

/** `-1 years`, `1 days`: what was added to the right date; null where either date is none. */
function moved(scene: Scene, difference: WordedDifference): string | null {
  const right = recordIssueOf(scene, difference.recordIssue)?.date?.day ?? null;
  const given = returnIssueOf(scene, difference.returnIssue)?.date?.day ?? null;
  if (right === null || given === null) return null;
  if (right.slice(4) === given.slice(4)) return `${String(Number(given.slice(0, 4)) - Number(right.slice(0, 4)))} years`;
  return `${String(daysBetween(right, given))} days`;
}

function run(scene: Scene, by: string, list: readonly WordedDifference[]): Candidate {
  const pairs = inFilmOrder(list.flatMap((difference) => difference.pairs));
  const words = framesInWords(rangeOf(scene, pairs).frames);
  const dates = list.map((difference) => difference.collation ?? '?');
  const [amount, unit] = [Number(by.split(' ')[0]), by.endsWith('years') ? 'year' : 'day'];
  const first = list[0];
  const testimony = dateTestimony(scene, first?.recordIssue ?? -1, first?.returnIssue ?? -1);
  return candidate(
    draft(scene, {
      code: 'date-differs',
      cause: testimony.cause,
      about: pairs,
      recordIssue: first?.recordIssue ?? null,
      explains: [...idsOf(list), ...list.flatMap((difference) => sameDocument(scene, difference))],
      field: 'date',
      collation: dates.join(', '),
      return: list.map((difference) => difference.returned ?? '?').join(', '),
      says: `The dates of ${counted(list.length, 'issue')} in a row (${dates[0] ?? '?'} to ${dates.at(-1) ?? '?'}, ${words}) are ${counted(Math.abs(amount), unit)} too ${amount < 0 ? 'early' : 'late'} in the return.`,
      instruction: `Give these issues the dates ${dates.join(', ')}, in film order${asEditions(scene, list)}.`,
      evidence: testimony.evidence,
    }),
  );
}
