import type { SampleUnit } from '../model/sample.js';
import { highestCount } from './interval.js';

/** How long one look takes where nobody says otherwise, in seconds: common practice, no source. */
export const SECONDS: Readonly<Record<SampleUnit, number>> = { page: 30, issue: 120 };

/** The time there is, and how long a look takes. */
export interface TimeWish {
  readonly minutes: number;
  readonly seconds: number;
}

/** What can be looked at in the time there is, of one lot, and what is known then if all of it is right. */
export interface InTime extends TimeWish {
  /** Units of all lots that can be looked at, and those of them that fall to this lot. */
  readonly all: number;
  readonly size: number;
  /** With 95 %, no more than so many units of the lot are wrong then. */
  readonly atMost: number;
}

/** Shares out the time over lots in proportion to their sizes, by the largest remainders, and says what each learns. */
export function inTime(lots: readonly number[], { minutes, seconds }: TimeWish): readonly InTime[] {
  const total = lots.reduce((sum, lot) => sum + lot, 0);
  const all = Math.min(total, Math.floor((minutes * 60) / seconds));
  const shares = lots.map((lot) => Math.floor((all * lot) / total));
  const byRemainder = lots
    .map((lot, at) => ({ at, rest: (all * lot) % total }))
    .toSorted((a, b) => b.rest - a.rest || a.at - b.at)
    .slice(0, all - shares.reduce((sum, share) => sum + share, 0));
  const more = new Set(byRemainder.map(({ at }) => at));
  return lots.map((lot, at) => {
    const size = (shares[at] ?? 0) + (more.has(at) ? 1 : 0);
    return { minutes, seconds, all, size, atMost: highestCount({ lot, sample: size, wrong: 0 }, { top: 1n, bottom: 20n }) };
  });
}
