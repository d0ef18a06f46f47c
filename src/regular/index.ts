import type { CollationRecord } from '../model/collation-record.js';
import type { Side } from '../model/film.js';
import { impossibleDays, irregularDays } from './days.js';
import { type Facts, factsOf, type Run, withDays } from './facts.js';
import { irregularDuplicates, irregularFrames } from './frames.js';
import { irregularIssues } from './issues.js';
import type { Irregularity } from './item.js';
import { irregularMisprints } from './misprints.js';
import { irregularRun } from './numbers.js';
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
  const odd = irregularDays(facts);
  return {
    found: [
      ...irregularFrames(facts),
      ...irregularIssues(facts),
      ...impossibleDays(facts),
      ...odd.map(({ item }) => item),
      ...ofRuns(facts, odd),
      ...irregularPages(facts),
      ...irregularMisprints(facts),
      ...irregularDuplicates(facts),
    ],
    runs: facts.runs,
  };
}

/** What the numbers and the calendar say. A day that is a slip is told once: where fewer things do not fit with the day that was meant, they are those that are told. */
function ofRuns(facts: Facts, odd: ReturnType<typeof irregularDays>): readonly Irregularity[] {
  const meant = new Map(odd.flatMap(({ issue, meant: day }) => (day === null ? [] : [[issue.key, day.real] as const])));
  return facts.runs.flatMap((run) => {
    const asWritten = irregularRun(run);
    if (asWritten.length === 0 || !run.issues.some(({ key }) => meant.has(key))) return asWritten;
    const asMeant = irregularRun(withDays(run, meant));
    return asMeant.length < asWritten.length ? asMeant : asWritten;
  });
}
