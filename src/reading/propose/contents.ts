import { readMonth } from '../../calendar/month-names.js';
import { readWeekday } from '../../calendar/weekday-names.js';
import type { BookCell } from '../../model/written-grid.js';
import { readFrameNumber } from '../../normalise/labels.js';
import { correctedParts, isCorrected } from '../cell-facts.js';
import { isDitto } from '../ditto.js';
import { frameRange } from '../frame-ranges.js';
import { isNamedFrame } from '../named-frames.js';
import { dateForm, isDayText, monthNumber } from '../own-dates.js';
import { pagesNamed } from '../phrases.js';
import { meantBy } from './words.js';

/** What stands below a head. */
export type Cells = readonly Pick<BookCell, 'kind' | 'value'>[];

/** So large a part of a column speaks for all of it: people leave cells empty, and write "?" or a word of doubt into some. */
const MOST = 0.6;

type Test = (text: string) => boolean;

const isYear: Test = (text) => /^(?:1[6-9]|20)\d\d$/.test(text);
const isNumber: Test = (text) => /^\d{1,6}$/.test(text);
const isDayOfMonth: Test = (text) => isDayText(text) || dateForm(text).is === 'day';
const isFrame: Test = (text) => readFrameNumber(text) !== null;
/** More pages than the two of an opening. */
const isList: Test = (text) => {
  const range = frameRange(text);
  return range !== null && Number.parseInt(range.last, 10) > Number.parseInt(range.first, 10) + 1;
};
/** A number of pages and nothing else. */
export const isCount: Test = (text) => /^\d{1,3} ?(?:pp?\.?|pages?|S\.?|Seiten?)?$/i.test(text);
const isWord: Test = (text) => !/\d{2}/.test(text) && text.length <= 40;
const isYesOrNo =
  (field: string): Test =>
  (text) =>
    isWord(text) || /^[01]$/.test(text) || meantBy(field, text) !== null;

/** A sign or a short word that marks a row, without naming a frame: `D`, `x`, `retake`. */
const isMark: Test = (text) => /^[^\d\s]{1,12}$/.test(text);

/** Columns of single days. */
const DAYS: readonly string[] = ['date', 'date printed', 'combined with', 'date to'];

/** What a cell holds in a column of ours; a field that is not here may hold any text. */
const HOLDS: ReadonlyMap<string, Test> = new Map<string, Test>([
  ...DAYS.map((field) => [field, isDayText] as const),
  ['year', isYear],
  ['month', (text) => monthNumber(text) !== null && (isNumber(text) || readMonth(text.replace(/\.$/, '')) !== null)],
  ['weekday printed', (text) => readWeekday(text) !== null && !/\d/.test(text)],
  ['frame', isFrame],
  ['first frame', (text) => isFrame(text) || frameRange(text) !== null],
  ['last frame', isFrame],
  [
    'page',
    (text) =>
      text.length <= 12 && /^[[(]?(?:[A-Za-z]{0,2}[ .-]?\d|[ivxlc]+\b|[A-Za-z]?\b|-)/i.test(text) && !isDayText(text) && !isList(text),
  ],
  ['pages', (text) => /\d/.test(text) && !/\p{L}{4}/u.test(text)],
  ['pages held back', (text) => pagesNamed(text).length > 0],
  ['pages counted', isCount],
  ['edition', (text) => Number(/\d+/.exec(text)?.[0] ?? '1') <= 9],
  ['volume', (text) => !isYear(text) && !isDayText(text) && (/\d/.test(text) || /^[ivxlcdm]+\.?$/i.test(text))],
  ['issue number', (text) => /\d/.test(text) && !/\p{L}{4}/u.test(text) && !(dateForm(text).is === 'words')],
  ['volume, issue number', (text) => /(?:\d|\b[ivxlc]+\b)[^\d]+\d/i.test(text) && !(dateForm(text).is === 'words')],
  ...['published', 'deliver', 'supplement'].map((field) => [field, isYesOrNo(field)] as const),
  ['kind', (text) => !isNumber(text) && !isDayText(text)],
  ['duplicate of', (text) => isNamedFrame(text) || isMark(text)],
  ['retake of', (text) => isNamedFrame(text) || isMark(text)],
  ['order', isNumber],
  ['title printed', (text) => /\p{L}{2}/u.test(text) && !isDayText(text)],
]);

/** Whether what stands below a head may be what the column of ours holds; `withMonth` where another column holds the month of its days. */
export function mayHold(field: string, cells: Cells, withMonth = false): boolean {
  const holdsPart = field === 'date' && withMonth ? isDayOfMonth : HOLDS.get(field);
  if (holdsPart === undefined) return true;
  // `77 recte 76` holds two of what the column holds.
  const test: Test = (text) => (isCorrected(text, field) ? correctedParts(text).every(holdsPart) : holdsPart(text));
  const day = DAYS.includes(field);
  const filled = cells.filter(({ value }) => value.trim() !== '' && !isDitto(value));
  const holds = filled.filter(({ kind, value }) => (kind === 'date' ? day : test(value.trim()))).length;
  return filled.length === 0 || holds >= filled.length * MOST;
}

/** True for a field of which it is known what its cells look like. */
export function isTelling(field: string): boolean {
  return HOLDS.has(field);
}

/** True for numbers that rise from row to row, as those of the film do; they begin anew with the next reel. */
export function rises(cells: Cells): boolean {
  const numbers = cells.flatMap(({ value }) => {
    const first = frameRange(value)?.first ?? value;
    return readFrameNumber(first)?.exposure ?? [];
  });
  const up = numbers.filter((number, at) => number > (numbers[at - 1] ?? 0)).length;
  return numbers.length === cells.length && cells.length > 1 && up >= cells.length * 0.8;
}

/** True for what is unlikely of a field, though each cell may be one: frame numbers that stay the same from row to row, first frames of issues that go on by one. */
export function isUnlikely(field: string, cells: Cells): boolean {
  if (cells.length < 2) return false;
  const share = (test: (value: string, before: string) => boolean): number =>
    cells.slice(1).filter(({ value }, at) => test(value.trim(), cells[at]?.value.trim() ?? '')).length / (cells.length - 1);
  if (field === 'frame') return share((value, before) => value === before) > 0.3;
  return (
    field === 'first frame' && share((value, before) => isNumber(value) && isNumber(before) && Number(value) === Number(before) + 1) > 0.8
  );
}

/** True where so many cells pass that they speak for the column. */
export function areMostly(cells: Cells, test: (text: string) => boolean): boolean {
  return cells.filter(({ value }) => test(value.trim())).length >= cells.length * MOST;
}

/** True where every cell, and there are several, passes. */
export function areAll(cells: Cells, test: (text: string) => boolean): boolean {
  return cells.length > 1 && cells.every(({ value }) => test(value.trim()));
}
