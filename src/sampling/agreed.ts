import type { Sampling } from '../model/agreement.js';
import type { SamplePlan, SampleUnit } from '../model/sample.js';
import { cannotReject } from './operating-curve.js';

/** The share of a lot and the least count that a share plan takes where nobody says otherwise. */
export const USUAL_SHARE = { percent: '10', atLeast: 10 } as const;

/**
 * Whether a plan protects as the agreement asks: of its kind and unit, no weaker in any number, and able to reject. A table plan is on normal or
 * tightened, unless the switching rules of a series say otherwise.
 */
export function isAgreedPlan(plan: SamplePlan, unit: SampleUnit, bySeries: boolean, agreed: Sampling): boolean {
  if (unit !== agreed.unit || plan.kind !== agreed.plan || cannotReject(plan)) return false;
  switch (plan.kind) {
    case 'limiting-quality':
      return Number(plan.limit) <= Number(agreed.limitingQuality) && Number(plan.risk) <= Number(agreed.risk);
    case 'share':
      return Number(plan.percent) >= Number(USUAL_SHARE.percent) && plan.atLeast >= USUAL_SHARE.atLeast && plan.accept === 0;
    case 'acceptance-quality-limit':
      return plan.level === agreed.level && Number(plan.aql) === Number(agreed.aql) && (bySeries || plan.severity !== 'reduced');
  }
}
