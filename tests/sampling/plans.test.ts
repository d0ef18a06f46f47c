import { describe, expect, it } from 'vitest';
import type { SamplePlan } from '../../src/model/sample.js';
import { chance, countAtLeast, percentShare } from '../../src/sampling/decimal.js';
import { inTime, SECONDS } from '../../src/sampling/in-time.js';
import { leastSample, limitingQualityPlan } from '../../src/sampling/limiting-quality.js';
import { operatingCurve, passes, protection } from '../../src/sampling/operating-curve.js';
import { hypergeometric } from '../../src/sampling/probability.js';
import { sharePlan } from '../../src/sampling/share-plan.js';
import { tablePlan } from '../../src/sampling/table-plan.js';
import { sizeForPrecision, twoPointPlan } from '../../src/sampling/two-point.js';
import { planInWords, protectionInWords, timeInWords } from '../../src/sampling/words.js';
import { asNumber, exactHypergeometric } from './exact.js';

function plan<T extends SamplePlan>(made: T | { readonly refused: readonly string[] }): T {
  if ('refused' in made) throw new Error(made.refused.join(' '));
  return made;
}

describe('limiting quality', () => {
  // ISPM 31 (IPPC, FAO 2008), Appendix 2, Table 1, 95 % confidence, from memory; it counts floor(N p) wrong units
  const quarantine: readonly (readonly [number, readonly (readonly [number, number])[]])[] = [
    [
      100,
      [
        [5, 45],
        [2, 78],
        [1, 95],
      ],
    ],
    [
      1000,
      [
        [50, 57],
        [20, 138],
        [10, 258],
        [5, 450],
        [1, 950],
      ],
    ],
    [
      10000,
      [
        [500, 59],
        [200, 148],
        [100, 294],
        [50, 581],
        [10, 2588],
      ],
    ],
    [
      20000,
      [
        [1000, 59],
        [400, 148],
        [200, 296],
        [100, 589],
        [20, 2781],
      ],
    ],
  ];
  it.each(quarantine)('a lot of %d: the samples of ISPM 31', (lot, cells) => {
    for (const [bad, size] of cells) expect([lot, bad, leastSample(lot, bad, { top: 1n, bottom: 20n }, 0)]).toEqual([lot, bad, size]);
  });

  it('is the least sample that will do, by whole-number arithmetic', () => {
    for (const [lot, limit, accept] of [
      [1000, '1', 0],
      [800, '1', 0],
      [812, '2.5', 1],
      [12000, '0.65', 3],
    ] as const) {
      const made = plan(limitingQualityPlan({ lot, limit, risk: '0.05', accept }));
      expect(asNumber(exactHypergeometric(lot, made.limitCount, made.size, accept))).toBeLessThanOrEqual(0.05);
      expect(asNumber(exactHypergeometric(lot, made.limitCount, made.size - 1, accept))).toBeGreaterThan(0.05);
    }
  });

  it('gives the chances that were computed exactly', () => {
    // exact integer arithmetic; R 4.2.2 phyper agrees to 6e-16 for the last three
    expect(hypergeometric(1000, 10, 258, 0).atMost).toBeCloseTo(0.049795803273, 12);
    expect(hypergeometric(1000, 10, 257, 0).atMost).toBeCloseTo(0.050475145746, 12);
    expect(hypergeometric(800, 8, 249, 0).atMost).toBeCloseTo(0.049839158059, 12);
    expect(hypergeometric(800, 8, 248, 0).atMost).toBeCloseTo(0.050572086854, 12);
    expect(hypergeometric(20000, 200, 500, 0).atMost).toBeCloseTo(0.00616265513767767, 15);
    expect(hypergeometric(20000, 200, 500, 5).atMost).toBeCloseTo(0.615993828879863, 14);
    expect(hypergeometric(20000, 200, 500, 10).atMost).toBeCloseTo(0.987852778660977, 14);
  });

  it('counts the limit in whole units, exactly: 7 % of 100 is 7', () => {
    const count = (text: string, lot: number): number => {
      const share = percentShare(text);
      return share === null ? Number.NaN : countAtLeast(share, lot);
    };
    expect(Math.ceil(0.07 * 100)).toBe(8); // what binary fractions would say
    expect([count('7', 100), count('1', 850), count('0.65', 10), count('100', 3), count('1', 1)]).toEqual([7, 9, 1, 3, 1]);
    expect(['0', '101', '1,5', '-1', '1e1', '', '100.1'].map(percentShare)).toEqual([null, null, null, null, null, null, null]);
  });

  it('refuses what cannot be, each in a sentence', () => {
    expect(limitingQualityPlan({ lot: 100, limit: '1', risk: '0.05', accept: 1 })).toEqual({
      refused: [
        '1 % of this lot are 1 unit, and the plan puts up with 1: no sample can reject such a lot. Choose an acceptance number under 1.',
      ],
    });
    const made = limitingQualityPlan({ lot: 1.5, limit: 'one', risk: '5', accept: -1 });
    expect('refused' in made ? made.refused.length : 0).toBe(4);
  });

  it('draws the single unit of a lot of one', () => {
    expect(plan(limitingQualityPlan({ lot: 1, limit: '1', risk: '0.05', accept: 0 }))).toMatchObject({ size: 1, limitCount: 1, passes: 0 });
  });
});

describe('a share or a count', () => {
  // the first two are 40/50 and 90/100 by hand, the others rounded from whole-number arithmetic, which the last line compares in full
  it.each([
    [50, 10, 0.8],
    [100, 10, 0.9],
    [1000, 100, 0.347],
    [10000, 1000, 0.0000251],
  ])('ten percent or ten of %d draws %d; one percent wrong passes with %d', (lot, size, chance) => {
    const made = plan(sharePlan({ lot, percent: '10', atLeast: 10, accept: 0, stated: '1' }));
    expect(made.size).toBe(size);
    expect(made.passes / chance).toBeCloseTo(1, 2);
    expect(made.passes).toBeCloseTo(asNumber(exactHypergeometric(lot, made.statedCount, size, 0)), 13);
  });

  it('never draws more than the lot, and refuses what is no share', () => {
    expect(plan(sharePlan({ lot: 6, percent: '10', atLeast: 10, accept: 0, stated: '1' }))).toMatchObject({ size: 6, passes: 0 });
    expect(sharePlan({ lot: 6, percent: 'ten', atLeast: -1, accept: 0.5, stated: '0' })).toMatchObject({ refused: { length: 4 } });
  });
});

describe('what a plan protects against', () => {
  const made = plan(limitingQualityPlan({ lot: 1000, limit: '1', risk: '0.05', accept: 0 }));

  it('the operating curve falls from sure to hardly ever, by the exact chances', () => {
    const curve = operatingCurve(made);
    expect(curve[0]).toEqual({ wrong: 0, share: 0, passes: 1 });
    expect(curve.at(-1)?.passes).toBeLessThanOrEqual(0.001);
    for (const [index, point] of curve.entries()) {
      if (index > 0) expect(point.passes).toBeLessThan(curve[index - 1]?.passes ?? 0);
      expect(Math.abs(point.passes - asNumber(exactHypergeometric(1000, point.wrong, 258, 0)))).toBeLessThan(1e-13);
    }
  });

  it('the crossings are where the curve crosses', () => {
    const { usuallyPasses, passesOneInTen, passesOneInTwenty } = protection(made);
    expect(passesOneInTwenty).toBe(10);
    expect(passes(made, (passesOneInTen ?? 0) - 1)).toBeGreaterThan(0.1);
    expect(passes(made, passesOneInTen ?? 0)).toBeLessThanOrEqual(0.1);
    expect(passes(made, usuallyPasses)).toBeGreaterThanOrEqual(0.95);
    expect(passes(made, usuallyPasses + 1)).toBeLessThan(0.95);
    expect(protection({ lot: 5, size: 0, accept: 0, reject: 1 })).toEqual({
      usuallyPasses: 5,
      passesOneInTen: null,
      passesOneInTwenty: null,
    });
  });

  it('in reduced inspection a lot passes below the rejection number', () => {
    const reduced = plan(tablePlan({ lot: 900, level: 'II', severity: 'reduced', aql: '2.5' }));
    expect(reduced).toMatchObject({ accept: 2, reject: 5, size: 32 });
    expect(passes(reduced, 40)).toBeCloseTo(asNumber(exactHypergeometric(900, 40, 32, 4)), 13);
  });

  it('is said in plain sentences', () => {
    expect(planInWords(made, 'page')).toBe(
      'Limiting quality 1 %, risk 0.05: draw 258 of 1000 pages; the lot passes with at most 0 wrong, fails with 1 or more.',
    );
    expect(protectionInWords(made, 'page').at(-1)).toBe('A lot with 10 pages wrong (1.00 %) passes at most 5 times in 100.');
    const reduced = plan(tablePlan({ lot: 900, level: 'II', severity: 'reduced', aql: '2.5' }));
    expect(protectionInWords(reduced, 'issue').at(-1)).toBe('The cell of the table that gives this plan rests on one source alone.');
  });
});

describe('the time there is', () => {
  it('is shared out by the largest remainders (A. Hamilton, 1792)', () => {
    // quotas 2.1, 3.0 and 4.9 of ten
    expect(inTime([21, 30, 49], { minutes: 5, seconds: 30 }).map(({ all, size }) => [all, size])).toEqual([
      [10, 2],
      [10, 3],
      [10, 5],
    ]);
    // equal remainders: the lot that comes first
    expect(inTime([5, 5, 5], { minutes: 2, seconds: 60 }).map(({ size }) => size)).toEqual([1, 1, 0]);
    expect(inTime([4, 6], { minutes: 999, seconds: 1 }).map(({ size }) => size)).toEqual([4, 6]);
    expect(inTime([100], { minutes: 1, seconds: 35 })[0]?.all).toBe(1);
  });

  it('teaches what a clean sample of that size teaches', () => {
    // ISPM 31, Table 1: 45 of 100 find 5 wrong ones in 95 of 100 draws, so at most 4 are left where none is found
    expect(inTime([100], { minutes: 45, seconds: 60 })[0]?.atMost).toBe(4);
    expect(SECONDS).toEqual({ page: 30, issue: 120 });
  });

  it('is told in a sentence or two', () => {
    const share = plan(sharePlan({ lot: 100, percent: '10', atLeast: 1, accept: 0, stated: '1' }));
    const [one] = inTime([100], { minutes: 45, seconds: 60 });
    expect(timeInWords(one!, share, 'page', 0)).toEqual([
      'At 60 seconds for a page there is time for 45 pages in 45 minutes: all of them in this lot. If all of these are right, at most 4 pages of the lot (4.00 %) are wrong, with 95 % certainty.',
      'The plan takes 10 minutes of it for this lot: 10 pages.',
    ]);
    const [small, large] = inTime([1, 99], { minutes: 1, seconds: 30 });
    expect(timeInWords(small!, { ...share, size: 1, lot: 1 }, 'issue', 1)).toEqual([
      'At 30 seconds for an issue there is time for 2 issues in 1 minutes: none of them falls to this lot.',
      'The plan takes 1 minute of it for this lot: 1 issue, and 1 beside them for a reason.',
    ]);
    expect(timeInWords(large!, share, 'page', 0)[0]).toContain('all of them in this lot. If');
    const [half] = inTime([50, 50], { minutes: 49, seconds: 60 });
    expect(timeInWords(half!, share, 'page', 0)[0]).toContain(': 25 of them in this lot.');
    expect(timeInWords({ ...one!, atMost: 1 }, share, 'page', 0)[0]).toContain('at most 1 page of the lot (1.00 %) is wrong');
  });
});

describe('numbers as they are written', () => {
  it('of a chance lie between 0 and 1, with or without the nought before the point', () => {
    expect([chance('0.05'), chance('.05'), chance(' 0.1 ')]).toEqual([
      { top: 5n, bottom: 100n },
      { top: 5n, bottom: 100n },
      { top: 1n, bottom: 10n },
    ]);
    for (const text of ['0', '1', '0.0', '1.05', '0.05 %', '5', '', '-0.05', '00.5', '0.1234567890123']) expect(chance(text)).toBeNull();
  });

  it('of a percentage lie above 0 and up to 100', () => {
    expect([percentShare('100'), percentShare(' 0.65 ')]).toEqual([
      { top: 100n, bottom: 100n },
      { top: 65n, bottom: 10_000n },
    ]);
    for (const text of ['0', '0.0', '100.1', '101', '1000', '-1', '.5', '5.', '5 %', '', '1,5']) expect(percentShare(text)).toBeNull();
  });

  it('of a share plan are whole and not negative', () => {
    const wish = { lot: 40, percent: '10', atLeast: 0, accept: 0, stated: '1' };
    expect(plan(sharePlan(wish))).toMatchObject({ size: 4, accept: 0, reject: 1, statedCount: 1 });
    for (const wrong of [
      { accept: -1 },
      { accept: 0.5 },
      { atLeast: -1 },
      { atLeast: 1.5 },
      { percent: '0' },
      { stated: '101' },
      { lot: 0 },
      { lot: 2.5 },
    ])
      expect(sharePlan({ ...wish, ...wrong })).toEqual({ refused: [expect.any(String)] });
  });
});

describe('samples without a lot', () => {
  const binomialNone = (rate: number) => (size: number, accept: number) => (accept === 0 ? (1 - rate) ** size : 1);

  it('allow nothing wrong where the two qualities lie far apart', () => {
    // 0.9 ^ 22 = 0.0985 is the first power under 0.1, and 0.999 ^ 22 = 0.978
    expect(twoPointPlan(binomialNone(0.001), 0.95, binomialNone(0.1), 0.1, 500)).toEqual({ size: 22, accept: 0 });
    expect(twoPointPlan(binomialNone(0.001), 0.95, binomialNone(0.1), 0.1, 22)).toEqual({ size: 22, accept: 0 });
    expect(twoPointPlan(binomialNone(0.001), 0.95, binomialNone(0.1), 0.1, 21)).toBeNull();
  });

  it('for precision look at the whole lot where it is small', () => {
    expect(sizeForPrecision(0.5, 0.01, 10)).toBe(10);
    expect(sizeForPrecision(0.5, 0.1, Infinity)).toBe(97);
  });
});

describe('the operating curve', () => {
  it('of a plan that cannot fail goes to the end of the lot', () => {
    const never = { lot: 20, size: 2, accept: 5, reject: 6 };
    expect(operatingCurve(never, 4).map(({ wrong, passes: chanceToPass }) => [wrong, chanceToPass])).toEqual(
      [0, 5, 10, 15, 20].map((wrong) => [wrong, 1]),
    );
    expect(
      protectionInWords(plan({ ...plan(sharePlan({ lot: 20, percent: '10', atLeast: 1, accept: 0, stated: '1' })), ...never }), 'page'),
    ).toEqual([
      'This plan cannot reject the lot: it looks at 2 pages and fails only with 6 or more wrong. Choose a larger sample, or an acceptance number under 2.',
    ]);
  });

  it('ends at the least count that hardly ever passes', () => {
    const strict = { lot: 1000, size: 100, accept: 0, reject: 1 };
    const last = operatingCurve(strict).at(-1)!;
    expect(last.passes).toBeLessThanOrEqual(0.001);
    expect(passes(strict, last.wrong - 1)).toBeGreaterThan(0.001);
    expect(last.share).toBe(last.wrong / 1000);
  });
});
