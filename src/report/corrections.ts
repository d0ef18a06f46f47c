import type { Findings } from '../model/findings.js';
import { recordChange } from './record-changes.js';
import { cell, sheet } from './sheet.js';

/** Name of the corrections in a folder of results. */
export const CORRECTIONS_FILE = 'collation-corrections.csv';

const HEADS = ['reel', 'frame', 'action', 'field', 'from', 'to', 'finding', 'by', 'on', 'why none'];

/**
 * The corrections that the library's rulings ask of its own record, as CSV for the collator; null where there are none. A ruling for which no
 * change can be named has a row that says why. The record is never changed.
 */
export function renderCorrections(result: Findings): string | null {
  const rows = result.findings.flatMap((finding) => {
    const { id, ruling } = finding;
    if (ruling?.decision !== 'collation-wrong') return [];
    const { corrections, why } = recordChange(finding, result);
    const who = [id, ruling.by, ruling.on];
    if (why !== null) return [[finding.reel ?? '', '', '', finding.field ?? '', '', '', ...who, why].map(cell)];
    return corrections.map((change) =>
      [change.reel, change.frame, change.action, change.field, change.from, change.to, ...who, ''].map(cell),
    );
  });
  return rows.length === 0 ? null : sheet([HEADS, ...rows]);
}
