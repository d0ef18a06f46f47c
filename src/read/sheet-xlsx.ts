import type { BookRow, BookSheet, Workbook } from '../model/written-grid.js';
import type { SheetProblem, TypedCell, WrittenSheet } from '../model/written-sheet.js';
import { UserMistake } from './mistake.js';
import { headsAt, sameHeads } from './sheet-heads.js';
import { columnLetters } from './workbook/address.js';
import { readWorkbook } from './workbook/index.js';

/** So many rows, columns or ranges are named in a warning; the others are counted. */
const NAMED = 5;

/** Reads the bytes of an .xlsx file: a sheet for each tab that holds anything. The first row with any text holds the column names. Throws UserMistake. */
export function readXlsx(bytes: Buffer, file: string): readonly WrittenSheet[] {
  return sheetsOfBook(readWorkbook(bytes, file), file);
}

/** The sheets of a workbook that hold anything, their first rows taken for heads, or the first that `fits`. Throws UserMistake where there is none. */
export function sheetsOfBook(book: Workbook, file: string, fits?: (heads: readonly string[]) => boolean): readonly WrittenSheet[] {
  const sheets = book.sheets.flatMap((sheet) => {
    const filled = sheet.rows.filter(({ cells }) => cells.some(({ value }) => value.trim() !== ''));
    const at = headsAt(
      filled.map((row) => textsOf(row, 0)),
      fits,
    );
    return writtenSheet(sheet, filled.slice(at), book, file);
  });
  if (sheets.length === 0)
    throw new UserMistake(`${file}: every sheet of the workbook is empty; a sheet with column names and rows was expected.`);
  return sheets;
}

function writtenSheet(
  sheet: BookSheet,
  [header, ...below]: readonly BookRow[],
  { date1904, program }: Workbook,
  file: string,
): readonly WrittenSheet[] {
  if (header === undefined) return [];
  const where = `${file}, sheet ${sheet.name}`;
  const heads = textsOf(header, 0);
  const problem = (row: number, says: string): SheetProblem => ({ file, sheet: sheet.name, row, column: null, says });
  const same = sameHeads(heads, columnLetters);
  const problems = [
    ...(same === null ? [] : [problem(header.row, same)]),
    ...below.flatMap((row) => {
      const says = surplus(row, heads.length);
      return says === null ? [] : [problem(row.row, says)];
    }),
  ];
  const typed = below.flatMap(({ row, cells }) =>
    cells.flatMap((cell): readonly TypedCell[] => (cell.kind === 'text' && cell.formula === null ? [] : [{ ...cell, row }])),
  );
  return [
    {
      file,
      sheet: sheet.name,
      headers: heads,
      rows: below.map((row) => ({ row: row.row, cells: textsOf(row, heads.length) })),
      problems,
      ...(sheet.merged.length === 0 ? {} : { merged: sheet.merged }),
      warnings: warningsOf(sheet, [header, ...below], where),
      typed: { cells: typed, book: { date1904, program } },
    },
  ];
}

/** The cells of a row without gaps, at least as many as there are columns. */
function textsOf({ cells }: BookRow, columns: number): readonly string[] {
  const texts: string[] = Array.from({ length: Math.max(columns, (cells.at(-1)?.column ?? -1) + 1) }, () => '');
  for (const { column, value } of cells) texts[column] = value;
  return texts;
}

/** A cell beside the named columns, in a sentence; null where there is none. */
function surplus({ cells }: BookRow, columns: number): string | null {
  const cell = cells.find(({ column, value }) => column >= columns && value.trim() !== '');
  if (cell === undefined) return null;
  return `the cell ${cell.address} holds "${cell.value.slice(0, 40)}", but its column has no name; name the column, or empty the cell.`;
}

/** What a person looking at the sheet does not see, or sees otherwise than it is stored. */
function warningsOf(sheet: BookSheet, rows: readonly BookRow[], where: string): readonly string[] {
  const hiddenRows = rows.filter(({ hidden }) => hidden).map(({ row }) => String(row));
  const used = new Set(rows.flatMap(({ cells }) => cells.map(({ column }) => column)));
  const hiddenColumns = [...used]
    .filter((column) => sheet.hiddenColumns.some(({ from, to }) => column >= from && column <= to))
    .toSorted((a, b) => a - b)
    .map(columnLetters);
  return [
    ...(sheet.hidden ? [`${where}: the sheet is hidden; it is read like the others.`] : []),
    ...(hiddenRows.length === 0
      ? []
      : [`${where}: ${named('row', hiddenRows)} hidden or filtered away; what stands there is read like the rest.`]),
    ...(hiddenColumns.length === 0 ? [] : [`${where}: ${named('column', hiddenColumns)} hidden; what stands there is read like the rest.`]),
    ...(sheet.merged.length === 0
      ? []
      : [`${where}: ${named('range', sheet.merged)} merged; only the first cell of a range counts, the others are taken as empty.`]),
  ];
}

/** `row 5 is`, `rows 5, 6 and 7 are`, `rows 5, 6, 7, 8, 9 and 12 more are`. */
function named(word: string, names: readonly string[]): string {
  if (names.length === 1) return `the ${word} ${names[0] ?? ''} is`;
  const rest = names.length - NAMED;
  const shown = names.slice(0, NAMED);
  const list = rest > 0 ? `${shown.join(', ')} and ${String(rest)} more` : `${shown.slice(0, -1).join(', ')} and ${shown.at(-1) ?? ''}`;
  return `the ${word}s ${list} are`;
}
