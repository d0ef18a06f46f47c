import { dayNumber, fromDayNumber, isDay } from '../calendar/civil.js';
import type { BookFacts, TypedCell } from '../model/written-sheet.js';

/** A number that a workbook shows as a day or a time. */
export interface DayCell {
  /** The day `YYYY-MM-DD`; null for a time alone, or where programs do not agree which day it is. */
  readonly day: string | null;
  /** Hours and minutes behind the day, null for none. */
  readonly time: { readonly hours: number; readonly minutes: number } | null;
  /** The stored number; null for a day that is written out. */
  readonly serial: number | null;
}

/** Day 0 of the count that begins with 1900, once its false leap day is behind (ECMA-376 part 1, section 18.17.4.1), and of the one that begins with 1904. */
const BEFORE_1900 = dayNumber('1899-12-30');
const START_1904 = dayNumber('1904-01-01');
/** Up to here some programs count the day 1900-02-29, which never was, and others do not: a number means two days. */
export const FALSE_LEAP_DAY = 60;
const MINUTES = 24 * 60;

/** The day and time in a cell of the kind `date`. A number below 0 is counted back as those programs do that write such numbers. */
export function readDayCell({ value }: Pick<TypedCell, 'value'>, { date1904 }: BookFacts): DayCell {
  const written = /^(\d{4}-\d{2}-\d{2})(?:T(\d{2}):(\d{2}))?/.exec(value);
  if (written !== null) {
    const time = { hours: Number(written[2] ?? 0), minutes: Number(written[3] ?? 0) };
    // some programs write out the leap day of 1900, which never was
    const day = written[1] !== undefined && isDay(written[1]) ? written[1] : null;
    return { day, time: time.hours + time.minutes === 0 ? null : time, serial: null };
  }
  const serial = Number(value);
  const whole = Math.floor(serial);
  const minutes = Math.round((serial - whole) * MINUTES);
  const time = minutes === 0 ? null : { hours: Math.floor(minutes / 60) % 24, minutes: minutes % 60 };
  return { day: dayOf(whole, time !== null, date1904), time, serial };
}

function dayOf(whole: number, hasTime: boolean, date1904: boolean): string | null {
  if (date1904) return dayFrom(START_1904, whole);
  // A time alone is stored with the day 0.
  if (whole === 0 && hasTime) return null;
  return whole >= 1 && whole <= FALSE_LEAP_DAY ? null : dayFrom(BEFORE_1900, whole);
}

/** The two days that a small number may mean: by the count with the false leap day, and by the one without. */
export function bothDays(serial: number): readonly [string, string] {
  const without = fromDayNumber(BEFORE_1900 + Math.floor(serial));
  return [Math.floor(serial) === FALSE_LEAP_DAY ? '1900-02-29' : fromDayNumber(BEFORE_1900 + Math.floor(serial) + 1), without];
}

/** The number by which a program counts a day from March 1900 on. */
export function serialOf(day: string, { date1904 }: BookFacts): number {
  return dayNumber(day) - (date1904 ? START_1904 : BEFORE_1900);
}

function dayFrom(start: number, days: number): string | null {
  try {
    return fromDayNumber(start + days);
  } catch {
    return null;
  }
}
