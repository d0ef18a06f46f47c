import type { CountInterval, RateInterval } from '../model/sample.js';
import type { Share } from './decimal.js';
import { aboveWithin, atMostWithin } from './exactly.js';
import { binomial } from './probability.js';

/** A sample of `sample` units from a lot of `lot`, of which `wrong` were wrong. */
export interface Seen {
  readonly lot: number;
  readonly sample: number;
  readonly wrong: number;
}

/**
 * Counts of wrong units in the lot that the sample does not contradict: exact, ties too, by inverting the test with half of `alpha` on each side
 * (1/20 gives 95 %). Both ends are counts that are not rejected; some books print the first rejected ones, one further out on each side.
 */
export function countInterval(seen: Seen, alpha: Share): CountInterval {
  const half = { top: alpha.top, bottom: alpha.bottom * 2n };
  return { low: lowestCount(seen, half), high: highestCount(seen, half) };
}

/** The highest count of wrong units in the lot that a one-sided test at `alpha` does not reject. */
export function highestCount({ lot, sample, wrong }: Seen, alpha: Share): number {
  return lastTrue(wrong, lot - (sample - wrong), (bad) => !atMostWithin({ lot, bad, sample, count: wrong }, alpha));
}

/** The lowest such count. */
function lowestCount({ lot, sample, wrong }: Seen, alpha: Share): number {
  if (wrong === 0) return 0;
  const highest = lot - (sample - wrong);
  const rejected = (bad: number): boolean => aboveWithin({ lot, bad, sample, count: wrong - 1 }, alpha);
  return rejected(wrong) ? lastTrue(wrong, highest, rejected) + 1 : wrong;
}

/** Error rates that the sample does not contradict where the lot has no end (C. J. Clopper and E. S. Pearson, 1934); `alpha` 0.05 gives 95 %. */
export function rateInterval(sample: number, wrong: number, alpha: number): RateInterval {
  return {
    low: wrong === 0 ? 0 : rateWhere((rate) => binomial(sample, rate, wrong - 1).above < alpha / 2),
    high: wrong === sample ? 1 : rateWhere((rate) => binomial(sample, rate, wrong).atMost > alpha / 2),
  };
}

/** The highest error rate that a one-sided test at `alpha` does not reject. */
export function highestRate(sample: number, wrong: number, alpha: number): number {
  return wrong === sample ? 1 : rateWhere((rate) => binomial(sample, rate, wrong).atMost > alpha);
}

/** The rate, as near as numbers lie, up to which `holds` is true; it must be true at small rates and false from some rate on. */
export function rateWhere(holds: (rate: number) => boolean): number {
  let low = 0;
  let high = 1;
  for (;;) {
    const middle = (low + high) / 2;
    if (middle <= low || middle >= high || high - low < low * 1e-16) return middle;
    if (holds(middle)) low = middle;
    else high = middle;
  }
}

function lastTrue(first: number, last: number, holds: (value: number) => boolean): number {
  let low = first;
  let high = last + 1;
  while (high - low > 1) {
    const middle = Math.floor((low + high) / 2);
    if (holds(middle)) low = middle;
    else high = middle;
  }
  return low;
}
