import { describe, expect, it } from 'vitest';
import type { SamplePlan } from '../../src/model/sample.js';
import { countAtLeast, percentShare } from '../../src/sampling/decimal.js';
import { leastSample, limitingQualityPlan } from '../../src/sampling/limiting-quality.js';
import { operatingCurve, passes, protection } from '../../src/sampling/operating-curve.js';
import { hypergeometric } from '../../src/sampling/probability.js';
import { sharePlan } from '../../src/sampling/share-plan.js';
import { tablePlan } from '../../src/sampling/table-plan.js';
import { planInWords, protectionInWords } from '../../src/sampling/words.js';
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
