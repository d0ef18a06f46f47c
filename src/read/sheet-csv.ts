import { parse } from 'csv-parse/sync';
import type { WrittenSheet } from '../model/written-sheet.js';
import { UserMistake } from './mistake.js';
import { sameHeads } from './sheet-heads.js';
import { sheetText } from './sheet-text.js';

const DELIMITERS = [',', ';', '\t'] as const;

/** Longest row; a longer one is no row of a collation record but a quotation mark that was never closed. */
const LONGEST_ROW = 1_000_000;
const MOST_COLUMNS = 1000;
/** So many rows are named in a warning; the others are counted. */
const NAMED = 5;

interface Cells {
  readonly row: number;
  readonly cells: readonly string[];
}

/** Reads the bytes of a CSV file: comma, semicolon or tab as the header row has most of, or as a first line `sep=;` says. Throws UserMistake. */
export function readCsv(bytes: Buffer, file: string): WrittenSheet {
  const whole = sheetText(bytes, file);
  const announced = /^sep=(.)(?:\r\n|\r|\n)/i.exec(whole);
  const text = announced === null ? whole : whole.slice(announced[0].length);
  const [header, ...below] = rowsOf(text, announced?.[1] ?? likelyDelimiter(text), file, announced === null ? 0 : 1);
  if (header === undefined || header.cells.every((cell) => cell.trim() === ''))
    throw new UserMistake(`${file}: the first row is empty; it must hold the column names.`);
  if (header.cells.length > MOST_COLUMNS)
    throw new UserMistake(
      `${file}, row 1: there are ${String(header.cells.length)} columns; a sheet of a record has at most ${String(MOST_COLUMNS)}.`,
    );
  const same = sameHeads(header.cells, (index) => String(index + 1));
  if (same !== null) throw new UserMistake(`${file}, row 1: ${same}`);
  const rows = below.filter(({ cells }) => cells.some((cell) => cell.trim() !== ''));
  for (const row of rows) refuseSurplus(row, header.cells.length, file);
  const short = rows.filter(({ cells }) => cells.length < header.cells.length);
  return {
    file,
    sheet: file.replace(/\.[^.]*$/, ''),
    headers: header.cells,
    rows,
    problems: [],
    warnings:
      short.length === 0 ? [] : [`${file}: ${shortRows(short)} fewer cells than there are columns; the missing ones are taken as empty.`],
  };
}

/** Rows are counted as a spreadsheet program shows them: a line break inside a cell does not begin one. */
function rowsOf(text: string, delimiter: string, file: string, skippedLines: number): Cells[] {
  try {
    const parsed: string[][] = parse(text, {
      delimiter,
      record_delimiter: ['\r\n', '\n', '\r'],
      relax_column_count: true,
      max_record_size: LONGEST_ROW,
      skip_empty_lines: false,
    });
    return parsed.map((cells, index) => ({ row: index + 1, cells }));
  } catch (error) {
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

/** The separator that the header row has most of, outside quotation marks. */
function likelyDelimiter(text: string): string {
  const counts = new Map<string, number>(DELIMITERS.map((delimiter) => [delimiter, 0]));
  let quoted = false;
  for (const character of text.slice(0, 10_000)) {
    if (character === '"') quoted = !quoted;
    else if (!quoted && (character === '\n' || character === '\r')) break;
    else if (!quoted && counts.has(character)) counts.set(character, (counts.get(character) ?? 0) + 1);
  }
  let best: string = DELIMITERS[0];
  for (const delimiter of DELIMITERS) if ((counts.get(delimiter) ?? 0) > (counts.get(best) ?? 0)) best = delimiter;
  return best;
}
