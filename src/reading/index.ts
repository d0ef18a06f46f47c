import type { HeadedRecord, SheetProblem, WrittenRecord, WrittenSheet } from '../model/written-sheet.js';
import { byCause } from '../normalise/by-cause.js';
import { firstInSeries } from '../normalise/in-series.js';
import { type NormalisedRecord, normaliseRecord } from '../normalise/record.js';
import { marksInWords } from './marks.js';
import { isRecord } from './own-sheets.js';
import { applyReading } from './sheet.js';
import { waysOf } from './ways.js';

/** What was written, each sheet in the columns of a record by its reading file, and what is worth knowing, in sentences. */
export function headedRecord(written: WrittenRecord): { readonly headed: HeadedRecord; readonly remarks: readonly string[] } {
  const ways = written.readings.map(({ reading }) => waysOf(reading));
  const literal = waysOf(null);
  const remarks: SheetProblem[] = [];
  const sheets = written.grids.filter(isRecord).flatMap((grid): readonly WrittenSheet[] => {
    const own = grid.reading === null ? literal : (ways[grid.reading] ?? literal);
    const applied = applyReading(grid, own);
    if (applied.sheet === null) return [];
    remarks.push(...applied.remarks);
    return [{ ...applied.sheet, warnings: [...applied.sheet.warnings, ...unseen(grid), ...marksInWords(grid, own)] }];
  });
  const calendar = ways.find((one) => one.calendar !== null)?.calendar ?? null;
  return {
    headed: { ...(calendar === null ? {} : { calendar }), sheets, records: written.records },
    remarks: [...written.remarks, ...byCause(remarks)],
  };
}

/** The record in what was written, by the reading files that lie beside. */
export function understoodRecord(written: WrittenRecord): NormalisedRecord {
  const { headed, remarks } = headedRecord(written);
  const normalised = normaliseRecord(headed);
  return { ...normalised, warnings: [...remarks, ...normalised.warnings] };
}

/** So many rows or columns are named; the others are counted. */
const NAMED = 5;

/** What a person who looks at the sheet does not see. */
function unseen({ file, sheet }: WrittenRecord['grids'][number]): readonly string[] {
  const where = `${file}, sheet ${sheet.name}`;
  const rows = sheet.rows.filter(({ hidden }) => hidden).map(({ row }) => String(row));
  const columns = hiddenColumns(sheet);
  return [
    ...(sheet.hidden ? [`${where}: the sheet is hidden; it is read like the others.`] : []),
    ...(rows.length === 0 ? [] : [`${where}: ${named('row', rows)} hidden or filtered away; what stands there is read like the rest.`]),
    ...(columns.length === 0 ? [] : [`${where}: ${named('column', columns)} hidden; what stands there is read like the rest.`]),
  ];
}

/** The hidden columns that hold anything, by their letters, as the address of a cell begins. */
function hiddenColumns({ rows, hiddenColumns: ranges }: WrittenRecord['grids'][number]['sheet']): readonly string[] {
  if (ranges.length === 0) return [];
  const used = new Map<number, string>();
  for (const { cells } of rows)
    for (const { column, address } of cells)
      if (ranges.some(({ from, to }) => column >= from && column <= to)) used.set(column, address.replace(/\d+$/, ''));
  return [...used].toSorted(([a], [b]) => a - b).map(([, letters]) => letters);
}

/** `row 5 is`, `rows 5, 6 and 7 are`, `rows 5, 6, 7, 8, 9 and 12 more are`. */
function named(word: string, names: readonly string[]): string {
  if (names.length === 1) return `the ${word} ${names[0] ?? ''} is`;
  return `the ${word}s ${firstInSeries(names, NAMED)} are`;
}
