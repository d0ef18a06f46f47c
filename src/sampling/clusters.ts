import type { CountInterval, IssueSize } from '../model/sample.js';

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

/** The size that counts for the design effect where clusters differ: the mean of the sizes, each weighed by itself (a cluster of 8 is met by 8 of its pages). */
export function weighedSize(sizes: readonly number[]): number {
  const sum = sizes.reduce((total, size) => total + size, 0);
  return sum === 0 ? 0 : sizes.reduce((total, size) => total + size * size, 0) / sum;
}

/** What a sample saw of the issues of a lot, where a fact is right or wrong for a whole issue. */
export interface SeenIssues {
  /** Pages of each issue that is known to be wrong. */
  readonly wrong: readonly number[];
  /** Issues that nobody saw, by the number of their pages. */
  readonly unseen: readonly IssueSize[];
}

/**
 * How many issues can be wrong where `pages` is the interval of wrong pages: those known to be wrong, and of the others the smallest that make up the upper
 * end, the largest that make up the lower. Pages drawn singly follow the hypergeometric distribution however they hang together, so the interval of pages is
 * exact, and each set of wrong issues that it allows has so many pages: the interval of issues holds at least as surely, whatever the sizes.
 */
export function issuesAmong(pages: CountInterval, { wrong, unseen }: SeenIssues): CountInterval {
  const known = wrong.reduce((sum, size) => sum + size, 0);
  const rising = unseen.toSorted((a, b) => a.pages - b.pages);
  let high = wrong.length;
  let room = pages.high - known;
  for (const { pages: size, issues } of rising) {
    const fit = Math.max(0, Math.min(issues, Math.floor(room / size)));
    high += fit;
    room -= fit * size;
  }
  let low = wrong.length;
  let need = pages.low - known;
  for (const { pages: size, issues } of rising.toReversed()) {
    const taken = Math.max(0, Math.min(issues, Math.ceil(need / size)));
    low += taken;
    need -= taken * size;
  }
  return { low, high };
}

/** The other way round: how many pages can be wrong where whole issues were drawn and `issues` is the exact interval of wrong ones. */
export function pagesAmong(issues: CountInterval, { wrong, unseen }: SeenIssues): CountInterval {
  const known = wrong.reduce((sum, size) => sum + size, 0);
  const rising = unseen.toSorted((a, b) => a.pages - b.pages);
  const sum = (order: readonly IssueSize[], count: number): number => {
    let left = Math.max(0, count - wrong.length);
    let total = known;
    for (const { pages: size, issues: many } of order) {
      const taken = Math.min(left, many);
      total += taken * size;
      left -= taken;
    }
    return total;
  };
  return { low: sum(rising, issues.low), high: sum(rising.toReversed(), issues.high) };
}
