import type { Decision } from '../model/findings.js';

const STATUS: Readonly<Record<Decision, number>> = {
  accept: 0,
  'accept-with-corrections': 1,
  'return-for-rework': 1,
  'cannot-decide': 2,
};

/** The exit status that a verdict gives; the format plays no part in it. */
export function statusOf(decision: Decision): number {
  return STATUS[decision];
}
