import { describe, expect, it } from 'vitest';
import { exactAtMost } from '../../src/sampling/exactly.js';
import { countInterval, highestCount } from '../../src/sampling/interval.js';
import { leastSample } from '../../src/sampling/limiting-quality.js';
import { cannotReject, protection } from '../../src/sampling/operating-curve.js';
import { sharePlan } from '../../src/sampling/share-plan.js';
import { protectionInWords } from '../../src/sampling/words.js';
import { exactHypergeometric, type Fraction } from './exact.js';

const share = (top: number, bottom: number): Fraction => ({ top: BigInt(top), bottom: BigInt(bottom) });
/** Whether a chance is at most the limit, by the definition and in whole numbers. */
const within = (chance: Fraction, limit: Fraction): boolean => chance.top * limit.bottom <= limit.top * chance.bottom;
const above = ({ top, bottom }: Fraction): Fraction => ({ top: bottom - top, bottom });

describe('chances in whole numbers', () => {
  it('are those of the definition, C(bad, x) C(good, n - x) / C(lot, n), for every small lot', () => {
    for (let lot = 1; lot <= 14; lot++)
      for (let bad = 0; bad <= lot; bad++)
        for (let sample = 0; sample <= lot; sample++)
          for (let count = 0; count <= sample; count++) {
            const ours = exactAtMost({ lot, bad, sample, count });
            const theirs = exactHypergeometric(lot, bad, sample, count);
            expect(ours.top * theirs.bottom).toBe(theirs.top * ours.bottom);
          }
  });
});

describe('ties', () => {
  it('are decided as they are: one wrong page of 20, 19 drawn, passes with exactly 1/20', () => {
    // 1 - 19/20 = 1/20: a chance of at most 5 % is kept, although the nearest floating-point number may lie above it
    expect(leastSample(20, 1, share(1, 20), 0)).toBe(19);
    for (let lot = 20; lot <= 2000; lot += 20) expect(leastSample(lot, 1, share(1, 20), 0)).toBe((lot * 19) / 20);
    for (let lot = 10; lot <= 2000; lot += 10) expect(leastSample(lot, 1, share(1, 10), 0)).toBe((lot * 9) / 10);
  });

  it('and everything beside them: the least samples of all lots up to 40, by the definition', () => {
    for (const limit of [share(1, 20), share(1, 10), share(1, 4), share(1, 3), share(3, 7)])
      for (let lot = 1; lot <= 40; lot++)
        for (let bad = 1; bad <= lot; bad += 3)
          for (const accept of [0, 1, 3]) {
            let least: number | null = null;
            for (let size = 1; size <= lot && least === null; size++)
              if (within(exactHypergeometric(lot, bad, size, accept), limit)) least = size;
            expect([lot, bad, accept, leastSample(lot, bad, limit, accept)]).toEqual([lot, bad, accept, bad <= accept ? null : least]);
          }
  });

  it('of intervals and of what a plan protects against, by the definition, for all lots up to 30', () => {
    for (const alpha of [share(1, 20), share(1, 5)])
      for (let lot = 1; lot <= 30; lot++)
        for (let sample = 0; sample <= lot; sample += 2)
          for (let wrong = 0; wrong <= sample; wrong++) {
            const half = { top: alpha.top, bottom: alpha.bottom * 2n };
            const possible = Array.from({ length: lot + 1 }, (_, bad) => bad).filter(
              (bad) => bad >= wrong && bad <= lot - (sample - wrong),
            );
            const tooMany = (bad: number, limit: Fraction): boolean => within(exactHypergeometric(lot, bad, sample, wrong), limit);
            const tooFew = (bad: number): boolean => wrong > 0 && within(above(exactHypergeometric(lot, bad, sample, wrong - 1)), half);
            const kept = possible.filter((bad) => !tooMany(bad, half) && !tooFew(bad));
            expect(countInterval({ lot, sample, wrong }, alpha)).toEqual({ low: kept[0], high: kept.at(-1) });
            expect(highestCount({ lot, sample, wrong }, alpha)).toBe(possible.filter((bad) => !tooMany(bad, alpha)).at(-1) ?? wrong);
          }
  });

  it('of what a plan protects against: exactly 1 in 20 and 1 in 10 count as so often', () => {
    expect(protection({ lot: 20, size: 19, accept: 0, reject: 1 })).toMatchObject({ passesOneInTwenty: 1, passesOneInTen: 1 });
    expect(protection({ lot: 20, size: 18, accept: 0, reject: 1 })).toMatchObject({ passesOneInTen: 1, passesOneInTwenty: 2 });
    // passes with 19/20 exactly
    expect(protection({ lot: 20, size: 1, accept: 0, reject: 1 })).toMatchObject({ usuallyPasses: 1 });
  });
});

describe('a plan that cannot reject', () => {
  it.each([
    [3, 3, true],
    [3, 2, false],
    [10, 9, false],
    [10, 40, true],
  ])('looks at %d and puts up with %d: %s', (size, accept, cannot) => {
    const plan = sharePlan({ lot: 100, percent: '1', atLeast: size, accept, stated: '1' });
    if ('refused' in plan) throw new Error(plan.refused.join(' '));
    expect(cannotReject(plan)).toBe(cannot);
    expect(protectionInWords(plan, 'page')[0]?.startsWith('This plan cannot reject the lot')).toBe(cannot);
  });
});
