import type { Worksheet, WorksheetUnit } from '../../model/worksheet.js';
import { cell, sheet } from '../sheet.js';
import { labelOf } from './facts.js';
import { questionHead } from './questions.js';

type Column = readonly [head: string, value: (unit: WorksheetUnit) => string];

/** What all pages of a unit have in common, else each different value once. */
const each = (unit: WorksheetUnit, value: (page: WorksheetUnit['pages'][number]) => string | number | null): string =>
  [...new Set(unit.pages.map((page) => String(value(page) ?? '')))].filter((text) => text !== '').join('; ');

const COLUMNS: readonly Column[] = [
  ['number', ({ number }) => String(number)],
  ['unit', ({ id }) => id],
  ['drawn', ({ random }) => (random ? 'at random' : 'for a reason')],
  ['reason', ({ reasons }) => reasons.join('; ')],
  ['reel', (unit) => each(unit, ({ reel }) => reel)],
  ['frame', (unit) => each(unit, ({ frame, returned }) => frame ?? (returned === null ? null : `returned ${returned}`))],
  ['title', (unit) => each(unit, ({ title }) => title)],
  ['title name', (unit) => each(unit, ({ titleName }) => titleName)],
  ['date', (unit) => each(unit, ({ date }) => date)],
  ['edition', (unit) => each(unit, ({ edition }) => edition)],
  ['page', (unit) => each(unit, labelOf)],
  ['order', (unit) => each(unit, ({ order }) => order)],
  ['condition', (unit) => each(unit, ({ condition }) => condition.join(', '))],
  ['files', (unit) => unit.pages.flatMap(({ files }) => files.map(({ path }) => path)).join('; ')],
];

/** The heads of a worksheet and its rows, answers left empty: what the sheet for any spreadsheet program holds. */
export function worksheetRows({ questions, lots }: Worksheet): readonly (readonly string[])[] {
  return [
    ['draw', ...COLUMNS.map(([head]) => head), ...questions.map(questionHead), 'note', 'by'],
    ...lots.flatMap(({ code, units }) =>
      units.map((unit) => [code, ...COLUMNS.map(([, value]) => value(unit)), ...questions.map(() => ''), '', '']),
    ),
  ];
}

/** The worksheet as CSV: a row for each unit, to be answered yes or no under each question. */
export function worksheetCsv(worksheet: Worksheet): string {
  return sheet(worksheetRows(worksheet).map((row) => row.map(cell)));
}
