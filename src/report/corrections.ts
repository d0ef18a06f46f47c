import type { Findings } from '../model/findings.js';
import { cell, sheet } from './sheet.js';

/** Name of the corrections in a folder of results. */
export const CORRECTIONS_FILE = 'collation-corrections.csv';

const HEADS = ['reel', 'frame', 'action', 'field', 'from', 'to', 'finding', 'by', 'on'];

/** The corrections that the library's rulings ask of its own record, as CSV for the collator; null where there are none. The record is never changed. */
export function renderCorrections(result: Findings): string | null {
  const rows = result.findings.flatMap(({ id, ruling, corrections }) =>
    ruling?.decision === 'collation-wrong'
      ? corrections.map((change) =>
          [change.reel, change.frame, change.action, change.field, change.from, change.to, id, ruling.by, ruling.on].map(cell),
        )
      : [],
  );
  return rows.length === 0 ? null : sheet([HEADS, ...rows]);
}
