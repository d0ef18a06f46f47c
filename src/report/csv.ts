import type { Findings } from '../model/findings.js';
import { LIST_COLUMNS, listRows } from './discrepancies.js';
import { cell, sheet } from './sheet.js';

/** The list for the vendor: a row per finding, worst first, with empty columns for the answer and the decision. UTF-8 text. */
export function renderCsv(findings: Findings): string {
  return sheet([LIST_COLUMNS.map(({ head }) => head), ...listRows(findings).map((row) => row.map(cell))]);
}
