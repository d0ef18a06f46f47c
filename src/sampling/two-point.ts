/** Chance that a sample of `size` with acceptance number `accept` passes. */
export type Passing = (size: number, accept: number) => number;

/** A sample size and the number of wrong units that still passes. */
export interface SizeAndAccept {
  readonly size: number;
  readonly accept: number;
}

/**
 * The smallest sample that passes good lots with at least `keep` and bad ones with at most `risk`; null where none up to `most` units does.
 * `good` and `bad` give the chance of passing at each of the two qualities; both fall as the sample grows.
 */
export function twoPointPlan(good: Passing, keep: number, bad: Passing, risk: number, most: number): SizeAndAccept | null {
  let size = 1;
  for (let accept = 0; accept < most; accept++) {
    // more wrong units allowed means a larger sample for the same risk, so the search never goes back
    while (size <= most && bad(size, accept) > risk) size++;
    if (size > most) return null;
    if (good(size, accept) >= keep) return { size, accept };
  }
  return null;
}

/** The standard normal deviate that 95 % of cases keep within on both sides (any table of the normal distribution). */
const NORMAL_95 = 1.959963984540054;

/**
 * The sample that estimates a share near `share` to within `within` on each side, 95 times in 100; for a lot of `lot` units, or endless.
 * The usual approximation: `n = N P (1 - P) / ((N - 1) (e / z)^2 + P (1 - P))`, rounded up.
 */
export function sizeForPrecision(share: number, within: number, lot: number): number {
  const spread = share * (1 - share);
  const unit = (within / NORMAL_95) ** 2;
  return Math.ceil(Number.isFinite(lot) ? (lot * spread) / ((lot - 1) * unit + spread) : spread / unit);
}
