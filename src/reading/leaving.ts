import type { WrittenRecord } from '../model/written-sheet.js';
import { sheetPlace } from '../normalise/record.js';
import { headerKey } from '../normalise/sheet-row.js';
import { layoutOf } from './sheet.js';
import { waysOf } from './ways.js';

/** What stands in a column of the library's own that may leave the house: the sheet and row as places of the record name them, the head, the text. */
export interface Leaving {
  readonly sheet: string;
  readonly row: number;
  readonly head: string;
  readonly text: string;
}

/** The cells of the columns that the reading files let out of the house; none where they name none. */
export function leavingCells({ grids, readings }: WrittenRecord): readonly Leaving[] {
  return grids.flatMap((grid): readonly Leaving[] => {
    const reading = grid.reading === null ? undefined : readings[grid.reading]?.reading;
    const named = new Set((reading?.leaves ?? []).map(headerKey));
    const layout = reading === undefined || named.size === 0 ? null : layoutOf(grid, waysOf(reading));
    if (layout === null) return [];
    const { heads } = layout;
    return grid.sheet.rows
      .filter(({ row }) => row > heads.row)
      .flatMap(({ row, cells }) =>
        cells.flatMap(({ column, value }): readonly Leaving[] => {
          const head = heads.names[column] ?? '';
          const text = value.trim();
          if (head === '' || text === '' || !named.has(headerKey(head))) return [];
          return [{ sheet: sheetPlace({ file: grid.file, sheet: grid.sheet.name }), row, head, text }];
        }),
      );
  });
}
