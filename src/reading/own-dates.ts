import { isDay, writeDay } from '../calendar/civil.js';
import { readDate } from '../calendar/edtf.js';
import { readMonth } from '../calendar/month-names.js';
import { keptInMind } from '../normalise/kept.js';
import { daySplit } from './day-words.js';

/** What is known of how a library writes days. */
export interface DateWays {
  readonly order: 'day month year' | 'month day year' | null;
  readonly century: string | null;
  /** The year of days that are written without one and have none beside or above them. */
  readonly year: string | null;
}

/** What stands beside a day, or in a line above it, and completes it. */
export interface Beside {
  readonly year?: string;
  readonly month?: string;
}

/**
 * How a day is written: `literal` as the record writes it, `words` with the name of the month, `year first`, in figures whose order must be known, or
 * `day` of a month that stands elsewhere. One that is `yearless` has its year elsewhere.
 */
export type DateForm =
  | { readonly is: 'literal' | 'other' | 'day' }
  | { readonly is: 'words' | 'year first'; readonly twoDigits: boolean; readonly yearless: boolean }
  | { readonly is: 'figures'; readonly twoDigits: boolean; readonly yearless: boolean; readonly first: number; readonly second: number };

interface Parts {
  /** Empty where none is written. */
  readonly year: string;
  readonly month: number;
  readonly day: number;
}

const FIGURES = /^(\d{1,2})\s?[./-]\s?(\d{1,2})(?:\s?[./-]\s?(\d{4}|\d{2})|)\.?$/;
const YEAR_FIRST = /^(\d{4})\s?[./-]\s?(\d{1,2})\s?[./-]\s?(\d{1,2})\.?$/;
const COMPACT = /^(1[6-9]\d\d)(\d\d)(\d\d)$/;
const ORDINAL = '(?:st|nd|rd|th|er|\\.|º|°)?';
const DAY_MONTH = new RegExp(
  `^(\\d{1,2})${ORDINAL}[ ./-]{1,3}(?:of |de |d['’])?(\\p{L}{3,12})\\.?(?:,?[ ./-]{1,3}(?:de )?(\\d{4}|\\d{2})\\.?)?$`,
  'u',
);
const MONTH_DAY = new RegExp(`^(\\p{L}{3,12})\\.?[ ./-]{1,3}(?:the )?(\\d{1,2})${ORDINAL}(?:,?[ ./-]{1,3}(\\d{4}|\\d{2})\\.?)?$`, 'u');
const YEAR_WORDS = /^(\d{4})[ ,./-]{1,3}(\p{L}{3,12})\.?[ ./-]{1,3}(\d{1,2})\.?$/u;
const DAY_ALONE = new RegExp(`^(\\d{1,2})${ORDINAL}$`);
const LONGEST = 80;

/** How a text writes a day. It is asked of each row several times, and all pages of an issue have the same day. */
export const dateForm = keptInMind(formOf);

function formOf(text: string): DateForm {
  const { day: bare, whole } = daySplit(text.trim().slice(0, LONGEST + 1));
  if (bare.length > LONGEST) return { is: 'other' };
  const reading = readDate(bare);
  if (whole && (reading.day !== null || reading.uncertain)) return { is: 'literal' };
  const figures = FIGURES.exec(bare);
  if (figures !== null) {
    const [, first, second, year = ''] = figures;
    return { is: 'figures', twoDigits: year.length === 2, yearless: year === '', first: Number(first), second: Number(second) };
  }
  const words = inWords(bare);
  if (words !== null) return { is: 'words', twoDigits: words.year.length === 2, yearless: words.year === '' };
  if (yearFirst(bare) !== null) return { is: 'year first', twoDigits: false, yearless: false };
  return DAY_ALONE.test(bare) && Number.parseInt(bare, 10) >= 1 && Number.parseInt(bare, 10) <= 31 ? { is: 'day' } : { is: 'other' };
}

/** True for a text that writes a day by itself, or all of one but its year. */
export function isDayText(text: string): boolean {
  const { is } = dateForm(text);
  return is !== 'other' && is !== 'day' && !/^\d{4}$/.test(text.trim());
}

/** True for a day that is complete only with a year from elsewhere. */
export function isYearless(text: string): boolean {
  const form = dateForm(text);
  return form.is === 'day' || ('yearless' in form && form.yearless);
}

/** The day `YYYY-MM-DD` that a text means; the text itself where it is written as the record writes days; null where it cannot be told. */
export function readOwnDay(text: string, ways: DateWays, beside: Beside = {}): string | null {
  const form = dateForm(text);
  const { day: bare } = daySplit(text.trim());
  if (form.is === 'literal') return bare;
  const parts = partsOf(bare, form, ways, beside);
  if (parts === null) return null;
  const year = wholeYear(parts.year === '' ? (beside.year ?? ways.year ?? '') : parts.year, ways.century);
  if (year === null) return null;
  const day = writeDay({ year: Number(year), month: parts.month, day: parts.day });
  return isDay(day) ? day : null;
}

/** The year that stands with a day, where the day has one. */
export function yearWritten(text: string, ways: DateWays): string | null {
  return isYearless(text) ? null : (/^\d{4}/.exec(readOwnDay(text, ways) ?? '')?.[0] ?? null);
}

function partsOf(text: string, form: DateForm, { order }: DateWays, { month }: Beside): Parts | null {
  if (form.is === 'words') return inWords(text);
  if (form.is === 'year first') return yearFirst(text);
  if (form.is === 'figures') return inFigures(text, order);
  if (form.is !== 'day' || month === undefined) return null;
  const number = monthNumber(month);
  return number === null ? null : { year: '', month: number, day: Number.parseInt(text, 10) };
}

/** A month by its name or its number. */
export function monthNumber(text: string): number | null {
  const bare = text.trim().replace(/\.$/, '');
  if (/^\d{1,2}$/.test(bare)) return Number(bare) >= 1 && Number(bare) <= 12 ? Number(bare) : null;
  return /^\p{L}{3,12}$/u.test(bare) ? readMonth(bare) : null;
}

function wholeYear(year: string, century: string | null): string | null {
  if (/^\d{4}$/.test(year)) return year;
  return /^\d{2}$/.test(year) && century !== null ? `${century}${year}` : null;
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
