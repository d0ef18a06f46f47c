import { createHash } from 'node:crypto';
import type { TypedCell, WrittenSheet } from '../../model/written-sheet.js';
import { FALSE_LEAP_DAY, readDayCell } from '../../normalise/day-cell.js';
import { withoutGuard } from '../../normalise/sheet-guard.js';
import { sheetInWords } from '../../normalise/sheet-row.js';
import { typedCellText } from '../../normalise/typed-cell.js';
import { UserMistake } from '../../read/mistake.js';
import { readRegularFile } from '../../read/regular-file.js';
import { headKey } from '../../read/sheet-heads.js';
import { isWorkbookName, readSheets } from '../../read/sheets.js';

/** What a sheet that somebody filled in is for: its name in sentences, and the columns by which it is known. */
export interface SheetWish {
  readonly what: string;
  /** True for a sheet with these heads, as `headKey` gives them. */
  readonly fits: (heads: readonly string[]) => boolean;
  /** Names the columns it needs, for the sentence where no sheet of a workbook fits. */
  readonly needs: string;
  /** Files above this size in bytes are refused. */
  readonly largest: number;
}

/** The one sheet that was looked for, with the SHA-256 of its file. */
export interface SheetFile {
  readonly sheet: WrittenSheet;
  readonly sha256: string;
}

/** True for a file that is read as a sheet: CSV or a workbook, by its name. */
export function isSheetName(path: string): boolean {
  return /\.(csv|tsv|txt)$/i.test(path) || isWorkbookName(path);
}

/** Reads the sheet of a CSV file, or the one of a workbook that has the columns wished for; the only one there is goes unasked. Throws UserMistake. */
export async function readSheetFile(path: string, wish: SheetWish): Promise<SheetFile> {
  const bytes = await readRegularFile(path, wish.largest);
  const sheet = oneOf(await readSheets(bytes, path, wish.fits), path, wish);
  const [problem] = sheet.problems;
  if (problem !== undefined && !wish.fits(sheet.headers.map(headKey)))
    throw new UserMistake(
      `${path}: none of the first rows has the columns of ${wish.what}; it needs ${wish.needs}. Their names stand best in the first row.`,
    );
  if (problem !== undefined) throw new UserMistake(`${sheetInWords(sheet)}, row ${String(problem.row)}: ${problem.says}`);
  return { sheet, sha256: createHash('sha256').update(bytes).digest('hex') };
}

function oneOf(sheets: readonly WrittenSheet[], path: string, { what, fits, needs }: SheetWish): WrittenSheet {
  const [only] = sheets;
  if (only !== undefined && sheets.length === 1) return only;
  const [first, second] = sheets.filter(({ headers }) => fits(headers.map(headKey)));
  if (first === undefined) throw new UserMistake(`${path}: no sheet has the columns of ${what}; it needs ${needs}.`);
  if (second === undefined) return first;
  throw new UserMistake(`${path}: the sheets ${first.sheet} and ${second.sheet} both have the columns of ${what}; keep one of them.`);
}

/**
 * Answers what a cell says, by row number and column counted from 0: text without the mark that our sheets put before what a spreadsheet
 * would change, a number in plain digits, a day as YYYY-MM-DD, a formula's last result. Throws UserMistake for a cell that holds an error.
 */
export function cellTexts(sheet: WrittenSheet): (row: number, column: number) => string {
  const { rows, typed } = sheet;
  const byRow = new Map(rows.map(({ row, cells }) => [row, cells]));
  const typedAt = typedCells(sheet);
  return (row, column) => {
    const other = typedAt(row, column);
    if (other !== undefined && typed !== undefined) {
      if (other.kind === 'error')
        throw new UserMistake(
          `${sheetInWords(sheet)}: the cell ${other.address} holds the error ${other.value.slice(0, 40)}; write what it should say.`,
        );
      return other.kind === 'number' ? plainDigits(other) : typedCellText(other, typed.book).trim();
    }
    const text = (byRow.get(row)?.[column] ?? '').trim();
    if (typed !== undefined) return withoutGuard(text);
    return unguarded(text);
  };
}

/** Answers the cell at a place, by row number and column counted from 0, where it holds more than mere text. */
export function typedCells({ typed }: WrittenSheet): (row: number, column: number) => TypedCell | undefined {
  const cells = new Map((typed?.cells ?? []).map((cell) => [`${String(cell.row)}|${String(cell.column)}`, cell]));
  return (row, column) => cells.get(`${String(row)}|${String(column)}`);
}

/** A day with a time of the day behind it. */
const DAY_AND_TIME = /^(\d{4}-\d{2}-\d{2})[T ]\d{1,2}:\d{2}(?::\d{2}(?:[.,]\d{1,9})?)?Z?$/;

/** Answers what a cell for a day says, as `cellTexts` does; of a day with a time the day. What is no day comes as it stands. */
export function dayTexts(sheet: WrittenSheet): (row: number, column: number) => string {
  const text = cellTexts(sheet);
  const typedAt = typedCells(sheet);
  const { typed } = sheet;
  return (row, column) => {
    const cell = typedAt(row, column);
    if (typed !== undefined && cell?.kind === 'date') {
      const { day, serial } = readDayCell(cell, typed.book);
      // Below that number programs do not agree which day it is, and nobody answers in 1900.
      return day !== null && (serial === null || typed.book.date1904 || serial > FALSE_LEAP_DAY) ? day : cell.value;
    }
    return text(row, column).replace(DAY_AND_TIME, '$1');
  };
}

/** Takes off the mark that our own sheets put before a cell which a spreadsheet would change. */
export function unguarded(text: string): string {
  return text.startsWith("'") ? text.slice(1) : text;
}

/** What a person reads in the cell: a workbook stores 0.07 as 7.0000000000000007E-2. */
function plainDigits({ value }: TypedCell): string {
  // A formula that nothing has computed yet stores no number, which is not 0.
  if (value === '' || /^-?\d{1,15}(?:\.\d{1,8})?$/.test(value)) return value;
  const text = String(Number(Number(value).toPrecision(15)));
  return text.includes('e') ? value : text;
}
