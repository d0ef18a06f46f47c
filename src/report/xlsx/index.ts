import type { Findings } from '../../model/findings.js';
import { LIST_COLUMNS, listRows } from '../discrepancies.js';
import { shownText } from './cell-text.js';
import { coverLines } from './cover.js';
import { writeWorkbook } from './write.js';

/** Widths in characters of columns that hold more than a word, or less. */
const WIDTHS: ReadonlyMap<string, number> = new Map([
  ['finding', 22],
  ['severity', 8],
  ['delivery', 8],
  ['begins at frame', 8],
  ['frames affected', 8],
  ['edition', 7],
  ['page', 7],
  ['rescan', 7],
  ['what is so', 40],
  ['what to do', 40],
  ['evidence', 40],
  ['or else', 30],
  ['where in the return', 24],
  ['where in the record', 18],
  ['vendor answer', 30],
]);
const USUAL_WIDTH = 12;

/** The list for the vendor as a workbook: a cover sheet, and a row per finding with room for the answer. */
export async function renderXlsx(result: Findings): Promise<Uint8Array> {
  const heads = LIST_COLUMNS.map(({ head }) => head);
  return writeWorkbook([
    { name: 'about this list', heads: null, rows: coverLines(result).map((line) => line.map(shownText)), widths: [22, 110] },
    {
      name: 'discrepancies',
      heads,
      rows: listRows(result).map((row) => row.map(shownText)),
      widths: heads.map((head) => WIDTHS.get(head) ?? USUAL_WIDTH),
    },
  ]);
}
