import { describe, expect, it } from 'vitest';
import { verifyCase } from '../bench/in-memory.js';
import { type Series, several } from '../forge/algebra/draw.js';

/** Series that no figure is taken from, and how many cases of each. */
const SEEDS = [101, 102, 103, 104];
const CASES = 24;

describe('whatever comes together in a bad return', () => {
  it.each(SEEDS)('is told, every difference of it: three, five or ten mistakes drawn with seed %i', async (seed) => {
    const series: Series = { seed, pages: 30 };
    let tried = 0;
    for (const count of [3, 5, 10])
      for (let at = 0; at < CASES; at += 1) {
        const one = several(series, at, count);
        if (one === null) continue;
        const broke = await verifyCase(one).then(
          ({ findings }) => (findings.verdict.decision === 'accept' ? 'accepted' : null),
          (error: unknown) => String(error),
        );
        expect([count, at, broke]).toEqual([count, at, null]);
        tried += 1;
      }
    expect(tried).toBeGreaterThan(CASES * 2);
  });
});
