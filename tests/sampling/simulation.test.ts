import { describe, expect, it } from 'vitest';
import { drawNumbers } from '../../src/sampling/draw.js';
import { countInterval } from '../../src/sampling/interval.js';
import { passes } from '../../src/sampling/operating-curve.js';

const LOTS = 2000;

/** Places of wrong pages in a lot: all of some issues of `together` pages, beginning anywhere; `together` 1 scatters them. */
function faults(seed: string, lot: number, bad: number, together: number): ReadonlySet<number> {
  const groups = drawNumbers(`faults of ${seed}`, lot / together, bad / together);
  return new Set(groups.flatMap(({ number }) => Array.from({ length: together }, (_, page) => (number - 1) * together + page + 1)));
}

interface Simulated {
  readonly accepted: number;
  readonly covered: number;
}

function simulate(
  name: string,
  plan: { readonly lot: number; readonly size: number; readonly accept: number },
  bad: number,
  together: number,
): Simulated {
  const intervals = Array.from({ length: plan.size + 1 }, (_, wrong) =>
    wrong > bad ? null : countInterval({ lot: plan.lot, sample: plan.size, wrong }, { top: 1n, bottom: 20n }),
  );
  let accepted = 0;
  let covered = 0;
  for (let i = 1; i <= LOTS; i++) {
    const seed = `${name} lot ${i}`;
    const wrongPages = faults(seed, plan.lot, bad, together);
    const wrong = drawNumbers(seed, plan.lot, plan.size).filter(({ number }) => wrongPages.has(number)).length;
    if (wrong <= plan.accept) accepted++;
    const interval = intervals[wrong];
    if (interval !== null && interval !== undefined && interval.low <= bad && bad <= interval.high) covered++;
  }
  return { accepted: accepted / LOTS, covered: covered / LOTS };
}

/** Five standard errors: a right program fails one such comparison in 1.7 million, and the seeds are fixed anyway. */
function simulationError(chance: number): number {
  return 5 * Math.sqrt((chance * (1 - chance)) / LOTS);
}

describe('2,000 lots drawn and judged', () => {
  it.each([
    ['scattered faults', 800, 60, 1, 16, 1],
    ['scattered faults, none put up with', 400, 45, 0, 8, 1],
    ['whole issues of eight wrong', 800, 60, 1, 16, 8],
    ['whole issues of eight wrong, many', 800, 40, 3, 80, 8],
  ] as const)('%s (lot %d, sample %d, accept %d, %d wrong)', (name, lot, size, accept, bad, together) => {
    const { accepted, covered } = simulate(name, { lot, size, accept }, bad, together);
    const chance = passes({ lot, size, accept, reject: accept + 1 }, bad);
    // pages drawn singly: the chance does not depend on how the wrong ones lie
    expect(Math.abs(accepted - chance)).toBeLessThan(simulationError(chance));
    expect(covered).toBeGreaterThanOrEqual(0.95);
  });

  it('with whole issues drawn and issues counted, as many wrong pages hide far better behind the same number of pages', () => {
    // 100 issues of eight, 2 wrong; 60 pages are 7 issues and a half
    const issues = simulate('issues', { lot: 100, size: 8, accept: 0 }, 2, 1);
    const chance = passes({ lot: 100, size: 8, accept: 0, reject: 1 }, 2);
    expect(Math.abs(issues.accepted - chance)).toBeLessThan(simulationError(chance));
    expect(issues.covered).toBeGreaterThanOrEqual(0.95);
    expect(chance).toBeGreaterThan(2 * passes({ lot: 800, size: 64, accept: 0, reject: 1 }, 16));
  });

  it('the computed example of clusters: 13 of 1,250 issues of 8 wrong', () => {
    // 200 random pages 0.121; 25 whole issues 0.768 (computed in exact arithmetic)
    expect(passes({ lot: 10000, size: 200, accept: 0, reject: 1 }, 104)).toBeCloseTo(0.121, 3);
    expect(passes({ lot: 1250, size: 25, accept: 0, reject: 1 }, 13)).toBeCloseTo(0.768, 3);
  });
});
