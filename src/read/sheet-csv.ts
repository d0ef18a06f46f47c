import { parse } from 'csv-parse/sync';
import type { BookCell, BookRow, BookSheet, Workbook } from '../model/written-grid.js';
import type { WrittenSheet } from '../model/written-sheet.js';
import { MOST_COLUMNS, MOST_ROWS } from './budgets.js';
import { splitCsv } from './csv-split.js';
import { UserMistake } from './mistake.js';
import { GARBLED_MARK, headsAt, sameHeads } from './sheet-heads.js';
import { sheetText } from './sheet-text.js';
import { columnLetters } from './workbook/address.js';

const DELIMITERS = [',', ';', '\t'] as const;

/** Longest row; a longer one is no row of a collation record but a quotation mark that was never closed. */
const LONGEST_ROW = 1_000_000;
/** So many rows are named in a warning; the others are counted. */
const NAMED = 5;

interface Cells {
  readonly row: number;
  readonly cells: readonly string[];
}

/** Reads the bytes of a CSV file as a sheet whose first row holds the column names, or the first row that `fits`. Throws UserMistake. */
export function readCsv(bytes: Buffer, file: string, fits?: (heads: readonly string[]) => boolean): WrittenSheet {
  const { rows: all, remarks } = csvRows(bytes, file);
  const at = headsAt(
    all.map(({ cells }) => cells),
    fits,
  );
  const [header, ...below] = all.slice(at);
  if (header === undefined || header.cells.every((cell) => cell.trim() === ''))
    throw new UserMistake(`${file}: the first row is empty; it must hold the column names.`);
  if (header.cells.length > MOST_COLUMNS)
    throw new UserMistake(
      `${file}, row ${String(header.row)}: there are ${String(header.cells.length)} columns; a sheet of a record has at most ${String(MOST_COLUMNS)}.`,
    );
  const same = sameHeads(header.cells, (index) => String(index + 1));
  if (same !== null) throw new UserMistake(`${file}, row ${String(header.row)}: ${same}`);
  const rows = below.filter(({ cells }) => cells.some((cell) => cell.trim() !== ''));
  for (const row of rows) refuseSurplus(row, header.cells.length, file);
  const short = rows.filter(({ cells }) => cells.length < header.cells.length);
  return {
    file,
    sheet: sheetName(file),
    headers: header.cells,
    rows,
    problems: [],
    warnings: [
      ...remarks.map((says) => `${file}: ${says}`),
      ...(short.length === 0
        ? []
        : [`${file}: ${shortRows(short)} fewer cells than there are columns; the missing ones are taken as empty.`]),
    ],
  };
}

/** A CSV file as a workbook of one sheet whose cells are all text. Throws UserMistake. */
export function readCsvBook(bytes: Buffer, file: string): Workbook {
  const { rows, remarks } = csvRows(bytes, file);
  const widest = rows.reduce((most, { cells }) => Math.max(most, cells.length), 0);
  if (widest > MOST_COLUMNS)
    throw new UserMistake(`${file}: there are ${String(widest)} columns; a sheet of a record has at most ${String(MOST_COLUMNS)}.`);
  const letters = Array.from({ length: widest }, (_, column) => columnLetters(column));
  const sheet: BookSheet = {
    name: sheetName(file),
    hidden: false,
    hiddenColumns: [],
    merged: [],
    rows: bookRows(rows, letters),
  };
  return { date1904: false, program: null, sheets: [sheet], remarks };
}

/** The rows that hold anything, as those of a workbook. */
function bookRows(rows: readonly Cells[], letters: readonly string[]): readonly BookRow[] {
  const filled: BookRow[] = [];
  for (const row of rows) {
    const cells = bookCells(row, letters);
    if (cells.length > 0) filled.push({ row: row.row, hidden: false, cells });
  }
  return filled;
}

/** The cells of a row that hold anything, as those of a workbook. */
function bookCells({ row, cells }: Cells, letters: readonly string[]): readonly BookCell[] {
  const filled: BookCell[] = [];
  const number = String(row);
  for (let column = 0; column < cells.length; column += 1) {
    const value = cells[column] ?? '';
    if (value === '' || value.trim() === '') continue;
    filled.push({
      address: (letters[column] ?? '') + number,
      column,
      kind: 'text',
      value,
      format: '@',
      formula: null,
      colour: null,
      ink: null,
      struck: false,
      comment: null,
    });
  }
  return filled;
}

function sheetName(file: string): string {
  return file.replace(/\.[^.]*$/, '');
}

/** The rows of a CSV file: comma, semicolon or tab as its first rows have most of, or as a first line `sep=;` says. */
function csvRows(bytes: Buffer, file: string): { readonly rows: readonly Cells[]; readonly remarks: readonly string[] } {
  const { text: read, encoding } = sheetText(bytes, file);
  const garbled = read.startsWith(GARBLED_MARK);
  const whole = garbled ? read.slice(GARBLED_MARK.length) : read;
  const announced = /^sep=(.)(?:\r\n|\r|\n)/i.exec(whole);
  const text = announced === null ? whole : whole.slice(announced[0].length);
  return {
    rows: rowsOf(text, announced?.[1] ?? likelyDelimiter(text), file, announced === null ? 0 : 1),
    remarks: [
      ...(encoding === 'UTF-8' ? [] : [`the text is read as ${encoding}.`]),
      ...(garbled
        ? [
            `the file begins with "${GARBLED_MARK}", which is left out: somebody opened it, UTF-8 as it is, as Windows-1252 and saved it so. Look whether other letters are garbled too.`,
          ]
        : []),
    ],
  };
}

/** Rows are counted as a spreadsheet program shows them: a line break inside a cell does not begin one. */
function rowsOf(text: string, delimiter: string, file: string, skippedLines: number): readonly Cells[] {
  const split = splitCsv(text, { delimiter, mostRows: MOST_ROWS, longestRow: LONGEST_ROW });
  const parsed = split ?? parsedRows(text, delimiter, file, skippedLines);
  return parsed.map((cells, index) => ({ row: index + 1, cells }));
}

/** The rows of a text that is not as RFC 4180 has it, or too long: what can be read of it all the same. Throws UserMistake with what is wrong. */
function parsedRows(text: string, delimiter: string, file: string, skippedLines: number): readonly (readonly string[])[] {
  try {
    const parsed: string[][] = parse(text, {
      delimiter,
      record_delimiter: ['\r\n', '\n', '\r'],
      relax_column_count: true,
      max_record_size: LONGEST_ROW,
      skip_empty_lines: false,
      to: MOST_ROWS + 1,
    });
    if (parsed.length > MOST_ROWS)
      throw new UserMistake(
        `${file}: there are more than ${String(MOST_ROWS)} rows; a sheet of a record has at most so many. Give the reels of one order, each order by itself.`,
      );
    return parsed;
  } catch (error) {
    if (error instanceof UserMistake) throw error;
    throw new UserMistake(csvFault(error, file, skippedLines));
  }
}

function csvFault(error: unknown, file: string, skippedLines: number): string {
  const { code, lines, records, message } = error as {
    readonly code?: string;
    readonly lines?: number;
    readonly records?: number;
    readonly message?: string;
  };
  const where = lines === undefined ? file : `${file}, line ${String(lines + skippedLines)}`;
  if (code === 'CSV_QUOTE_NOT_CLOSED')
    return `${file}, row ${String((records ?? 0) + 1)}: a quotation mark is opened and never closed; close it, or double it where it belongs to the text.`;
  if (code === 'CSV_MAX_RECORD_SIZE')
    return `${where}: a row is longer than ${String(LONGEST_ROW)} characters; look for a quotation mark that is never closed.`;
  if (code === 'INVALID_OPENING_QUOTE' || code === 'CSV_INVALID_CLOSING_QUOTE')
    return `${where}: a quotation mark stands where it cannot stand; put the whole cell in quotation marks and double those inside.`;
  return `${where}: this cannot be read as CSV (${(message ?? 'unknown reason').split('\n')[0] ?? ''}).`;
}

function refuseSurplus({ row, cells }: Cells, columns: number, file: string): void {
  const surplus = cells.slice(columns).find((cell) => cell.trim() !== '');
  if (surplus === undefined) return;
  throw new UserMistake(
    `${file}, row ${String(row)}: there are more cells than column names; the first one too many holds "${surplus.slice(0, 40)}". Look for a stray separator, or name the column.`,
  );
}

function shortRows(rows: readonly Cells[]): string {
  const named = rows
    .slice(0, NAMED)
    .map(({ row }) => String(row))
    .join(', ');
  const others = rows.length - NAMED;
  if (rows.length === 1) return `row ${named} has`;
  return others > 0 ? `rows ${named} and ${String(others)} more have` : `rows ${named} have`;
}

/** The separator that most of the first rows have, outside quotation marks: titles above the heads have few. */
function likelyDelimiter(text: string): string {
  const counts = new Map<string, number>(DELIMITERS.map((delimiter) => [delimiter, 0]));
  let inRow = new Set<string>();
  let quoted = false;
  for (const character of text.slice(0, 20_000)) {
    if (character === '"') quoted = !quoted;
    else if (quoted) continue;
    else if (character === '\n' || character === '\r') inRow = new Set();
    else if (counts.has(character)) {
      // A row counts once, so that a note full of commas does not decide; what comes twice in a row counts a little more.
      counts.set(character, (counts.get(character) ?? 0) + (inRow.has(character) ? 0.1 : 1));
      inRow.add(character);
    }
  }
  let best: string = DELIMITERS[0];
  for (const delimiter of DELIMITERS) if ((counts.get(delimiter) ?? 0) > (counts.get(best) ?? 0)) best = delimiter;
  return best;
}
