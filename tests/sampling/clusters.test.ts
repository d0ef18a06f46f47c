import { describe, expect, it } from 'vitest';
import type { IssueSize } from '../../src/model/sample.js';
import { designEffect, effectiveSize, issuesAmong, pagesAmong, weighedSize } from '../../src/sampling/clusters.js';
import { inTime } from '../../src/sampling/in-time.js';
import { countInterval } from '../../src/sampling/interval.js';

const ALPHA = { top: 1n, bottom: 20n };

function bySize(sizes: readonly number[]): readonly IssueSize[] {
  return [...new Set(sizes)].map((pages) => ({ pages, issues: sizes.filter((size) => size === pages).length }));
}

/** Every way to take `count` of these. */
function* chosen<T>(all: readonly T[], count: number, from = 0): Generator<readonly T[]> {
  if (count === 0) yield [];
  else for (let at = from; at <= all.length - count; at++) for (const rest of chosen(all, count - 1, at + 1)) yield [all[at]!, ...rest];
}

/** All issues with a set of wrong ones among them. */
function* wrongSets(issues: number): Generator<ReadonlySet<number>> {
  for (let mask = 0; mask < 2 ** issues; mask++)
    yield new Set(Array.from({ length: issues }, (_, at) => at).filter((at) => (mask >> at) % 2 === 1));
}

describe('facts that an issue shares', () => {
  // by complete enumeration: every set of wrong issues of a small lot, every sample that can be drawn from it
  it.each([
    [[1, 1, 2, 5], 4],
    [[3, 3, 3], 3],
    [[1, 2, 6], 5],
  ])('issues of %j pages, %d pages drawn: the issues that are wrong lie in the interval 95 times in 100', (sizes, drawn) => {
    const pages = sizes.flatMap((size, issue) => Array.from({ length: size }, () => issue));
    const samples = [
      ...chosen(
        pages.map((issue, at) => ({ issue, at })),
        drawn,
      ),
    ];
    for (const wrong of wrongSets(sizes.length)) {
      let covered = 0;
      for (const sample of samples) {
        const seen = new Set(sample.map(({ issue }) => issue));
        const hit = sample.filter(({ issue }) => wrong.has(issue)).length;
        const interval = issuesAmong(countInterval({ lot: pages.length, sample: drawn, wrong: hit }, ALPHA), {
          wrong: sizes.filter((_, issue) => seen.has(issue) && wrong.has(issue)),
          unseen: bySize(sizes.filter((_, issue) => !seen.has(issue))),
        });
        if (interval.low <= wrong.size && wrong.size <= interval.high) covered++;
      }
      expect(covered / samples.length).toBeGreaterThanOrEqual(0.95);
    }
  });

  it.each([
    [[1, 1, 2, 5, 8], 2],
    [[2, 2, 2, 9], 3],
    [[1, 2, 3, 4, 5, 6], 3],
  ])('issues of %j pages, %d issues drawn: the pages that are wrong lie in the interval 95 times in 100', (sizes, drawn) => {
    const samples = [
      ...chosen(
        sizes.map((size, issue) => ({ size, issue })),
        drawn,
      ),
    ];
    for (const wrong of wrongSets(sizes.length)) {
      const truth = sizes.filter((_, issue) => wrong.has(issue)).reduce((sum, size) => sum + size, 0);
      let covered = 0;
      for (const sample of samples) {
        const found = sample.filter(({ issue }) => wrong.has(issue));
        const seen = new Set(sample.map(({ issue }) => issue));
        const interval = pagesAmong(countInterval({ lot: sizes.length, sample: drawn, wrong: found.length }, ALPHA), {
          wrong: found.map(({ size }) => size),
          unseen: bySize(sizes.filter((_, issue) => !seen.has(issue))),
        });
        if (interval.low <= truth && truth <= interval.high) covered++;
      }
      expect(covered / samples.length).toBeGreaterThanOrEqual(0.95);
    }
  });

  it('take the smallest issues for the upper end and the largest for the lower', () => {
    const unseen = [
      { pages: 2, issues: 3 },
      { pages: 10, issues: 1 },
    ];
    expect(issuesAmong({ low: 12, high: 15 }, { wrong: [4], unseen })).toEqual({ low: 2, high: 4 });
    expect(pagesAmong({ low: 2, high: 3 }, { wrong: [4], unseen })).toEqual({ low: 6, high: 16 });
  });

  it('make whole issues worth as many single pages as their weighed sizes say', () => {
    // L. Kish, Survey Sampling (1965), 5.4: with equal sizes the effect is the size where the units of a cluster are alike
    expect(effectiveSize(200, designEffect(weighedSize(Array.from({ length: 25 }, () => 8)), 1))).toBe(25);
    // one issue of 100 pages and 100 of one page: (200)^2 / (100^2 + 100) = 3.96 single pages
    expect(effectiveSize(200, designEffect(weighedSize([100, ...Array.from({ length: 100 }, () => 1)]), 1))).toBeCloseTo(3.96, 2);
  });
});

describe('the time there is', () => {
  it('is shared out over the lots by their sizes, no look lost', () => {
    const [a, b, c] = inTime([100, 300, 7], { minutes: 20, seconds: 30 });
    expect([a?.all, a?.size, b?.size, c?.size]).toEqual([40, 10, 29, 1]);
  });

  it('tells what is known if all of it is right: the one-sided 95 % bound', () => {
    // sampling without replacement, exact: 80 of 850 all right, at most 29 wrong
    expect(inTime([850], { minutes: 40, seconds: 30 })[0]).toMatchObject({ size: 80, atMost: 29 });
    expect(inTime([5], { minutes: 1000, seconds: 30 })[0]).toMatchObject({ all: 5, size: 5, atMost: 0 });
  });
});
