import { type Candidate, candidate } from '../choose.js';
import { counted, draft, framesInWords, issueName, rangeOf } from '../draft.js';
import { issueOf } from '../film/pages.js';
import { follows } from '../film/witnesses.js';
import { groupBy, idsOf, inFilmOrder } from '../runs.js';
import { returnFrame, type Scene } from '../scene.js';
import type { WordedDifference } from '../worded.js';

/** From so many issues on, and so large a share of those that could have it, one slip is taken to run through the whole return. */
const MANY = 5;
const SHARE = 0.8;
/** So many page labels gone from one issue are one slip. */
const PAGES = 3;

/** What was counted from the wrong end in every issue, or on every page of one, is one finding, not one for each place. */
export function everywhere(scene: Scene, left: readonly WordedDifference[]): Candidate[] {
  return [...numbersMoved(scene, left), ...fromZero(scene, left)];
}

/** Issue numbers that are wrong by as much over several issues in a row: the count went wrong once. */
function numbersMoved(scene: Scene, left: readonly WordedDifference[]): Candidate[] {
  const runs: { by: number; list: WordedDifference[] }[] = [];
  const step = (one: WordedDifference): number => Number(one.returned) - Number(one.collation);
  const wrong = left
    .filter((one) => one.field === 'issueNumber' && Number.isInteger(step(one)))
    .sort((a, b) => (a.pairs[0]?.alignment ?? 0) - (b.pairs[0]?.alignment ?? 0) || (a.pairs[0]?.pair ?? 0) - (b.pairs[0]?.pair ?? 0));
  for (const one of wrong) {
    const last = runs.at(-1);
    if (last?.by === step(one) && follows(scene, last.list.at(-1)?.recordIssue ?? null, one.recordIssue)) last.list.push(one);
    else runs.push({ by: step(one), list: [one] });
  }
  return runs.flatMap(({ by, list }) => {
    if (list.length < PAGES) return [];
    const refs = inFilmOrder(list.flatMap((one) => one.pairs));
    const words = framesInWords(rangeOf(scene, refs).frames);
    const [from, to] = [list[0]?.collation ?? '?', list.at(-1)?.collation ?? '?'];
    return [
      candidate(
        draft(scene, {
          code: 'issue-number-differs',
          cause: 'vendor-metadata',
          about: refs,
          recordIssue: list[0]?.recordIssue ?? null,
          explains: idsOf(list),
          field: 'issueNumber',
          collation: `${from} to ${to}`,
          return: `${list[0]?.returned ?? '?'} to ${list.at(-1)?.returned ?? '?'}`,
          says: `The issue numbers of ${counted(list.length, 'issue')} in a row (${words}) are ${String(Math.abs(by))} too ${by < 0 ? 'low' : 'high'} in the return; the record has ${from} to ${to}.`,
          instruction: `Give these issues the numbers that are printed on them: ${list.map((one) => one.collation ?? '?').join(', ')}.`,
        }),
      ),
    ];
  });
}

/** Issues whose pages are counted from 0. */
function fromZero(scene: Scene, left: readonly WordedDifference[]): Candidate[] {
  const groups = [
    ...groupBy(
      left.filter((one) => one.field === 'order'),
      (one) => issueOf(scene, one),
    ),
  ].filter(([, list]) => {
    const low = list.every((one) => Number(one.returned) === Number(one.collation) - 1);
    return low && list.length > 1 && list.some((one) => one.pairs.some((ref) => returnFrame(scene, ref)?.order === 0));
  });
  const all = groups.length >= MANY && groups.length >= scene.record.issues.length * SHARE;
  return (all ? [groups.flatMap(([, list]) => list)] : groups.map(([, list]) => list)).map((list) => {
    const refs = inFilmOrder(list.flatMap((one) => one.pairs));
    const first = list[0] === undefined ? null : issueOf(scene, list[0]);
    const words = framesInWords(rangeOf(scene, refs).frames);
    const of = all ? counted(groups.length, 'issue') : issueName(scene, first);
    return candidate(
      draft(scene, {
        code: 'page-order-differs',
        cause: 'vendor-metadata',
        about: refs,
        recordIssue: first,
        ...(all ? { title: null, date: null, edition: null } : {}),
        explains: idsOf(list),
        page: null,
        field: 'order',
        collation: 'counted from 1',
        return: 'counted from 0',
        says: `The places of the pages of ${of} (${words}) are counted from 0; they must be counted from 1.`,
        instruction: `Add 1 to the place of each page of ${of}.`,
        constant: true,
      }),
    );
  });
}
