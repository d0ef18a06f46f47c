import type { Refused, SamplePlan, Series } from '../model/sample.js';
import { limitingQualityPlan } from './limiting-quality.js';
import { standingAfter } from './saved.js';
import { sharePlan } from './share-plan.js';
import { tablePlan } from './table-plan.js';

/** The plan that the terms in `plan` give for a lot of this size: the same plan, unless it was changed or is for another lot. A series decides how strict a table plan is. */
export function planAgain(plan: SamplePlan, lot: number, series: Series | null): SamplePlan | Refused {
  switch (plan.kind) {
    case 'limiting-quality':
      return limitingQualityPlan({ lot, limit: plan.limit, risk: plan.risk, accept: plan.accept });
    case 'share':
      return sharePlan({ lot, percent: plan.percent, atLeast: plan.atLeast, accept: plan.accept, stated: plan.stated });
    case 'acceptance-quality-limit': {
      const standing = series === null ? plan.severity : standingAfter(series).severity;
      // Taken up again after it was discontinued, inspection is tightened.
      const severity = standing === 'discontinued' ? 'tightened' : standing;
      return tablePlan({ lot, level: plan.level, severity, aql: plan.aql });
    }
  }
}
