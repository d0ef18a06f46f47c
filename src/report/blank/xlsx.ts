import type { BlankRecord, BlankSheet } from '../../model/blank-record.js';
import type { TextSheet } from '../xlsx/text-sheet.js';
import { writeWorkbook } from '../xlsx/write.js';
import { COLUMN_NAMES, calendarSheet, FILM_COLUMN, FILM_NAME } from './calendar-sheet.js';

/** Rows below the last one that are made ready: second editions, targets, reels. */
const SPARE = 500;
const NARROWEST = 8;
const WIDEST = 34;
/** Columns that take more than their head shows. */
const WIDTHS: ReadonlyMap<string, number> = new Map([
  ['date', 12],
  ['weekday of date', 12],
  ['pages', 26],
  ['published', 11],
  ['first frame', 8],
  ['date printed', 12],
  ['combined with', 12],
  ['date to', 12],
  ['title', 14],
  ['name', 30],
  ['days', 28],
  ['omitted', 20],
  ['note', 34],
  ['notes', 34],
  ['box label', 26],
]);

/** A record to be filled in as a workbook: the sheet itself first, then calendar, titles, reels and the guide. Cells are text; see `writeWorkbook`. */
export async function blankXlsx(blank: BlankRecord): Promise<Uint8Array> {
  const [first, ...others] = blank.sheets;
  const guide: TextSheet = {
    name: blank.beside.guide.name,
    heads: null,
    rows: blank.guide.map((line) => [...line]),
    widths: [24, 110],
  };
  return writeWorkbook([
    ...(first === undefined ? [] : [{ ...sheetOf(first), names: columnNames(first, blank.per) }]),
    calendarSheet(blank),
    ...others.map(sheetOf),
    guide,
  ]);
}

function sheetOf({ name, heads, rows, kept, choices }: BlankSheet): TextSheet {
  return {
    name,
    heads,
    rows,
    widths: heads.map((head) => WIDTHS.get(head) ?? Math.min(WIDEST, Math.max(NARROWEST, Math.ceil(head.length * 0.8)))),
    kept: { columns: kept, rows: 1 },
    spare: SPARE,
    choices: choices.map(({ head, words, others }) => ({ column: heads.indexOf(head), words, others })),
  };
}

/** The columns that the calendar looks into, by the names that its rules use. */
function columnNames({ heads }: BlankSheet, per: BlankRecord['per']): Required<TextSheet>['names'] {
  const named = [...Object.entries(COLUMN_NAMES), [FILM_COLUMN[per], FILM_NAME] as const];
  return named.map(([head, name]) => ({ name, column: heads.indexOf(head) }));
}
