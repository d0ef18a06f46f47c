import type { PublicationPattern } from '../model/collation-record.js';
import { dayNumber, fromDayNumber, isDay, weekday, weekdayOfNumber } from './civil.js';
import { type RegularityRule, readRegularity } from './regularity.js';

/** What the patterns say about one day. `no-statement` where no pattern covers it, which is never "not published". */
export type DayStatement = 'expected' | 'omitted' | 'not-a-day-of-issue' | 'no-statement';

/** The patterns in force on a day (`YYYY-MM-DD`): a pattern without `from` or `to` is open there, one without days of publication says nothing. */
export function patternsOn(patterns: readonly PublicationPattern[], day: string): readonly PublicationPattern[] {
  return patterns.filter(
    (pattern) => hasDays(pattern) && (pattern.from === undefined || pattern.from <= day) && (pattern.to === undefined || pattern.to >= day),
  );
}

/** What a dated list of patterns says about a day (`YYYY-MM-DD`); where two patterns overlap the day is expected if either expects it. */
export function statementFor(patterns: readonly PublicationPattern[], day: string): DayStatement {
  const inForce = patternsOn(patterns, day);
  if (inForce.length === 0) return 'no-statement';
  const onDay = inForce.filter((pattern) => isUsual(pattern, day));
  if (onDay.length === 0) return 'not-a-day-of-issue';
  return onDay.every((pattern) => omits(pattern, day)) ? 'omitted' : 'expected';
}

/** Every day between two days, both included, on which the patterns expect an issue, in order; none when `from` lies after `to`. */
export function expectedDays(patterns: readonly PublicationPattern[], from: string, to: string): readonly string[] {
  const first = dayNumber(from);
  const last = dayNumber(to);
  const days: string[] = [];
  const plain = patterns.every(({ regularity }) => regularity === undefined);
  const weekdays = new Set(patterns.flatMap((pattern) => pattern.days));
  for (let number = first; number <= last; number += 1) {
    if (plain && !weekdays.has(weekdayOfNumber(number))) continue;
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

/** By its weekdays, or by what the regularity pattern says is published. */
function isUsual(pattern: PublicationPattern, day: string): boolean {
  return pattern.days.includes(weekday(day)) || rulesOf(pattern).some(({ says, holds }) => says === 'published' && holds(day));
}

function omits(pattern: PublicationPattern, day: string): boolean {
  const own = pattern.omitted?.some((entry) => entry === day || entry === day.slice(5)) ?? false;
  return own || rulesOf(pattern).some(({ says, holds }) => says === 'omitted' && holds(day));
}

function hasDays(pattern: PublicationPattern): boolean {
  return pattern.days.length > 0 || rulesOf(pattern).some(({ says }) => says === 'published');
}

/** A run of forty years asks for the same pattern fifteen thousand times. */
const KNOWN = new WeakMap<PublicationPattern, readonly RegularityRule[]>();

function rulesOf(pattern: PublicationPattern): readonly RegularityRule[] {
  if (pattern.regularity === undefined) return [];
  const known = KNOWN.get(pattern) ?? readRegularity(pattern.regularity) ?? [];
  KNOWN.set(pattern, known);
  return known;
}
