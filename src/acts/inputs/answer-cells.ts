import { isDay } from '../../calendar/civil.js';
import type { TypedCell, WrittenSheet } from '../../model/written-sheet.js';
import { sheetInWords } from '../../normalise/sheet-row.js';
import { headKey } from '../../read/sheet-heads.js';
import { columnLetters } from '../../read/workbook/address.js';
import { rangesOf } from '../../reading/ranges.js';
import { cellTexts, dayTexts, typedCells } from './sheet-file.js';

/** The cells for answers of a list that came back. */
export interface AnswerCells {
  /** What a row answers: texts as they stand, empty where nothing does; line breaks are `\n`. */
  readonly inRow: (row: number) => { readonly text: string; readonly fixedIn: string; readonly on: string };
  /** A sentence for each cause for which something was not read, or was read otherwise than to the letter, in the rows asked for until now. */
  readonly remarks: () => readonly string[];
}

const HEADS = ['vendor answer', 'fixed in delivery', 'answered on'];
/** So many places are named one by one. */
const NAMED = 8;
/** What spreadsheet programs show instead of a result: ECMA-376 part 1, section 18.17.3, and `Err:502` of LibreOffice. */
const ERROR = /^(?:#(?:NULL!|DIV\/0!|VALUE!|REF!|NAME\?|NUM!|N\/A)|Err:\d{3})$/;
const DELIVERY = /^[1-9]\d{0,3}$/;

const UNREAD = 'a cell for an answer must hold the answer itself; not read were those that hold a formula or an error';
const NO_DAY = '"answered on" is to hold a day such as 2026-01-31; what is not written so was kept as it stands';
const NO_DELIVERY = '"fixed in delivery" is to hold the number of a delivery, such as 2; what is not one was kept as it stands';
const MERGED = 'cells for answers are merged over several rows; what stands in them was read for each of these rows';

/** Reads the cells for answers of a sheet whose columns have these names, as `headKey` gives them. */
export function answerCells(sheet: WrittenSheet, columns: readonly string[]): AnswerCells {
  const [text, fixedIn, on] = HEADS.map((head) => columns.indexOf(headKey(head))) as [number, number, number];
  const [texts, days, typedAt] = [cellTexts(sheet), dayTexts(sheet), typedCells(sheet)];
  const merged = mergedRows(sheet, [text, fixedIn, on]);
  const causes = new Map<string, Set<string>>();
  const note = (cause: string, place: string): void => {
    causes.set(cause, (causes.get(cause) ?? new Set()).add(place));
  };
  const read = (row: number, column: number, as: (row: number, column: number) => string): string => {
    const range = merged.get(placeKey(row, column));
    const from = range?.top ?? row;
    const typed = typedAt(from, column);
    const held = typed === undefined ? null : computed(typed);
    const said = held === null ? as(from, column) : '';
    const unread = held ?? (ERROR.test(said) ? said : null);
    if (unread !== null) note(UNREAD, `${columnLetters(column)}${String(from)} (${unread})`);
    else if (range !== undefined && said !== '') note(MERGED, range.name);
    return unread === null ? said : '';
  };
  const doubtful = (row: number, said: string, cause: string): void => note(cause, `row ${String(row)} ("${said.slice(0, 40)}")`);
  return {
    inRow: (row) => {
      const answer = {
        text: read(row, text, texts).replace(/\r\n?/g, '\n'),
        fixedIn: read(row, fixedIn, texts),
        on: read(row, on, days),
      };
      if (answer.fixedIn !== '' && !DELIVERY.test(answer.fixedIn)) doubtful(row, answer.fixedIn, NO_DELIVERY);
      if (answer.on !== '' && !isDay(answer.on)) doubtful(row, answer.on, NO_DAY);
      return answer;
    },
    remarks: () => [...causes].map(([cause, places]) => `${sheetInWords(sheet)}: ${cause}: ${firstOf([...places], NAMED)}.`),
  };
}

/** What a cell holds that is no answer, in words; null for any other cell. */
function computed({ kind, value, formula }: TypedCell): string | null {
  if (formula !== null) return formula === '' ? 'a formula' : `=${formula.slice(0, 40)}`;
  return kind === 'error' ? value.slice(0, 40) : null;
}

interface MergedCell {
  readonly name: string;
  readonly top: number;
}

/** By row and column the merged cell that covers it: in these columns, over more than one row. A file may claim any number of ranges of any height, so each row is looked at once for a column. */
function mergedRows(sheet: WrittenSheet, columns: readonly number[]): ReadonlyMap<string, MergedCell> {
  const covered = new Map<string, MergedCell>();
  const ranges = rangesOf({ merged: sheet.merged ?? [] }).filter(({ top, bottom }) => bottom > top);
  for (const column of columns) {
    const tall = ranges.filter(({ first }) => first === column).toSorted((a, b) => a.top - b.top);
    let at = 0;
    for (const { row } of sheet.rows) {
      while ((tall[at]?.bottom ?? row) < row) at += 1;
      const range = tall[at];
      if (range === undefined || range.top > row) continue;
      const letters = columnLetters(column);
      covered.set(placeKey(row, column), { name: `${letters}${String(range.top)}:${letters}${String(range.bottom)}`, top: range.top });
    }
  }
  return covered;
}

function placeKey(row: number, column: number): string {
  return `${String(row)}|${String(column)}`;
}

/** The first of some names, with how many more there are. */
export function firstOf(names: readonly string[], most: number): string {
  const more = names.length - most;
  return `${names.slice(0, most).join(', ')}${more > 0 ? ` and ${String(more)} more` : ''}`;
}
