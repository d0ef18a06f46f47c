import { createHash } from 'node:crypto';
import { resolveAgreement } from '../../src/judge/agreement.js';
import type { Agreement } from '../../src/model/agreement.js';
import type { CollationRecord } from '../../src/model/collation-record.js';
import type { Findings } from '../../src/model/findings.js';
import type { VerificationInput } from '../../src/model/verification.js';
import { verify } from '../../src/verify.js';
import { demoAgreement, demoRecord, demoReturn } from '../forge/demonstration.js';
import type { ReturnPlan } from '../forge/plan.js';
import { type Shape, sideOfPlan, sideOfRecord } from '../support/sides.js';

const digest = (value: unknown): string => createHash('sha256').update(JSON.stringify(value)).digest('hex');

/** What may be said of a delivery beside its record and return. */
export interface Terms extends Partial<Pick<VerificationInput, 'earlier' | 'others' | 'rulings' | 'textRead'>> {
  readonly agreement?: Agreement;
  readonly shape?: Shape;
  readonly batch?: string;
  readonly received?: string;
}

/** Verifies a return in memory; the delivery after `earlier`, where that is given. */
export function delivered(record: CollationRecord, plan: ReturnPlan, terms: Terms = {}): Findings {
  const { earlier = null, shape = 'issue-mets' } = terms;
  return verify({
    record: sideOfRecord(record),
    returned: sideOfPlan(plan, shape),
    others: terms.others ?? [],
    agreement: resolveAgreement(terms.agreement ?? demoAgreement(), { pageNumber: 'printed', unnumberedPage: 'omit' }),
    rulings: terms.rulings ?? [],
    earlier,
    textRead: terms.textRead ?? false,
    run: {
      at: '2031-03-04T10:00:00Z',
      received: terms.received ?? null,
      batch: terms.batch ?? plan.batch,
      delivery: (earlier?.run.delivery ?? 0) + 1,
      profile: shape,
      inputs: [
        { role: 'collation', name: 'record.json', sha256: digest(record) },
        { role: 'batch', name: plan.batch, sha256: digest(plan) },
      ],
      remarks: [],
    },
    tool: { name: 'reeltally', version: '0' },
  });
}

/** The return of the demonstration, with some of its mistakes corrected, against its record. */
export function demoDelivered(corrected: readonly string[], terms: Terms = {}): Findings {
  return delivered(demoRecord(), demoReturn('faulty', corrected).plan, terms);
}
