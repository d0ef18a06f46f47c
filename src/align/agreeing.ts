import type { Sequence, Step } from './cheapest.js';
import { KIND } from './features.js';
import { kindCosts, sameFacts, showsPage } from './place-cost.js';

/**
 * The steps of two sequences that agree in everything, without any table; null where they do not, or where the way leads out of a band of that half-width.
 *
 * From both ends backwards each step is the first of those that the table would take there: both places where they cost nothing together, a free place of the
 * record, a free place of the return. Nothing costs less than nothing, so a way that comes to the beginning like this is the one that the table gives: wherever
 * it took a step, the way before it costs nothing either, and a run on one side always costs its opening. A way that ends before the beginning proves nothing.
 */
export function agreeingSteps(record: Sequence, returned: Sequence, width: number): Step[] | null {
  const steps: Step[] = [];
  let i = record.features.length;
  let j = returned.features.length;
  while (i > 0 || j > 0) {
    if (Math.abs(i - j) > width) return null;
    if (i > 0 && j > 0 && costNothing(record, returned, i - 1, j - 1)) steps.push({ record: --i, returned: --j });
    else if (record.free[i - 1] === 1) steps.push({ record: --i, returned: null });
    else if (returned.free[j - 1] === 1) steps.push({ record: null, returned: --j });
    else return null;
  }
  return steps.reverse();
}

/** Whether two places taken for the same frame cost nothing. */
function costNothing({ features: a }: Sequence, { features: b }: Sequence, i: number, j: number): boolean {
  const here = a.kind[i] ?? 0;
  const there = b.kind[j] ?? 0;
  if (there === KIND.page && showsPage(here)) return here === KIND.page && sameFacts(a, b, i, j);
  return kindCosts(here, a.second[i] === 1)[there] === 0;
}
