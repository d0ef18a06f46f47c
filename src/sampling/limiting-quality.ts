import type { LimitingQualityPlan, Refused } from '../model/sample.js';
import { chance, countAtLeast, lotMistake, percentShare, type Share } from './decimal.js';
import { atMostWithin } from './exactly.js';
import { hypergeometric } from './probability.js';

/** What a limiting-quality plan is made from: units in the lot, limit in percent, risk as a chance, wrong units to put up with. */
export interface LimitingQualityWish {
  readonly lot: number;
  readonly limit: string;
  readonly risk: string;
  readonly accept: number;
}

/**
 * The smallest sample under which a lot at the limit passes with no more than the risk; exact for the lot (sampling without replacement).
 * The limit is the least whole count that is at least the stated percentage of the lot, and never less than one unit.
 */
export function limitingQualityPlan({ lot, limit, risk, accept }: LimitingQualityWish): LimitingQualityPlan | Refused {
  const share = percentShare(limit);
  const beta = chance(risk);
  const refused: string[] = [];
  const mistake = lotMistake(lot);
  if (mistake !== null) refused.push(mistake);
  if (share === null) refused.push(`The limiting quality is "${limit}". Write a percentage above 0 and up to 100, such as 1 or 0.65.`);
  if (beta === null) refused.push(`The risk is "${risk}". Write a chance between 0 and 1, such as 0.05.`);
  if (!Number.isSafeInteger(accept) || accept < 0) refused.push(`The acceptance number is ${accept}. It is a whole number, 0 or more.`);
  if (refused.length > 0 || share === null || beta === null) return { refused };
  const limitCount = countAtLeast(share, lot);
  const size = leastSample(lot, limitCount, beta, accept);
  if (size === null) {
    const units = limitCount === 1 ? '1 unit' : `${limitCount} units`;
    return {
      refused: [
        `${limit} % of this lot are ${units}, and the plan puts up with ${accept}: no sample can reject such a lot. Choose an acceptance number under ${limitCount}.`,
      ],
    };
  }
  const passes = hypergeometric(lot, limitCount, size, accept).atMost;
  return { kind: 'limiting-quality', lot, size, accept, reject: accept + 1, limit, limitCount, risk, passes };
}

/** The smallest sample under which a lot with `bad` wrong units passes with a chance of at most `beta`, a tie included; null where none can reject it. */
export function leastSample(lot: number, bad: number, beta: Share, accept: number): number | null {
  if (bad <= accept) return null;
  // the chance only falls as the sample grows, and is 0 once the whole lot is drawn
  let low = 0;
  let high = lot;
  while (high - low > 1) {
    const middle = Math.floor((low + high) / 2);
    if (atMostWithin({ lot, bad, sample: middle, count: accept }, beta)) high = middle;
    else low = middle;
  }
  return high;
}
