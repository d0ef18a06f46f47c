import type { Difference, DifferenceField } from '../model/difference.js';

/** A difference before it is numbered; what is left out is null or empty. */
export type Draft = { readonly field: DifferenceField } & Partial<Omit<Difference, 'id' | 'field'>>;

/** Numbers drafts in their order. */
export function numbered(drafts: readonly Draft[]): Difference[] {
  return drafts.map((draft, id) => ({
    id,
    pairs: [],
    recordIssue: null,
    returnIssue: null,
    absence: null,
    collation: null,
    returned: null,
    about: null,
    ref: null,
    twin: null,
    problem: null,
    ...draft,
  }));
}
