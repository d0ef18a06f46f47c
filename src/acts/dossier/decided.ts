import type { DecisionRecord } from '../../model/decision.js';

/** Whether the decision ends the work on a delivery: accepted, or sent back to the vendor. */
export function isClosed(decision: DecisionRecord | null): boolean {
  return decision !== null && decision.delivery !== 'put-off';
}
