import { fromDayNumber, isDay, writeDay } from './civil.js';

/** The calendar of a title as the record writes it: Gregorian throughout, or Julian up to and including a day of the Julian calendar. */
export interface TitleCalendar {
  readonly julianUntil: string | null;
}

/** Reads `gregorian` or `julian-until YYYY-MM-DD`, the last day by the Julian calendar; empty text is Gregorian, anything else null. */
export function readCalendar(text: string): TitleCalendar | null {
  const trimmed = text.trim().toLowerCase();
  if (trimmed === '' || trimmed === 'gregorian') return { julianUntil: null };
  const match = /^julian-until (\d{4}-\d{2}-\d{2})$/.exec(trimmed);
  const last = match?.[1];
  return last !== undefined && julianToGregorian(last) !== null ? { julianUntil: last } : null;
}

/** The Gregorian day of a day `YYYY-MM-DD` of the Julian calendar (`1900-02-29` is `1900-03-13`); null for text that is no Julian day. */
export function julianToGregorian(text: string): string | null {
  const match = /^(\d{4})-(\d{2})-(\d{2})$/.exec(text);
  if (match === null) return null;
  const [year, month, day] = [Number(match[1]), Number(match[2]), Number(match[3])];
  if (year < 1 || day < 1 || month < 1 || month > 12) return null;
  if (text !== writeDay({ year, month, day }) || day > julianMonth(year, month)) return null;
  // Counted from 1 March of the year 0, so that the leap day is the last of its year; every fourth year has one.
  const shiftedYear = month > 2 ? year : year - 1;
  const shiftedMonth = month > 2 ? month - 3 : month + 9;
  const number = 365 * shiftedYear + Math.floor(shiftedYear / 4) + Math.floor((153 * shiftedMonth + 2) / 5) + day - 1;
  const gregorian = number - 719470;
  return gregorian < FIRST || gregorian > LAST ? null : fromDayNumber(gregorian);
}

/** The Gregorian day that a printed day means in a title's calendar: days up to the change are Julian; null for text that is no day there. */
export function printedDayMeans(text: string, calendar: TitleCalendar): string | null {
  if (calendar.julianUntil !== null && text <= calendar.julianUntil) return julianToGregorian(text);
  return isDay(text) ? text : null;
}

/** True for a day that a title's change of calendar leaves out: behind its last Julian day and not behind the Gregorian day that this was. */
export function fallsInChange(day: string, { julianUntil }: TitleCalendar): boolean {
  const last = julianUntil === null ? null : julianToGregorian(julianUntil);
  return julianUntil !== null && last !== null && day > julianUntil && day <= last;
}

// Day numbers of 0001-01-01 and 9999-12-31, the ends of what four digits of the year can write.
const FIRST = -719162;
const LAST = 2932896;

function julianMonth(year: number, month: number): number {
  if (month === 2) return year % 4 === 0 ? 29 : 28;
  return month === 4 || month === 6 || month === 9 || month === 11 ? 30 : 31;
}
