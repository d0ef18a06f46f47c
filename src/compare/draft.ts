import type { Difference } from '../model/difference.js';

/** A difference before it is numbered; what is left out is null or empty. */
export type Draft = Pick<Difference, 'field' | 'form'> & Partial<Omit<Difference, 'id' | 'field' | 'form'>>;

/** Numbers drafts in their order. */
export function numbered(drafts: readonly Draft[]): Difference[] {
  return drafts.map((draft, id) => ({
    id,
    pairs: [],
    recordIssue: null,
    returnIssue: null,
    absence: null,
    otherAbsence: null,
    expected: [],
    given: null,
    about: null,
    ref: null,
    twin: null,
    problem: null,
    ...draft,
  }));
}
