import type { CurvePoint, PlanNumbers } from '../model/sample.js';
import type { Share } from './decimal.js';
import { type Asked, aboveWithin, atMostWithin } from './exactly.js';
import { hypergeometric } from './probability.js';

/** The chance that a lot with `wrong` wrong units passes under the plan, exact for the lot. In reduced inspection it passes below the rejection number. */
export function passes(plan: PlanNumbers, wrong: number): number {
  return hypergeometric(plan.lot, wrong, plan.size, plan.reject - 1).atMost;
}

/** Whether no sample, however bad, can fail the lot under this plan: it looks at fewer units than must be wrong. */
export function cannotReject({ size, reject }: PlanNumbers): boolean {
  return size < reject;
}

/** What a plan protects against, in counts of wrong units in the lot. */
export interface Protection {
  /** The most wrong units with which a lot passes at least 95 times in 100. */
  readonly usuallyPasses: number;
  /** The fewest with which it passes at most 10, and at most 5 times in 100; null where none is rejected so often. */
  readonly passesOneInTen: number | null;
  readonly passesOneInTwenty: number | null;
}

/** Finds the counts at which the operating curve crosses the chances that people ask about. */
export function protection(plan: PlanNumbers): Protection {
  const asked = (bad: number): Asked => ({ lot: plan.lot, bad, sample: plan.size, count: plan.reject - 1 });
  const fewest = (chance: Share): number | null => {
    if (!atMostWithin(asked(plan.lot), chance)) return null;
    let low = -1;
    let high = plan.lot;
    while (high - low > 1) {
      const middle = Math.floor((low + high) / 2);
      if (atMostWithin(asked(middle), chance)) high = middle;
      else low = middle;
    }
    return high;
  };
  let low = 0;
  let high = plan.lot + 1;
  while (high - low > 1) {
    const middle = Math.floor((low + high) / 2);
    if (aboveWithin(asked(middle), { top: 1n, bottom: 20n })) low = middle;
    else high = middle;
  }
  return { usuallyPasses: low, passesOneInTen: fewest({ top: 1n, bottom: 10n }), passesOneInTwenty: fewest({ top: 1n, bottom: 20n }) };
}

/** The operating curve: `points` steps or fewer between no wrong unit and the count that hardly ever passes (1 in 1,000). */
export function operatingCurve(plan: PlanNumbers, points = 24): readonly CurvePoint[] {
  let last = 1;
  while (last < plan.lot && passes(plan, last) > 0.001) last = Math.min(plan.lot, last * 2);
  // the doubling may overshoot by nearly half; step back to the least count that hardly ever passes
  let low = Math.floor(last / 2);
  while (last - low > 1) {
    const middle = Math.floor((low + last) / 2);
    if (passes(plan, middle) > 0.001) low = middle;
    else last = middle;
  }
  const counts = new Set<number>();
  for (let i = 0; i <= points; i++) counts.add(Math.round((last * i) / points));
  return [...counts].map((wrong) => ({ wrong, share: wrong / plan.lot, passes: passes(plan, wrong) }));
}
