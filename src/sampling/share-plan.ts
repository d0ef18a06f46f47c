import type { Refused, SharePlan } from '../model/sample.js';
import { countAtLeast, lotMistake, percentShare } from './decimal.js';
import { hypergeometric } from './probability.js';

/** What a share plan is made from: percent of the lot, at least so many units, wrong ones to put up with, the error rate to speak about. */
export interface ShareWish {
  readonly lot: number;
  readonly percent: string;
  readonly atLeast: number;
  readonly accept: number;
  readonly stated: string;
}

/**
 * A percentage of the lot or a count, whichever is more, and never more than the lot. Such a rule protects small lots little and
 * large lots much, so the plan carries the chance that a lot with the stated error rate passes.
 */
export function sharePlan({ lot, percent, atLeast, accept, stated }: ShareWish): SharePlan | Refused {
  const share = percentShare(percent);
  const rate = percentShare(stated);
  const refused: string[] = [];
  const mistake = lotMistake(lot);
  if (mistake !== null) refused.push(mistake);
  if (share === null) refused.push(`The share to draw is "${percent}". Write a percentage above 0 and up to 100, such as 10.`);
  if (rate === null) refused.push(`The error rate to state is "${stated}". Write a percentage above 0 and up to 100, such as 1.`);
  if (!Number.isSafeInteger(atLeast) || atLeast < 0) refused.push(`The least count is ${atLeast}. It is a whole number, 0 or more.`);
  if (!Number.isSafeInteger(accept) || accept < 0) refused.push(`The acceptance number is ${accept}. It is a whole number, 0 or more.`);
  if (refused.length > 0 || share === null || rate === null) return { refused };
  const size = Math.min(lot, Math.max(countAtLeast(share, lot), atLeast));
  const statedCount = countAtLeast(rate, lot);
  const passes = hypergeometric(lot, statedCount, size, accept).atMost;
  return { kind: 'share', lot, size, accept, reject: accept + 1, percent, atLeast, stated, statedCount, passes };
}
