import type { Findings } from '../../model/findings.js';
import { LIST_COLUMNS, listCells, listRows, STEP_HEADS, STEPS_SHEET, stepRows } from '../discrepancies.js';
import { doubtPlace, recordDoubts } from '../record-doubts.js';
import { sinceSent } from '../since-sent.js';
import { shownLines, shownText } from './cell-text.js';
import { coverLines } from './cover.js';
import type { TextSheet } from './text-sheet.js';
import { writeWorkbook } from './write.js';

/** The problems of the record on which findings rest; no sheet where there are none, for the others are no business of the vendor's. */
function recordSheet(result: Findings): readonly TextSheet[] {
  const doubts = recordDoubts(result).filter(({ findings }) => findings.length > 0);
  if (doubts.length === 0) return [];
  const rows = doubts.map(({ item, findings }) => [
    item.id,
    item.severity,
    doubtPlace(item),
    item.says,
    item.likely ?? '',
    findings.join(', '),
  ]);
  return [
    {
      name: 'record in doubt',
      heads: ['problem', 'severity', 'where in the record', 'what does not agree', 'likely', 'findings that rest on it'],
      rows: rows.map((row) => row.map(shownText)),
      widths: [22, 8, 24, 50, 40, 40],
    },
  ];
}

/** Every step in the vendor's files; no sheet where nothing is to be done in them. */
function stepsSheet(result: Findings): readonly TextSheet[] {
  const rows = stepRows(result);
  if (rows.length === 0) return [];
  return [{ name: STEPS_SHEET, heads: STEP_HEADS, rows: rows.map((row) => row.map(shownText)), widths: [28, 46, 20, 10, 50] }];
}

/** What was changed in the record since it was sent; no sheet where nothing was. */
function sentSheet(result: Findings): readonly TextSheet[] {
  const since = sinceSent(result);
  if (since === null || since.changes.length === 0) return [];
  return [
    {
      name: 'record since it was sent',
      heads: ['what was changed'],
      rows: [...since.changes, since.means].map((line) => [shownText(line)]),
      widths: [110],
    },
  ];
}

/** The list for the vendor as a workbook: a cover sheet, and a row per finding with room for the answer, and what is in doubt in the record. */
export async function renderXlsx(result: Findings): Promise<Uint8Array> {
  const heads = LIST_COLUMNS.map(({ head }) => head);
  return writeWorkbook([
    { name: 'about this list', heads: null, rows: coverLines(result).map((line) => line.map(shownText)), widths: [22, 110] },
    {
      name: 'discrepancies',
      heads,
      rows: listRows(result, 'workbook').map((row) => listCells(row, shownText, shownLines)),
      widths: LIST_COLUMNS.map(({ width }) => width),
      onePageWide: true,
    },
    ...stepsSheet(result),
    ...recordSheet(result),
    ...sentSheet(result),
  ]);
}
