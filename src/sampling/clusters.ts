import type { RateInterval } from '../model/sample.js';
import { rateInterval } from './interval.js';

/**
 * How many times more units a sample of whole clusters needs than one of single units: `1 + (size - 1) * alike` (L. Kish, 1965), with the
 * mean size of a cluster and how alike its units are, from 0 (not at all) to 1 (they stand or fall together, as the date of an issue's pages does).
 */
export function designEffect(size: number, alike: number): number {
  return 1 + (size - 1) * alike;
}

/** How many independent units a sample is worth. */
export function effectiveSize(sample: number, effect: number): number {
  return sample / effect;
}

/**
 * An interval for the error rate of pages where whole issues were drawn: Clopper-Pearson on the effective size (E. L. Korn and B. I. Graubard,
 * 1998, from memory), made wider by whole numbers: the size is rounded down, the wrong ones up for the upper end and down for the lower.
 */
export function clusteredInterval(sample: number, wrong: number, effect: number, alpha: number): RateInterval {
  const worth = Math.max(1, Math.floor(effectiveSize(sample, Math.max(1, effect))));
  const share = (wrong * worth) / sample;
  return { low: rateInterval(worth, Math.floor(share), alpha).low, high: rateInterval(worth, Math.ceil(share), alpha).high };
}
