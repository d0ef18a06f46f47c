import type { BookCell, BookRow, BookSheet } from '../model/written-grid.js';

/** A merged range: columns counted from 0, rows as a spreadsheet program counts, both ends included. */
export interface CellRange {
  readonly first: number;
  readonly last: number;
  readonly top: number;
  readonly bottom: number;
}

/** The merged ranges of a sheet. */
export function rangesOf({ merged }: Pick<BookSheet, 'merged'>): readonly CellRange[] {
  return merged.flatMap((text) => {
    const match = /^([A-Z]{1,3})([1-9]\d{0,6}):([A-Z]{1,3})([1-9]\d{0,6})$/.exec(text);
    if (match === null) return [];
    return [{ first: column(match[1]), last: column(match[3]), top: Number(match[2]), bottom: Number(match[4]) }];
  });
}

function column(letters = ''): number {
  let number = 0;
  for (const letter of letters) number = number * 26 + letter.charCodeAt(0) - 64;
  return number - 1;
}

/** The rows below `head`, with the value of a cell that is merged over several rows in each of them: that is what a person sees. */
export function unmergedRows(sheet: BookSheet, head: number): { readonly rows: readonly BookRow[]; readonly spread: readonly string[] } {
  const tall = rangesOf(sheet).filter(({ top, bottom }) => bottom > top && bottom > head);
  if (tall.length === 0) return { rows: sheet.rows, spread: [] };
  const added = new Map<number, BookCell[]>();
  const byRow = new Map(sheet.rows.map((row) => [row.row, row]));
  const spread: string[] = [];
  for (const { first, top, bottom } of tall) {
    const cell = byRow.get(top)?.cells.find((one) => one.column === first);
    if (cell === undefined || cell.value.trim() === '') continue;
    spread.push(cell.address);
    for (let row = top + 1; row <= bottom; row += 1) added.set(row, [...(added.get(row) ?? []), cell]);
  }
  const rows = sheet.rows.map((row) => {
    const more = (added.get(row.row) ?? []).filter(({ column: at }) => !row.cells.some((cell) => cell.column === at));
    return more.length === 0 ? row : { ...row, cells: [...row.cells, ...more].toSorted((a, b) => a.column - b.column) };
  });
  return { rows, spread };
}

/** Whether a cell stands in the row itself, and not in one above for which it holds too. */
export function isOwn({ address }: BookCell, row: number): boolean {
  return address.endsWith(String(row));
}
