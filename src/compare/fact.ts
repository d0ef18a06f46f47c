import type { Form } from '../model/difference.js';
import type { ExpectedFact, Reading } from '../model/expected.js';

/** What is so of one fact, null where it is as expected or nothing can be said. Silence is never agreement: what must be said and is not is missing. */
export function formOf({ needs, right }: ExpectedFact, given: Reading | null): Form | null {
  if (given === null) return needs === 'must' ? 'missing' : null;
  if (needs === 'must-not') return 'surplus';
  return right.length === 0 || right.some(({ key }) => key === given.key) ? null : 'other';
}

/** A reading as a list: none where nothing is written. */
export function listOf(reading: Reading | null): readonly Reading[] {
  return reading === null ? [] : [reading];
}
