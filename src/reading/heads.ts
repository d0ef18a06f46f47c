import type { BookRow, BookSheet } from '../model/written-grid.js';
import { plainText } from '../normalise/labels.js';
import { headerKey } from '../normalise/sheet-row.js';
import { type CellRange, rangesOf } from './ranges.js';

/** The heads of a sheet: the row in which they stand, and the name of each column, by its place. */
export interface Heads {
  /** Place in the rows of the sheet. */
  readonly at: number;
  readonly row: number;
  readonly names: readonly string[];
}

/** What a column is called: its head, or its place where it has none. */
export function columnName(names: readonly string[], column: number): string {
  return names[column] === undefined || names[column] === '' ? `column ${String(column + 1)}` : names[column];
}

/** Titles, legends and instructions seldom take more rows than that. */
const DEEPEST = 40;

/**
 * Finds the row of heads wherever it stands: the first of those with most names that are known. A group of heads above it that is merged over
 * several columns belongs to each of them. `known` answers whether a name is one of a column. Null where no row has two.
 */
export function findHeads(sheet: BookSheet, known: (head: string) => boolean): Heads | null {
  const ranges = rangesOf(sheet);
  const widest = widestOf(sheet.rows);
  let best: { readonly heads: Heads; readonly score: number } | null = null;
  for (const [at, row] of sheet.rows.slice(0, DEEPEST).entries()) {
    // Heads are texts, and each is there once.
    const texts = row.cells.filter(({ kind }) => kind === 'text');
    if (texts.length * 2 < row.cells.length) continue;
    for (const heads of [headsAt(sheet, at, { ranges, widest, known }), inTwoRows(sheet, at, { ranges, widest, known })]) {
      if (heads === null) continue;
      const score = new Set(heads.names.filter((name) => name !== '' && known(name)).map(headerKey)).size;
      if (score >= 2 && score > (best?.score ?? 0)) best = { heads, score };
    }
  }
  return best?.heads ?? null;
}

/** The heads in the row of that number; null where the sheet has none there. */
export function headsInRow(sheet: BookSheet, row: number, known: (head: string) => boolean): Heads | null {
  const at = sheet.rows.findIndex((one) => one.row === row);
  const around = { ranges: rangesOf(sheet), widest: widestOf(sheet.rows), known };
  return at < 0 ? null : (inTwoRows(sheet, at, around) ?? headsAt(sheet, at, around));
}

/** The first row with any text, as the heads of a sheet in which none are known. */
export function firstHeads(sheet: BookSheet): Heads | null {
  const at = sheet.rows.findIndex(({ cells }) => cells.some(({ value }) => value.trim() !== ''));
  return at < 0 ? null : headsAt(sheet, at, { ranges: [], widest: widestOf(sheet.rows), known: () => false });
}

/** What is the same for every row of a sheet in which heads may stand. */
interface Around {
  readonly ranges: readonly CellRange[];
  /** Number of columns of its widest row. */
  readonly widest: number;
  readonly known: (head: string) => boolean;
}

function widestOf(rows: readonly BookRow[]): number {
  return rows.reduce((most, { cells }) => Math.max(most, (cells.at(-1)?.column ?? -1) + 1), 0);
}

function headsAt(sheet: BookSheet, at: number, { ranges: all, widest, known }: Around): Heads {
  const row = sheet.rows[at];
  const above = sheet.rows[at - 1];
  const number = row?.row ?? 0;
  // What is merged over every head is a title, and parts none of them from the others.
  const down = all.filter(({ top, bottom }) => top < number && bottom >= number);
  const filled = row?.cells.filter(({ value }) => value.trim() !== '').map(({ column }) => column) ?? [];
  const columns = [...filled, ...down.map(({ first }) => first)];
  const ranges = all.filter(({ first, last, bottom }) => bottom >= number || columns.some((column) => column < first || column > last));
  // Heads in two rows: some are parted below a common one, and those that are not stand in the upper row alone.
  const parted = ranges.some(
    ({ first, last, top, bottom }) =>
      top === above?.row && bottom === top && last > first && row?.cells.some(({ column }) => column >= first && column <= last) === true,
  );
  const names = Array.from({ length: widest }, (_, column) => {
    const name = textIn(row, column);
    const merged = ranges.find(({ first, last, top, bottom }) => top < number && bottom >= number - 1 && column >= first && column <= last);
    const group =
      merged === undefined || above === undefined
        ? ''
        : textIn(
            sheet.rows.find((one) => one.row === merged.top),
            merged.first,
          );
    if (name === '')
      return merged !== undefined && merged.bottom >= number ? group : parted && merged === undefined ? textIn(above, column) : '';
    if (group === '' || merged?.first === merged?.last) return name;
    const both = `${group} ${name}`;
    return known(both) || !known(name) ? both : name;
  });
  return { at, row: number, names };
}

/** Heads in two rows that no cell is merged over: a common head stands above the first of those that it parts. Null where the two rows are no such heads. */
function inTwoRows(sheet: BookSheet, at: number, { ranges, widest, known }: Around): Heads | null {
  const [above, row] = [sheet.rows[at - 1], sheet.rows[at]];
  if (above === undefined || row === undefined || ranges.some(({ top }) => top === above.row)) return null;
  const texts = (one: BookRow): number => one.cells.filter(({ kind, value }) => kind === 'text' && value.trim() !== '').length;
  const filled = (one: BookRow): number => one.cells.filter(({ value }) => value.trim() !== '').length;
  if (above.row !== row.row - 1 || texts(above) < 2 || texts(above) < filled(above) || texts(row) < filled(row)) return null;
  let group = '';
  const names = Array.from({ length: widest }, (_, column) => {
    const [upper, own] = [textIn(above, column), textIn(row, column)];
    if (upper !== '' || own === '') group = upper;
    if (own === '') return upper;
    const both = `${group} ${own}`;
    return group === '' || !known(both) ? own : both;
  });
  const parted = names.some((name, column) => textIn(row, column) !== '' && name !== textIn(row, column));
  return parted ? { at, row: row.row, names } : null;
}

function textIn(row: BookRow | undefined, column: number): string {
  return plainText(row?.cells.find((cell) => cell.column === column)?.value ?? '') ?? '';
}
