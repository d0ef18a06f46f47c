import type { Weekday } from '../../../src/model/collation-record.js';

/** Weekdays from Monday, as publication patterns write them. */
export const WEEKDAYS: readonly Weekday[] = ['mon', 'tue', 'wed', 'thu', 'fri', 'sat', 'sun'];

/** Day count of a Gregorian `YYYY-MM-DD`; 0 is 1970-01-01. Era arithmetic of 146,097 days per 400 years. */
export function dayNumber(date: string): number {
  const year = Number(date.slice(0, 4));
  const month = Number(date.slice(5, 7));
  const day = Number(date.slice(8, 10));
  const y = month <= 2 ? year - 1 : year;
  const era = Math.floor(y / 400);
  const yearOfEra = y - era * 400;
  const dayOfYear = Math.floor((153 * ((month + 9) % 12) + 2) / 5) + day - 1;
  const dayOfEra = yearOfEra * 365 + Math.floor(yearOfEra / 4) - Math.floor(yearOfEra / 100) + dayOfYear;
  return era * 146097 + dayOfEra - 719468;
}

/** The `YYYY-MM-DD` of a day count. */
export function dateOf(day: number): string {
  const z = day + 719468;
  const era = Math.floor(z / 146097);
  const dayOfEra = z - era * 146097;
  const yearOfEra = Math.floor(
    (dayOfEra - Math.floor(dayOfEra / 1460) + Math.floor(dayOfEra / 36524) - Math.floor(dayOfEra / 146096)) / 365,
  );
  const dayOfYear = dayOfEra - (365 * yearOfEra + Math.floor(yearOfEra / 4) - Math.floor(yearOfEra / 100));
  const shifted = Math.floor((5 * dayOfYear + 2) / 153);
  const dayOfMonth = dayOfYear - Math.floor((153 * shifted + 2) / 5) + 1;
  const month = shifted < 10 ? shifted + 3 : shifted - 9;
  const year = yearOfEra + era * 400 + (month <= 2 ? 1 : 0);
  return `${String(year).padStart(4, '0')}-${pad(month)}-${pad(dayOfMonth)}`;
}

/** The date `days` later. */
export function plusDays(date: string, days: number): string {
  return dateOf(dayNumber(date) + days);
}

/** Weekday of a Gregorian date. 1970-01-01 was a Thursday. */
export function weekdayOf(date: string): Weekday {
  const index = (((dayNumber(date) + 3) % 7) + 7) % 7;
  return WEEKDAYS[index] ?? 'mon';
}

/** True for a real Gregorian day written `YYYY-MM-DD`. */
export function isDay(text: string): boolean {
  return /^\d{4}-\d{2}-\d{2}$/.test(text) && dateOf(dayNumber(text)) === text;
}

function pad(n: number): string {
  return String(n).padStart(2, '0');
}
