import type { BookCell, BookRow, WrittenGrid } from '../../model/written-grid.js';
import type { Layout } from '../columns.js';
import { isStruck, withoutStruckParts } from '../marks.js';
import type { Beside } from '../own-dates.js';
import { unmergedRows } from '../ranges.js';
import { rowKind } from '../rows.js';
import { layoutOf } from '../sheet.js';
import type { Ways } from '../ways.js';

/** One sheet of a record with its rows of data, as they are read so far. */
export interface Laid {
  readonly grid: WrittenGrid;
  readonly layout: Layout;
  readonly rows: readonly BookRow[];
  /** Rows that hold one text and nothing else; `heading` where it is a year or a month. */
  readonly lone: readonly { readonly row: number; readonly text: string; readonly heading: Beside | null }[];
  readonly reelLines: boolean;
}

/** The sheets of a record as the ways lay them out; those of none are left out. */
export function laidOut(grids: readonly WrittenGrid[], ways: Ways): readonly Laid[] {
  return grids.flatMap((grid): readonly Laid[] => {
    const layout = layoutOf(grid, ways);
    if (layout?.use == null) return [];
    const { heads, plans } = layout;
    const rows: BookRow[] = [];
    const lone: { row: number; text: string; heading: Beside | null }[] = [];
    let reelLines = false;
    for (const row of unmergedRows(withoutStruckParts(grid.sheet, ways), heads.row).rows.slice(heads.at + 1)) {
      if (row.cells.every(({ value }) => value.trim() === '') || (ways.struck !== 'keep' && isStruck(row))) continue;
      const kind = rowKind(row, heads, plans);
      if (kind.is === 'lone text') lone.push({ row: row.row, text: kind.text, heading: kind.heading });
      if (kind.is === 'data') rows.push(row);
      reelLines ||= kind.is === 'reel';
    }
    return [{ grid, layout, rows, lone, reelLines }];
  });
}

/** The texts under the columns of a field, with their rows. */
export function textsOf(
  { layout, rows }: Laid,
  field: string,
): readonly { readonly row: number; readonly text: string; readonly cell: BookCell }[] {
  const columns = layout.plans.filter(({ fields }) => fields.length === 1 && fields[0] === field).map(({ column }) => column);
  return rows.flatMap(({ row, cells }) =>
    cells.flatMap((cell) => (columns.includes(cell.column) && cell.value.trim() !== '' ? [{ row, text: cell.value.trim(), cell }] : [])),
  );
}

/** A row in a question. */
export function where({ grid }: Laid, row: number): string {
  return `sheet "${grid.sheet.name}", row ${String(row)}`;
}

/** Each key once, with where it first stands. */
export function firsts<Item>(items: readonly Item[], key: (item: Item) => string): readonly Item[] {
  const seen = new Set<string>();
  return items.filter((item) => !seen.has(key(item)) && seen.add(key(item)));
}
