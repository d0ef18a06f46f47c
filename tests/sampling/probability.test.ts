import { jStat } from 'jstat';
import { describe, expect, it } from 'vitest';
import { rateInterval } from '../../src/sampling/interval.js';
import { binomial, hypergeometric, poisson } from '../../src/sampling/probability.js';
import { asNumber, exactBinomial, exactHypergeometric } from './exact.js';

function apart(value: number, exact: number): number {
  return exact === 0 ? Math.abs(value) : Math.abs(value / exact - 1);
}

/** Lots to 50,000, wrong units, samples: body and both tails. */
const cases: readonly (readonly [number, number, number])[] = [
  [1, 0, 1],
  [1, 1, 1],
  [10, 3, 4],
  [120, 22, 20],
  [800, 8, 249],
  [850, 60, 80],
  [1000, 10, 258],
  [1000, 990, 300],
  [5000, 2500, 200],
  [20000, 200, 500],
  [20000, 5000, 2000],
  [50000, 50, 3000],
  [50000, 500, 1250],
  [50000, 25000, 800],
  [50000, 49990, 2000],
];

describe('chances against whole-number arithmetic', () => {
  it.each(cases)('a lot of %d with %d wrong, %d drawn: hypergeometric to 1e-12', (lot, bad, sample) => {
    const middle = Math.floor((sample * bad) / lot);
    const low = Math.max(0, sample - (lot - bad));
    const high = Math.min(bad, sample);
    const counts = new Set([low, low + 1, Math.floor((low + middle) / 2), middle - 1, middle, middle + 1, middle + 5, high - 1, high]);
    let compared = 0;
    for (const count of counts) {
      if (count < low || count > high) continue;
      const exact = asNumber(exactHypergeometric(lot, bad, sample, count));
      if (exact < 1e-250) continue;
      compared++;
      expect(apart(hypergeometric(lot, bad, sample, count).atMost, exact), `at most ${count}`).toBeLessThan(1e-12);
    }
    expect(compared).toBeGreaterThan(0);
  });

  it('draws of a lot from the other side are the same: the wrong ones left are what is not drawn', () => {
    for (const [lot, bad, sample] of cases) {
      const count = Math.floor((sample * bad) / lot);
      const drawn = hypergeometric(lot, bad, sample, count).atMost;
      const left = hypergeometric(lot, bad, lot - sample, bad - count - 1).above;
      expect(apart(drawn, left)).toBeLessThan(1e-12);
    }
  });

  it.each([
    [20, 18n, 100n, 1],
    [80, 1n, 64n, 0],
    [80, 1n, 64n, 3],
    [500, 1n, 16n, 0],
    [500, 1n, 16n, 31],
    [1250, 1n, 2n, 500],
    [2000, 3n, 1024n, 12],
  ] as const)('binomial with %d drawn at %d/%d, at most %d, to 1e-12', (sample, top, bottom, count) => {
    const rate = Number(top) / Number(bottom);
    // the rate that the program sees is the nearest number that a machine holds, so that one is compared
    const held = BigInt(2) ** 60n;
    const seen = { top: BigInt(rate * Number(held)), bottom: held };
    expect(apart(binomial(sample, rate, count).atMost, asNumber(exactBinomial(sample, seen, count)))).toBeLessThan(1e-12);
  });

  it('say nothing beyond what can be', () => {
    expect(hypergeometric(10, 0, 5, 0)).toEqual({ exactly: 1, atMost: 1, above: 0 });
    expect(hypergeometric(10, 10, 5, 4)).toEqual({ exactly: 0, atMost: 0, above: 1 });
    expect(hypergeometric(10, 3, 0, 0).atMost).toBe(1);
    expect(hypergeometric(10, 3, 5, -1)).toEqual({ exactly: 0, atMost: 0, above: 1 });
    expect(binomial(10, 0, 0).atMost).toBe(1);
    expect(binomial(10, 1, 9).atMost).toBe(0);
    expect(poisson(0, 0).atMost).toBe(1);
  });
});

/** jStat 1.9.6 (MIT), a general library of statistics; it is right to about 1e-9 in tails and better in the body. */
describe('chances against another library', () => {
  it.each(cases)('a lot of %d with %d wrong, %d drawn', (lot, bad, sample) => {
    const middle = Math.floor((sample * bad) / lot);
    for (const count of [middle - 1, middle, middle + 2]) {
      if (count < 0 || count >= Math.min(bad, sample)) continue;
      expect(hypergeometric(lot, bad, sample, count).atMost).toBeCloseTo(jStat.hypgeom.cdf(count, lot, bad, sample), 8);
    }
  });

  it.each([
    [80, 0],
    [80, 3],
    [25, 5],
    [1206, 302],
    [500, 499],
  ])('Clopper-Pearson for %d drawn, %d wrong, by the beta distribution', (sample, wrong) => {
    const { low, high } = rateInterval(sample, wrong, 0.05);
    expect(low).toBeCloseTo(wrong === 0 ? 0 : jStat.beta.inv(0.025, wrong, sample - wrong + 1), 7);
    expect(high).toBeCloseTo(jStat.beta.inv(0.975, wrong + 1, sample - wrong), 7);
  });
});

describe('where nothing is left to chance', () => {
  const never = { exactly: 0, atMost: 0, above: 1 };
  const surely = { exactly: 1, atMost: 1, above: 0 };
  const less = { exactly: 0, atMost: 1, above: 0 };

  it('a process without errors shows none, and one of errors alone shows nothing else', () => {
    expect([binomial(5, 0, 0), binomial(5, 0, 2)]).toEqual([surely, less]);
    expect([binomial(5, 1, 4), binomial(5, 1, 5), binomial(5, 1, 6)]).toEqual([never, surely, less]);
    expect([poisson(0, 0), poisson(0, 3)]).toEqual([surely, less]);
  });

  it('a lot without wrong units, of wrong ones alone, or seen whole shows what it holds', () => {
    expect(hypergeometric(10, 0, 4, 0)).toEqual(surely);
    expect([hypergeometric(10, 10, 4, 3), hypergeometric(10, 10, 4, 4)]).toEqual([never, surely]);
    expect([hypergeometric(10, 3, 10, 2), hypergeometric(10, 3, 10, 3)]).toEqual([never, surely]);
    // two right units at most can stay outside: of 8 wrong ones in 10, a sample of 4 shows 2 at least
    expect(hypergeometric(10, 8, 4, 1)).toEqual(never);
  });
});
