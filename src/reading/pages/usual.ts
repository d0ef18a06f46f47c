import { has, type ReadRow, valueOf } from '../read-row.js';
import type { PagesFacts } from './facts.js';

/** So many issues of a title show a usual number of pages, and such a share of those that are told of. */
const LEAST = 3;
const SHARE = 0.2;

/** The numbers of pages that are usual for each title of a sheet, by the issues of which nothing is said to be missing. */
export function usualCounts(
  rows: readonly { readonly row: ReadRow; readonly facts: PagesFacts | null }[],
): ReadonlyMap<string, ReadonlySet<number>> {
  const byTitle = new Map<string, number[]>();
  for (const { row, facts } of rows) {
    const count = facts === null ? 0 : wholeCount(facts);
    if (count === 0) continue;
    const counts = byTitle.get(valueOf(row, 'title'));
    if (counts === undefined) byTitle.set(valueOf(row, 'title'), [count]);
    else counts.push(count);
  }
  return new Map([...byTitle].map(([title, counts]) => [title, oftenIn(counts)]));
}

/** The number of pages that a cell states of an issue that is all there; 0 for any other. */
function wholeCount({ listed, gone, whole, all }: PagesFacts): number {
  if (gone.length > 0 || whole !== null || all) return 0;
  const labels = listed.flatMap((one) => (one.is === 'shots' ? one.labels : []));
  const counted = listed.find((one) => one.is === 'count');
  return counted?.is === 'count' ? counted.count : labels[0] === '1' ? labels.length : 0;
}

function oftenIn(counts: readonly number[]): ReadonlySet<number> {
  const times = new Map<number, number>();
  for (const count of counts) times.set(count, (times.get(count) ?? 0) + 1);
  return new Set([...times].flatMap(([count, often]) => (often >= Math.max(LEAST, counts.length * SHARE) ? [count] : [])));
}

/** Frames from a row to the next one of the same reel that has any; null where it cannot be told. */
export function framesUntilNext(rows: readonly ReadRow[], at: number): number | null {
  const row = rows[at];
  let behind = at + 1;
  for (let one = rows[behind]; one !== undefined && !has(one, 'first frame') && !has(one, 'pages'); one = rows[behind]) behind += 1;
  const next = rows[behind];
  if (row === undefined || next === undefined || !['', valueOf(row, 'reel')].includes(valueOf(next, 'reel'))) return null;
  const [from = '', to = ''] = [row, next].map((one) => valueOf(one, 'first frame').trim());
  return /^\d+$/.test(from) && /^\d+$/.test(to) && Number(to) >= Number(from) ? Number(to) - Number(from) : null;
}
