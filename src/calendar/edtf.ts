import type { DateReading } from '../model/film.js';
import { isDay, readDay, writeDay } from './civil.js';

/** Longest text that is looked at as a date; anything longer is not one. */
const LONGEST = 64;

/** A year, month or day with an optional mark of doubt; the parts are checked afterwards. */
const LEVEL_1_DATE = /^(-?\d{4}|\d{3}X|\d{2}XX|Y-?\d{5,9})(?:-(\d{2}|XX)(?:-(\d{2}|XX))?)?([?~%]?)$/;

/**
 * Reads a date of the record or the return: a plain day is certain; EDTF level 1 (ISO 8601-2:2019, Library of Congress
 * text of 2019-02-04) with `?` `~` `%` or `X`, a year, month, season or interval is uncertain; any other text is neither.
 */
export function readDate(text: string): DateReading {
  const trimmed = text.trim();
  if (trimmed.length > LONGEST) return { text, day: null, uncertain: false };
  if (isDay(trimmed)) return { text, day: trimmed, uncertain: false };
  return { text, day: null, uncertain: isLevel1Date(trimmed) || isInterval(trimmed) };
}

/** The day that a name such as `18990104` means, `YYYY-MM-DD`; null for other text. Kept apart, because only some places write days so. */
export function readCompactDay(text: string): string | null {
  const match = /^(\d{4})(\d{2})(\d{2})$/.exec(text);
  if (match === null) return null;
  const day = `${match[1] ?? ''}-${match[2] ?? ''}-${match[3] ?? ''}`;
  return isDay(day) ? day : null;
}

/** Both days of a combined issue written as one interval, `1899-01-04/1899-01-05`: the first is the day of the issue. Null for any other text. */
export function readTwoDays(text: string): DateReading | null {
  const [first, second, ...more] = text.trim().split('/');
  if (first === undefined || second === undefined || more.length > 0) return null;
  return isDay(first) && isDay(second) && first < second ? { text, day: first, uncertain: false, second } : null;
}

/** The first and last day that a date can mean: a month for `1899-01` and `1899-01-XX`, the day itself for `1899-01-04?`; null where that is open or no date. */
export function dateBounds(text: string): { readonly from: string; readonly to: string } | null {
  const trimmed = text.trim();
  if (trimmed.length > LONGEST) return null;
  const ends = trimmed.split('/');
  const first = boundsOfDate(ends[0] ?? '');
  if (ends.length === 1 || first === null) return first;
  const last = boundsOfDate(ends[1] ?? '');
  return ends.length === 2 && last !== null && first.from <= last.to ? { from: first.from, to: last.to } : null;
}

function boundsOfDate(text: string): { readonly from: string; readonly to: string } | null {
  const match = LEVEL_1_DATE.exec(text);
  if (match === null || !isLevel1Date(text)) return null;
  const year = match[1] ?? '';
  if (!/^\d[\dX]{3}$/.test(year)) return null;
  const from = { year: Number(year.replaceAll('X', '0')), month: 1, day: 1 };
  const to = { year: Number(year.replaceAll('X', '9')), month: 12, day: 31 };
  if (from.year < 1) return null;
  if (match[2] === undefined || match[2] === 'XX') return { from: writeDay(from), to: writeDay(to) };
  const month = Number(match[2]);
  if (month > 12) return null;
  const start = { year: from.year, month, day: 1 };
  if (match[3] !== undefined && match[3] !== 'XX') {
    const day = writeDay({ ...start, day: Number(match[3]) });
    return { from: day, to: day };
  }
  let last = 31;
  while (readDay(writeDay({ ...start, day: last })) === null) last -= 1;
  return { from: writeDay(start), to: writeDay({ ...start, day: last }) };
}

function isLevel1Date(text: string): boolean {
  const match = LEVEL_1_DATE.exec(text);
  if (match === null) return false;
  const [, year = '', month, day, doubt = ''] = match;
  if (month === undefined) return true;
  if (year.includes('X')) return month === 'XX' && (day === undefined || day === 'XX') && doubt === '';
  if (year.startsWith('Y')) return false;
  if (month === 'XX') return (day === undefined || day === 'XX') && doubt === '';
  const isMonth = month >= '01' && month <= '12';
  // 21 to 24 are spring, summer, autumn and winter.
  const isSeason = month >= '21' && month <= '24';
  if (day === undefined) return isMonth || isSeason;
  if (day === 'XX') return isMonth && doubt === '';
  // A plain day is certain and is dealt with before; here it can only stand with a mark of doubt or before the common era.
  return !year.startsWith('-') && isDay(`${year}-${month}-${day}`);
}

function isInterval(text: string): boolean {
  const ends = text.split('/');
  if (ends.length !== 2) return false;
  const [from = '', to = ''] = ends;
  const open = (end: string): boolean => end === '' || end === '..';
  if (open(from) && open(to)) return false;
  return (open(from) || isLevel1Date(from)) && (open(to) || isLevel1Date(to));
}
