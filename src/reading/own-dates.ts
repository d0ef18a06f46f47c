import { isDay, writeDay } from '../calendar/civil.js';
import { readDate } from '../calendar/edtf.js';
import { readMonth } from '../calendar/month-names.js';
import { readWeekday } from '../calendar/weekday-names.js';

/** What is known of how a library writes days. */
export interface DateWays {
  readonly order: 'day month year' | 'month day year' | null;
  readonly century: string | null;
}

/** How a day is written: `literal` as the record writes it, `words` with the name of the month, `year first`, or in figures whose order must be known. */
export type DateForm =
  | { readonly is: 'literal' | 'other' }
  | { readonly is: 'words' | 'year first'; readonly twoDigits: boolean }
  | { readonly is: 'figures'; readonly twoDigits: boolean; readonly first: number; readonly second: number };

interface Parts {
  readonly year: string;
  readonly month: number;
  readonly day: number;
}

const FIGURES = /^(\d{1,2})\s?[./-]\s?(\d{1,2})\s?[./-]\s?(\d{4}|\d{2})\.?$/;
const YEAR_FIRST = /^(\d{4})\s?[./-]\s?(\d{1,2})\s?[./-]\s?(\d{1,2})\.?$/;
const COMPACT = /^(1[6-9]\d\d)(\d\d)(\d\d)$/;
const DAY_MONTH = /^(\d{1,2})(?:st|nd|rd|th|\.)?[ ./-]{1,3}(?:of )?(\p{L}{3,12})\.?,?[ ./-]{1,3}(\d{4}|\d{2})\.?$/u;
const MONTH_DAY = /^(\p{L}{3,12})\.?[ ./-]{1,3}(\d{1,2})(?:st|nd|rd|th)?,?[ ./-]{1,3}(\d{4}|\d{2})\.?$/u;
const YEAR_WORDS = /^(\d{4})[ ,./-]{1,3}(\p{L}{3,12})\.?[ ./-]{1,3}(\d{1,2})\.?$/u;
const LONGEST = 60;

/** How a text writes a day. */
export function dateForm(text: string): DateForm {
  const bare = withoutWeekday(text.trim());
  if (bare.length > LONGEST) return { is: 'other' };
  const reading = readDate(bare);
  if (bare === text.trim() && (reading.day !== null || reading.uncertain)) return { is: 'literal' };
  const figures = FIGURES.exec(bare);
  if (figures !== null)
    return { is: 'figures', twoDigits: (figures[3] ?? '').length === 2, first: Number(figures[1]), second: Number(figures[2]) };
  const words = inWords(bare);
  if (words !== null) return { is: 'words', twoDigits: words.year.length === 2 };
  return yearFirst(bare) === null ? { is: 'other' } : { is: 'year first', twoDigits: false };
}

/** The day `YYYY-MM-DD` that a text means; the text itself where it is written as the record writes days; null where it cannot be told. */
export function readOwnDay(text: string, { order, century }: DateWays): string | null {
  const form = dateForm(text);
  const bare = withoutWeekday(text.trim());
  if (form.is === 'literal') return bare;
  const parts =
    form.is === 'words'
      ? inWords(bare)
      : form.is === 'year first'
        ? yearFirst(bare)
        : form.is === 'figures'
          ? inFigures(bare, order)
          : null;
  if (parts === null) return null;
  const year = parts.year.length === 4 ? parts.year : century === null ? null : `${century}${parts.year}`;
  if (year === null) return null;
  const day = writeDay({ year: Number(year), month: parts.month, day: parts.day });
  return isDay(day) ? day : null;
}

/** `Thursday, January 4, 1899` without its weekday: the day is read, the weekday is not. */
function withoutWeekday(text: string): string {
  const match = /^(\p{L}{2,14})\.?,? (?=.*\d)(.+)$/u.exec(text);
  return match?.[1] !== undefined && readMonth(match[1]) === null && readWeekday(match[1]) !== null ? (match[2] ?? text) : text;
}

function inWords(text: string): Parts | null {
  const [, day, month, year] = DAY_MONTH.exec(text) ?? [];
  if (day !== undefined) return parts(year, month, day);
  const [, name, date, end] = MONTH_DAY.exec(text) ?? [];
  if (name !== undefined) return parts(end, name, date);
  const [, first, word, last] = YEAR_WORDS.exec(text) ?? [];
  return first === undefined ? null : parts(first, word, last);
}

function parts(year = '', word = '', day = ''): Parts | null {
  const month = readMonth(word);
  return month === null ? null : { year, month, day: Number(day) };
}

function yearFirst(text: string): Parts | null {
  const match = YEAR_FIRST.exec(text) ?? COMPACT.exec(text);
  return match === null ? null : { year: match[1] ?? '', month: Number(match[2]), day: Number(match[3]) };
}

function inFigures(text: string, order: DateWays['order']): Parts | null {
  const match = FIGURES.exec(text);
  if (match === null) return null;
  const [first, second] = [Number(match[1]), Number(match[2])];
  if (order === null) return null;
  const dayFirst = order === 'day month year';
  return { year: match[3] ?? '', month: dayFirst ? second : first, day: dayFirst ? first : second };
}
