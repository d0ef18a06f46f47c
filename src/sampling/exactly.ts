import type { Share } from './decimal.js';
import { hypergeometric } from './probability.js';

/** Units in a lot, wrong ones among them, units in the sample, and how many wrong ones are asked about; all whole, as for `hypergeometric`. */
export interface Asked {
  readonly lot: number;
  readonly bad: number;
  readonly sample: number;
  readonly count: number;
}

/** Chances that lie nearer to each other than this share of the limit are compared in whole numbers; floating point is right to 1e-14. */
const CLOSE = 1e-9;

/** Whether a sample holds at most `count` wrong units with a chance of no more than `limit`. A tie is a yes: decided in whole numbers, not by the last digit of a floating-point number. */
export function atMostWithin(asked: Asked, limit: Share): boolean {
  const { lot, bad, sample, count } = asked;
  return within(hypergeometric(lot, bad, sample, count).atMost, limit, () => exactAtMost(asked));
}

/** Whether it holds more than `count` with a chance of no more than `limit`; a tie is a yes. */
export function aboveWithin(asked: Asked, limit: Share): boolean {
  const { lot, bad, sample, count } = asked;
  return within(hypergeometric(lot, bad, sample, count).above, limit, () => {
    const { top, bottom } = exactAtMost(asked);
    return { top: bottom - top, bottom };
  });
}

/** Whether a chance is no more than a limit; `exact` gives it in whole numbers where floating point cannot tell. */
function within(chance: number, limit: Share, exact: () => Share): boolean {
  const bound = Number(limit.top) / Number(limit.bottom);
  if (Math.abs(chance - bound) > bound * CLOSE) return chance < bound;
  const { top, bottom } = exact();
  return top * limit.bottom <= limit.top * bottom;
}

/**
 * The chance of at most `count` wrong units as a fraction of whole numbers. With `few` for the lesser of sample and wrong units and `many` for the greater
 * it is the sum of C(few, x) [many]x [lot - many](few - x) over [lot]few, where [a]k is a (a - 1) ... (a - k + 1): only `few` factors, whatever the lot.
 */
export function exactAtMost({ lot, bad, sample, count }: Asked): Share {
  const few = Math.min(bad, sample);
  const many = Math.max(bad, sample);
  const low = Math.max(0, few - (lot - many));
  let term = falling(many, low) * falling(lot - many, few - low);
  for (let x = 1; x <= low; x++) term = (term * BigInt(few - x + 1)) / BigInt(x);
  let top = 0n;
  for (let x = low; x <= Math.min(count, few); x++) {
    top += term;
    term = (term * BigInt(few - x) * BigInt(many - x)) / (BigInt(x + 1) * BigInt(lot - many - few + x + 1));
  }
  return { top, bottom: falling(lot, few) };
}

function falling(from: number, factors: number): bigint {
  let product = 1n;
  for (let at = 0; at < factors; at++) product *= BigInt(from - at);
  return product;
}
