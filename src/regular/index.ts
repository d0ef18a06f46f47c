import type { CollationRecord } from '../model/collation-record.js';
import type { Side } from '../model/film.js';
import { impossibleDays, irregularDays } from './days.js';
import { factsOf, type Run } from './facts.js';
import { irregularDuplicates, irregularFrames } from './frames.js';
import { irregularIssues } from './issues.js';
import type { Irregularity } from './item.js';
import { irregularMisprints } from './misprints.js';
import { irregularRuns } from './numbers.js';
import { irregularPages } from './pages.js';

export type { Run } from './facts.js';
export type { Irregularity } from './item.js';

/**
 * What does not fit in a record by its own regularity: days follow the pattern and the weekday that is printed, numbers run on, an issue lies
 * together and its pages count, what is held back repeats something, frames are counted without a hole.
 */
export function irregularities(
  record: CollationRecord,
  side: Side,
): { readonly found: readonly Irregularity[]; readonly runs: readonly Run[] } {
  const facts = factsOf(record, side);
  return {
    found: [
      ...irregularFrames(facts),
      ...irregularIssues(facts),
      ...impossibleDays(facts),
      ...irregularDays(facts),
      ...irregularRuns(facts),
      ...irregularPages(facts),
      ...irregularMisprints(facts),
      ...irregularDuplicates(facts),
    ],
    runs: facts.runs,
  };
}
