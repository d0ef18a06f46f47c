import type { BlankDay } from '../../model/blank-record.js';
import { dayOf, firstWeekday, type Month, monthFromNumber, monthLength, monthNumber, monthOf } from '../html/civil.js';

/** A month of the calendar: so many empty places before its first day, Monday first, and each day with what is known of it. */
export interface BlankMonth {
  readonly month: Month;
  readonly before: number;
  /** Null for a day outside the span. */
  readonly days: readonly (BlankDay | null)[];
}

/** The months in which the days lie. */
export function monthsOf(days: readonly BlankDay[]): readonly BlankMonth[] {
  const byDay = new Map(days.map((one) => [one.day, one]));
  const [first, last] = [days[0], days.at(-1)].map((one) => (one === undefined ? null : monthOf(one.day)));
  if (first == null || last == null) return [];
  const start = monthNumber(first);
  return Array.from({ length: monthNumber(last) - start + 1 }, (_, at) => {
    const month = monthFromNumber(start + at);
    return {
      month,
      before: firstWeekday(month),
      days: Array.from({ length: monthLength(month) }, (_none, index) => byDay.get(dayOf(month, index + 1)) ?? null),
    };
  });
}
