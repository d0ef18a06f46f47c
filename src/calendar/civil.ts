import type { Weekday } from '../model/collation-record.js';

/** The days of the week in the order of ISO 8601, Monday first. */
export const WEEKDAYS: readonly Weekday[] = ['mon', 'tue', 'wed', 'thu', 'fri', 'sat', 'sun'];

/** A calendar day as three integers; the month and the day count from 1. */
export interface CivilDay {
  readonly year: number;
  readonly month: number;
  readonly day: number;
}

const DAY_SHAPE = /^(\d{4})-(\d{2})-(\d{2})$/;

/** True for a year divisible by 4, except whole centuries that are not divisible by 400. */
export function isLeapYear(year: number): boolean {
  return (year % 4 === 0 && year % 100 !== 0) || year % 400 === 0;
}

/** Number of days in a Gregorian month (1 to 12); 0 for any other month. */
export function daysInMonth(year: number, month: number): number {
  if (month < 1 || month > 12) return 0;
  if (month === 2) return isLeapYear(year) ? 29 : 28;
  return month === 4 || month === 6 || month === 9 || month === 11 ? 30 : 31;
}

/** Reads `YYYY-MM-DD` into its three integers; null for any other text and for a day that the Gregorian calendar does not have. */
export function readDay(text: string): CivilDay | null {
  const match = DAY_SHAPE.exec(text);
  if (match === null) return null;
  const year = Number(match[1]);
  const month = Number(match[2]);
  const day = Number(match[3]);
  return year >= 1 && day >= 1 && day <= daysInMonth(year, month) ? { year, month, day } : null;
}

/** True for `YYYY-MM-DD` that names a day of the Gregorian calendar, carried back before its introduction where need be. */
export function isDay(text: string): boolean {
  return readDay(text) !== null;
}

/** Writes three integers as `YYYY-MM-DD`, without asking whether the day exists. */
export function writeDay({ year, month, day }: CivilDay): string {
  return `${String(year).padStart(4, '0')}-${String(month).padStart(2, '0')}-${String(day).padStart(2, '0')}`;
}

/** Days since 1970-01-01 (negative before it) of a Gregorian day; throws a RangeError for text that is no such day. */
export function dayNumber(day: string): number {
  const civil = readDay(day);
  if (civil === null) throw new RangeError(`"${day}" is not a day written YYYY-MM-DD`);
  // A year that begins in March puts the leap day last, so the months before it have fixed lengths.
  const year = civil.month > 2 ? civil.year : civil.year - 1;
  const month = civil.month > 2 ? civil.month - 3 : civil.month + 9;
  const dayOfYear = Math.floor((153 * month + 2) / 5) + civil.day - 1;
  return 365 * year + Math.floor(year / 4) - Math.floor(year / 100) + Math.floor(year / 400) + dayOfYear - 719468;
}

/** The day `YYYY-MM-DD` that lies `number` days after 1970-01-01; throws a RangeError outside the years 1 to 9999. */
export function fromDayNumber(number: number): string {
  const shifted = number + 719468;
  const era = Math.floor(shifted / 146097);
  const dayOfEra = shifted - era * 146097;
  const yearOfEra = Math.floor(
    (dayOfEra - Math.floor(dayOfEra / 1460) + Math.floor(dayOfEra / 36524) - Math.floor(dayOfEra / 146096)) / 365,
  );
  const dayOfYear = dayOfEra - (365 * yearOfEra + Math.floor(yearOfEra / 4) - Math.floor(yearOfEra / 100));
  const monthFromMarch = Math.floor((5 * dayOfYear + 2) / 153);
  const day = dayOfYear - Math.floor((153 * monthFromMarch + 2) / 5) + 1;
  const month = monthFromMarch < 10 ? monthFromMarch + 3 : monthFromMarch - 9;
  const year = yearOfEra + era * 400 + (month <= 2 ? 1 : 0);
  if (!Number.isInteger(number) || year < 1 || year > 9999)
    throw new RangeError(`day number ${String(number)} lies outside the years 1 to 9999`);
  return writeDay({ year, month, day });
}

/** The weekday of a Gregorian day; throws a RangeError for text that is no such day. */
export function weekday(day: string): Weekday {
  return weekdayOfNumber(dayNumber(day));
}

/** The weekday of a day number as `dayNumber` gives it. */
export function weekdayOfNumber(number: number): Weekday {
  // Day number 0, 1970-01-01, was a Thursday.
  const index = (((number + 3) % 7) + 7) % 7;
  return WEEKDAYS[index] ?? 'mon';
}

/** The day that lies `days` later (earlier when negative); throws a RangeError for text that is no day. */
export function addDays(day: string, days: number): string {
  return fromDayNumber(dayNumber(day) + days);
}

/** Whole days from the first day to the second, negative when the second lies earlier; throws a RangeError for text that is no day. */
export function daysBetween(from: string, to: string): number {
  return dayNumber(to) - dayNumber(from);
}
