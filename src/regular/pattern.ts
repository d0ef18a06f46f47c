import { WEEKDAYS, weekdayOfNumber } from '../calendar/civil.js';
import type { PublicationPattern, Weekday } from '../model/collation-record.js';

/** So many weeks show on which weekdays a paper came out. */
const LEAST_WEEKS = 6;
/** A weekday on which it came out in most weeks is one of its days. */
const MOST = 0.6;
/** Where the days found do not hold nearly all issues, the paper changed its days, or had none. */
const NEARLY_ALL = 0.85;

/** The weekdays on which the issues of these days came out, where there are enough to tell; null where they show none. */
export function patternOf(days: readonly number[]): PublicationPattern | null {
  const [first, last] = [Math.min(...days), Math.max(...days)];
  const weeks = (last - first) / 7 + 1;
  if (days.length < LEAST_WEEKS || weeks < LEAST_WEEKS) return null;
  const counts = new Map<Weekday, number>();
  for (const day of new Set(days)) counts.set(weekdayOfNumber(day), (counts.get(weekdayOfNumber(day)) ?? 0) + 1);
  const found = WEEKDAYS.filter((day) => (counts.get(day) ?? 0) >= weeks * MOST);
  const held = found.reduce((sum, day) => sum + (counts.get(day) ?? 0), 0);
  return found.length > 0 && held >= new Set(days).size * NEARLY_ALL ? { days: found } : null;
}
