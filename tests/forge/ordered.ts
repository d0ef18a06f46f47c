import type { Policies } from '../../src/model/agreement.js';
import { randomFrom } from './film/random.js';
import type { PlanOptions } from './plan.js';

/** What was ordered, and how a vendor works who does it. */
export interface Ordered {
  readonly policies: Partial<Policies>;
  readonly options: PlanOptions;
}

/** Policies drawn from a seed, each of its values in turn, and a way to work that keeps to them; what the policies leave open is drawn too. */
export function drawnOrder(seed: number): Ordered {
  const random = randomFrom(seed ^ 0x0bde);
  const policies: Omit<Policies, 'frameNumbers' | 'files' | 'redelivery'> = {
    pageNumber: random.pick(['intended', 'printed', 'either']),
    unnumberedPage: random.pick(['either', 'omit', 'supply']),
    printedDate: random.pick(['required', 'optional', 'never']),
    absentPages: random.pick(['stated', 'omitted', 'either']),
    absentIssues: random.pick(['either', 'stated', 'omitted']),
    targets: random.pick(['either', 'listed', 'not-listed']),
    editionOrder: random.pick(['intended', 'filmed']),
    splitExposures: random.pick(['lettered', 'separate']),
    reelNumber: random.pick(['carrier', 'source']),
  };
  const either = (policy: string, yes: string): boolean =>
    policy === 'either' || policy === 'optional' ? random.chance(500) : policy === yes;
  return {
    policies,
    options: {
      labels: either(policies.pageNumber, 'intended') ? 'intended' : 'printed',
      unnumbered: either(policies.unnumberedPage, 'supply') ? 'supply' : 'omit',
      printedDatesGiven: either(policies.printedDate, 'required'),
      absentPagesStated: either(policies.absentPages, 'stated'),
      absentIssuesStated: either(policies.absentIssues, 'stated'),
      targetsListed: either(policies.targets, 'listed'),
      editions: policies.editionOrder,
      halves: policies.splitExposures,
      reelNumber: policies.reelNumber,
    },
  };
}
