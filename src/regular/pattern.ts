import { WEEKDAYS, weekdayOfNumber } from '../calendar/civil.js';
import type { PublicationPattern, Weekday } from '../model/collation-record.js';

/** So many weeks show on which weekdays a paper came out. */
const LEAST_WEEKS = 6;
/** A weekday on which it came out in most weeks is one of its days. */
const MOST = 0.6;
/** Where the days found do not hold nearly all issues, the paper changed its days, or had none. */
const NEARLY_ALL = 0.85;

/** A day beyond a break so much longer than the usual distance, and than a month, does not measure how long the paper came out: its year may be a slip. */
const FAR = 8;
const MONTH = 31;
/** So many days may lie beyond. */
const FEW = 0.1;

/** The first and the last day of those that lie together: a year that is a slip lies beyond a long break. */
function spanOf(days: readonly number[]): readonly [first: number, last: number] {
  const sorted = [...new Set(days)].toSorted((a, b) => a - b);
  const steps = sorted.slice(1).map((day, at) => day - (sorted[at] ?? day));
  const usual = steps.toSorted((a, b) => a - b)[Math.floor(steps.length / 2)] ?? 0;
  const isFar = (step: number | undefined): boolean => (step ?? 0) > Math.max(MONTH, usual * FAR);
  const few = Math.floor(sorted.length * FEW);
  const from = steps.slice(0, few).findLastIndex(isFar) + 1;
  const behind = steps.slice(steps.length - few).findIndex(isFar);
  const to = behind < 0 ? sorted.length - 1 : steps.length - few + behind;
  return [sorted[from] ?? 0, sorted[to] ?? 0];
}

/** The weekdays on which the issues of these days came out, where there are enough to tell; null where they show none. */
export function patternOf(days: readonly number[]): PublicationPattern | null {
  const [first, last] = spanOf(days);
  const weeks = (last - first) / 7 + 1;
  if (days.length < LEAST_WEEKS || weeks < LEAST_WEEKS) return null;
  const counts = new Map<Weekday, number>();
  for (const day of new Set(days)) counts.set(weekdayOfNumber(day), (counts.get(weekdayOfNumber(day)) ?? 0) + 1);
  const found = WEEKDAYS.filter((day) => (counts.get(day) ?? 0) >= weeks * MOST);
  const held = found.reduce((sum, day) => sum + (counts.get(day) ?? 0), 0);
  return found.length > 0 && held >= new Set(days).size * NEARLY_ALL ? { days: found } : null;
}
