import type { InvoiceReading } from '../../model/reading.js';
import type { BookCell, BookRow } from '../../model/written-grid.js';
import { type DecimalMark, type Figure, markShown, readFigure } from './figures.js';
import type { InvoiceColumns } from './heads.js';
import { type InvoiceColumn, type InvoiceRow, plainWord, usualRow } from './words.js';

/** A row below the heads, with what it is. */
export interface ReadRow {
  readonly row: number;
  readonly is: InvoiceRow | 'line' | 'words';
  /** What says what the row is or bills, in the vendor's words. */
  readonly words: string;
  readonly cells: readonly BookCell[];
  readonly text: (column: InvoiceColumn) => string;
  /** A figure of a column; null where the cell is empty. */
  readonly figure: (column: InvoiceColumn) => Figure | null;
  /** The last figure of the row, for sums that stand under another column than the amounts. */
  readonly lastFigure: () => Figure | null;
}

/** The mark before the decimals that the figures of a sheet show, and what shows it; null where none shows one, `both` where they contradict each other. */
export function markOfRows(
  rows: readonly BookRow[],
  columns: InvoiceColumns,
): { readonly mark: DecimalMark | 'both' | null; readonly shown: readonly string[] } {
  const places = new Set([columns.quantity, columns['unit price'], columns.amount]);
  const shown = new Map<DecimalMark, string>();
  for (const { cells } of rows)
    for (const { column, kind, value } of cells) {
      const mark = kind === 'text' && places.has(column) ? markShown(value) : null;
      if (mark !== null && !shown.has(mark)) shown.set(mark, value.trim());
    }
  const [only] = shown.keys();
  return { mark: shown.size === 0 || only === undefined ? null : shown.size > 1 ? 'both' : only, shown: [...shown.values()] };
}

/** Sorts the rows below the heads into lines, sums and words. */
export function readRows(
  rows: readonly BookRow[],
  columns: InvoiceColumns,
  reading: InvoiceReading,
  mark: DecimalMark | null,
  isClass: (words: string) => boolean,
): readonly ReadRow[] {
  const said = new Map(Object.entries(reading.rows ?? {}).map(([words, is]) => [plainWord(words), is]));
  return rows.map(({ row, cells }): ReadRow => {
    const at = (column: InvoiceColumn): BookCell | undefined => {
      const place = columns[column];
      return place === undefined ? undefined : cells.find((cell) => cell.column === place);
    };
    const text = (column: InvoiceColumn): string => at(column)?.value.trim() ?? '';
    const figure = (column: InvoiceColumn): Figure | null => figureOf(at(column), mark);
    const words =
      text('class') === '' ? (cells.find(({ kind, value }) => kind === 'text' && /\p{L}/u.test(value))?.value.trim() ?? '') : text('class');
    const own = said.get(plainWord(words));
    const bills = figure('quantity') !== null || figure('unit price') !== null;
    const sums = own ?? (bills || isClass(words) ? null : usualRow(words));
    const amount = figure('amount');
    const last = cells.findLast(({ kind, value }) => kind === 'number' || readFigure(value, mark).text !== null);
    const lastFigure = (): Figure | null => amount ?? figureOf(last, mark);
    const is = sums ?? (amount !== null || bills ? 'line' : 'words');
    return {
      row,
      is: is !== 'line' && is !== 'words' && is !== 'leave out' && lastFigure() === null ? 'words' : is,
      words,
      cells,
      text,
      figure,
      lastFigure,
    };
  });
}

/** A cell as a figure: a number of a workbook has its point whatever the workbook shows, and a share is in percent. */
function figureOf(cell: BookCell | undefined, mark: DecimalMark | null): Figure | null {
  if (cell === undefined || cell.value.trim() === '') return null;
  if (cell.kind !== 'number') return readFigure(cell.value.replace(/%\s*$/u, ''), mark);
  const value = Number(cell.value) * (cell.format.includes('%') ? 100 : 1);
  const text = String(Number(value.toPrecision(15)));
  return /^-?\d{1,15}(?:\.\d{1,8})?$/.test(text) ? { text } : { text: null, why: 'no figure' };
}
