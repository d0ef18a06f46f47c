/** Months by their English names. */
export const MONTHS: readonly string[] = 'January February March April May June July August September October November December'.split(' ');

/** A month of the Gregorian calendar; months count from 1. */
export interface Month {
  readonly year: number;
  readonly month: number;
}

/** Days of a month of the Gregorian calendar. */
export function monthLength({ year, month }: Month): number {
  if (month === 2) return (year % 4 === 0 && year % 100 !== 0) || year % 400 === 0 ? 29 : 28;
  return [4, 6, 9, 11].includes(month) ? 30 : 31;
}

/** The month of a day written `YYYY-MM-DD`; null for text that is no day of the calendar, such as an uncertain date. */
export function monthOf(text: string): Month | null {
  const [, year, month, day] = (/^(\d{4})-(\d{2})-(\d{2})$/.exec(text) ?? []).map(Number);
  if (year === undefined || month === undefined || day === undefined) return null;
  if (year < 1 || month < 1 || month > 12 || day < 1 || day > monthLength({ year, month })) return null;
  return { year, month };
}

/** Months since the year 0, so that months can be counted. */
export function monthNumber({ year, month }: Month): number {
  return 12 * year + month - 1;
}

/** The month of such a number. */
export function monthFromNumber(number: number): Month {
  return { year: Math.floor(number / 12), month: (number % 12) + 1 };
}

/** A day of a month as `YYYY-MM-DD`. */
export function dayOf({ year, month }: Month, day: number): string {
  return [String(year).padStart(4, '0'), String(month).padStart(2, '0'), String(day).padStart(2, '0')].join('-');
}

/** Place of the weekday of a month's first day, 0 for Monday. Zeller's congruence, whose week begins with Saturday. */
export function firstWeekday({ year, month }: Month): number {
  const [y, m] = month < 3 ? [year - 1, month + 12] : [year, month];
  const fromSaturday = (1 + Math.floor((13 * (m + 1)) / 5) + y + Math.floor(y / 4) - Math.floor(y / 100) + Math.floor(y / 400)) % 7;
  return (fromSaturday + 5) % 7;
}
