import { describe, expect, it } from 'vitest';
import { countInterval, highestCount } from '../../src/sampling/interval.js';
import { hypergeometric } from '../../src/sampling/probability.js';

const ALPHA = { top: 1n, bottom: 20n };

describe('the interval for a finite lot', () => {
  // computed in exact arithmetic, 95 %: both ends are not rejected; the last number is the one-sided upper end
  it.each([
    [850, 80, 0, 0, 36, 29],
    [850, 80, 1, 1, 55, 47],
    [850, 80, 2, 4, 71, 63],
    [10000, 200, 0, 0, 180, 147],
    [10000, 200, 3, 32, 429, 380],
    [20000, 500, 0, 0, 145, 117],
    [20000, 500, 5, 67, 460, 415],
    // Kauermann and Kuechenhoff, Stichproben (Springer 2010), pp. 53-57, print the first rejected counts: 110 to 161, and 19 above
    [300, 100, 45, 111, 160, null],
    [300, 100, 2, 2, 18, null],
    [50, 10, 3, 5, 31, null],
  ])('a lot of %d, %d drawn, %d wrong: %d to %d', (lot, sample, wrong, low, high, oneSided) => {
    expect(countInterval({ lot, sample, wrong }, ALPHA)).toEqual({ low, high });
    if (oneSided !== null) expect(highestCount({ lot, sample, wrong }, ALPHA)).toBe(oneSided);
  });

  it('is what was counted where the whole lot was looked at', () => {
    expect(countInterval({ lot: 40, sample: 40, wrong: 3 }, ALPHA)).toEqual({ low: 3, high: 3 });
    expect(countInterval({ lot: 40, sample: 0, wrong: 0 }, ALPHA)).toEqual({ low: 0, high: 40 });
  });

  it('covers at least 95 % for every possible lot, summed over every possible sample', () => {
    for (const [lot, sample] of [
      [60, 15],
      [120, 30],
      [200, 20],
    ] as const) {
      const intervals = Array.from({ length: sample + 1 }, (_, wrong) => countInterval({ lot, sample, wrong }, ALPHA));
      for (let bad = 0; bad <= lot; bad++) {
        let covered = 0;
        intervals.forEach(({ low, high }, wrong) => {
          if (low <= bad && bad <= high) covered += hypergeometric(lot, bad, sample, wrong).exactly;
        });
        expect(covered).toBeGreaterThanOrEqual(0.95 - 1e-12);
      }
    }
  });
});
