import type { Findings } from '../model/findings.js';
import { closedRows } from './closed-rows.js';
import { LIST_COLUMNS, listCells, listRows } from './discrepancies.js';
import { cell, cellOfLines, sheet } from './sheet.js';
import { changeRows } from './since-sent.js';

/** The list for the vendor: a row per finding, worst first, with empty columns for the answer and the decision; then what was corrected since the earlier delivery, and what was changed in the record since it was sent. UTF-8 text. */
export function renderCsv(findings: Findings): string {
  const heads = LIST_COLUMNS.map(({ head }) => head);
  const rows = [...listRows(findings, 'table'), ...closedRows(LIST_COLUMNS, findings), ...changeRows(heads, findings)].map((row) =>
    listCells(row, cell, cellOfLines),
  );
  return sheet([heads, ...rows]);
}
