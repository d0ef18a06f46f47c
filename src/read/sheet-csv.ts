import { parse } from 'csv-parse/sync';
import type { WrittenSheet } from '../model/written-sheet.js';
import { UserMistake } from './mistake.js';

const DELIMITERS = [',', ';', '\t'] as const;

/** Longest single cell; a longer one is no cell of a collation record but a quote that was never closed. */
const LONGEST_ROW = 1_000_000;

/** Reads the bytes of a CSV file: UTF-8 with or without mark, or UTF-16 with one; comma, semicolon or tab, or as a first line `sep=;` says. Throws UserMistake. */
export function readCsv(bytes: Buffer, file: string): WrittenSheet {
  if (bytes.subarray(0, 4).equals(Buffer.from([0x50, 0x4b, 3, 4]))) {
    throw new UserMistake(
      `${file}: this is a packed workbook under the name of a CSV file; save the sheet as CSV (UTF-8), or name the workbook .xlsx.`,
    );
  }
  let text = decode(bytes, file);
  let skipped = 0;
  const announced = /^sep=(.)\r?\n/.exec(text);
  if (announced !== null) {
    text = text.slice(announced[0].length);
    skipped = 1;
  }
  const delimiter = announced?.[1] ?? likelyDelimiter(text);
  const rows = rowsOf(text, delimiter, file);
  const header = rows[0];
  if (header === undefined) throw new UserMistake(`${file}: the file is empty; its first row must hold the column names.`);
  const base = file.split('/').at(-1) ?? file;
  const sheet = base.replace(/\.[^.]*$/, '');
  refuseTwice(header.cells, file);
  const body = rows.slice(1).filter(({ cells }) => cells.some((cell) => cell.trim() !== ''));
  for (const { row, cells } of body) {
    const extra = cells.slice(header.cells.length).findIndex((cell) => cell.trim() !== '');
    if (extra >= 0) {
      throw new UserMistake(
        `${file}, row ${String(row + skipped)}: there are more cells than column names; the first one too many holds "${(cells[header.cells.length + extra] ?? '').slice(0, 40)}". Look for a stray separator, or name the column.`,
      );
    }
  }
  return { file, sheet, headers: header.cells, rows: body.map(({ row, cells }) => ({ row: row + skipped, cells })) };
}

function rowsOf(text: string, delimiter: string, file: string): { row: number; cells: string[] }[] {
  try {
    const parsed = parse(text, {
      delimiter,
      record_delimiter: ['\r\n', '\n', '\r'],
      relax_column_count: true,
      info: true,
      max_record_size: LONGEST_ROW,
      skip_empty_lines: false,
    }) as unknown as { record: string[]; info: { lines: number } }[];
    // rows are counted as a spreadsheet program shows them: a line break inside a cell does not begin one
    return parsed.map(({ record }, index) => ({ row: index + 1, cells: record }));
  } catch (error) {
    const { code, lines, message } = error as { code?: string; lines?: number; message?: string };
    const where = lines === undefined ? file : `${file}, line ${String(lines)}`;
    if (code === 'CSV_QUOTE_NOT_CLOSED')
      throw new UserMistake(`${where}: a quotation mark is opened and never closed; close it, or double it where it belongs to the text.`);
    if (code === 'CSV_MAX_RECORD_SIZE')
      throw new UserMistake(
        `${where}: a row is longer than ${String(LONGEST_ROW)} characters; look for a quotation mark that is never closed.`,
      );
    if (code === 'INVALID_OPENING_QUOTE' || code === 'CSV_INVALID_CLOSING_QUOTE')
      throw new UserMistake(
        `${where}: a quotation mark stands where it cannot stand; put the whole cell in quotation marks and double those inside.`,
      );
    throw new UserMistake(`${where}: this cannot be read as CSV (${(message ?? 'unknown reason').split('\n')[0] ?? ''}).`);
  }
}

function refuseTwice(headers: readonly string[], file: string): void {
  const seen = new Map<string, number>();
  headers.forEach((header, index) => {
    const key = header.toLowerCase().replace(/[\s_-]/g, '');
    if (key === '') return;
    const before = seen.get(key);
    if (before !== undefined)
      throw new UserMistake(
        `${file}, row 1: the columns ${String(before + 1)} and ${String(index + 1)} are both called "${header.trim()}"; rename or remove one of them.`,
      );
    seen.set(key, index);
  });
}

/** The separator that the header line has most of, outside quotation marks. */
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

function decode(bytes: Buffer, file: string): string {
  const wide = bytes[0] === 0xff && bytes[1] === 0xfe ? 'utf-16le' : bytes[0] === 0xfe && bytes[1] === 0xff ? 'utf-16be' : null;
  try {
    return new TextDecoder(wide ?? 'utf-8', { fatal: true }).decode(bytes);
  } catch {
    throw new UserMistake(`${file}: the file is not UTF-8 text; save it again as "CSV UTF-8".`);
  }
}
