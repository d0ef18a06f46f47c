import type { Findings } from '../model/findings.js';
import { closedRows } from './closed-rows.js';
import { LIST_COLUMNS, listRows } from './discrepancies.js';
import { cell, sheet } from './sheet.js';

/** The list for the vendor: a row per finding, worst first, with empty columns for the answer and the decision; then what was corrected since the earlier delivery. UTF-8 text. */
export function renderCsv(findings: Findings): string {
  const rows = [...listRows(findings), ...closedRows(LIST_COLUMNS, findings)].map((row) => row.map(cell));
  return sheet([LIST_COLUMNS.map(({ head }) => head), ...rows]);
}
