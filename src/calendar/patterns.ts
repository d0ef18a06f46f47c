import type { PublicationPattern } from '../model/collation-record.js';
import { dayNumber, fromDayNumber, isDay, weekday, weekdayOfNumber } from './civil.js';

/** What the patterns say about one day. `no-statement` where no pattern covers it, which is never "not published". */
export type DayStatement = 'expected' | 'omitted' | 'not-a-day-of-issue' | 'no-statement';

/** The patterns in force on a day (`YYYY-MM-DD`): a pattern without `from` or `to` is open there, one without weekdays says nothing. */
export function patternsOn(patterns: readonly PublicationPattern[], day: string): readonly PublicationPattern[] {
  return patterns.filter(({ from, to, days }) => days.length > 0 && (from === undefined || from <= day) && (to === undefined || to >= day));
}

/** What a dated list of patterns says about a day (`YYYY-MM-DD`); where two patterns overlap the day is expected if either expects it. */
export function statementFor(patterns: readonly PublicationPattern[], day: string): DayStatement {
  const inForce = patternsOn(patterns, day);
  if (inForce.length === 0) return 'no-statement';
  const onWeekday = inForce.filter(({ days }) => days.includes(weekday(day)));
  if (onWeekday.length === 0) return 'not-a-day-of-issue';
  return onWeekday.every((pattern) => omits(pattern, day)) ? 'omitted' : 'expected';
}

/** Every day between two days, both included, on which the patterns expect an issue, in order; none when `from` lies after `to`. */
export function expectedDays(patterns: readonly PublicationPattern[], from: string, to: string): readonly string[] {
  const first = dayNumber(from);
  const last = dayNumber(to);
  const days: string[] = [];
  for (let number = first; number <= last; number += 1) {
    const on = weekdayOfNumber(number);
    if (!patterns.some(({ days: weekdays }) => weekdays.includes(on))) continue;
    const day = fromDayNumber(number);
    if (statementFor(patterns, day) === 'expected') days.push(day);
  }
  return days;
}

/** The numbers of pages that are usual on a day, from the patterns in force; empty where none says so. */
export function usualPages(patterns: readonly PublicationPattern[], day: string): readonly number[] {
  return [...new Set(patternsOn(patterns, day).flatMap(({ usualPages: pages }) => pages ?? []))].sort((a, b) => a - b);
}

/** True for an entry of `omitted`: `MM-DD` for every year, 29 February included, or a full day. */
export function isOmittedEntry(text: string): boolean {
  // 2000 was a leap year.
  return isDay(text) || (/^\d{2}-\d{2}$/.test(text) && isDay(`2000-${text}`));
}

function omits(pattern: PublicationPattern, day: string): boolean {
  return pattern.omitted?.some((entry) => entry === day || entry === day.slice(5)) ?? false;
}
