import type { Finding, Findings } from '../model/findings.js';
import { closedRows } from './closed-rows.js';
import { cell, sheet } from './sheet.js';
import { CAUSE_WORDS, forTheVendor, framesInWords, placeInWords, whoActs } from './words.js';

type Column = readonly [head: string, value: (finding: Finding, result: Findings) => string];

const blank = (): string => '';

/** One column after the other; those that give nothing are for the answer. */
const COLUMNS: readonly Column[] = [
  ['finding', (finding) => finding.id],
  ['severity', (finding) => finding.severity],
  ['code', (finding) => finding.code],
  ['batch', (_, result) => result.run.batch],
  ['delivery', (_, result) => String(result.run.delivery)],
  ['reel', (finding) => finding.reel ?? ''],
  ['begins at frame', (finding) => finding.at ?? ''],
  ['frames', (finding) => (finding.frames === null ? '' : framesInWords(finding.frames, 60))],
  ['frames affected', (finding) => String(finding.count)],
  ['title', (finding) => finding.title ?? ''],
  ['title name', (finding, result) => result.titles.find((title) => title.id === finding.title)?.name ?? ''],
  ['date', (finding) => finding.date ?? ''],
  ['edition', (finding) => (finding.edition === null ? '' : String(finding.edition))],
  ['page', (finding) => finding.page ?? ''],
  ['field', (finding) => finding.field ?? ''],
  ['record says', (finding) => finding.collation ?? ''],
  ['return says', (finding) => finding.return ?? ''],
  ['what is so', (finding) => finding.says],
  ['who acts', whoActs],
  ['what to do', (finding) => finding.instruction ?? ''],
  ['rescan', (finding) => finding.rescan],
  ['billing', (finding) => finding.billable.map((line) => `${line.class} ${line.change > 0 ? '+' : ''}${String(line.change)}`).join('; ')],
  ['likely cause', (finding) => CAUSE_WORDS[finding.cause]],
  ['evidence', (finding) => finding.evidence.join(' | ')],
  ['or else', (finding) => finding.alternatives.map((other) => other.says).join(' | ')],
  [
    'where in the return',
    (finding) =>
      finding.places
        .filter((place) => place.document !== undefined)
        .map(placeInWords)
        .join(' | '),
  ],
  [
    'where in the record',
    (finding) =>
      finding.places
        .filter((place) => place.document === undefined)
        .map(placeInWords)
        .join(' | '),
  ],
  ['known since', (finding) => (finding.status === undefined ? '' : finding.status === 'open' ? 'an earlier delivery' : 'this delivery')],
  ['vendor answer', (finding) => finding.answer?.text ?? ''],
  ['answered on', (finding) => finding.answer?.on ?? ''],
  ['fixed in delivery', blank],
  ['decision', (finding) => finding.ruling?.decision ?? ''],
  ['note', (finding) => finding.ruling?.note ?? ''],
  ['by', (finding) => finding.ruling?.by ?? ''],
  ['on', (finding) => finding.ruling?.on ?? ''],
];

/** The list for the vendor: a row per finding, worst first, with empty columns for the answer and the decision; then what was corrected since the earlier delivery. UTF-8 text. */
export function renderCsv(findings: Findings): string {
  const rows = forTheVendor(findings.findings).map((finding) => COLUMNS.map(([, value]) => cell(value(finding, findings))));
  const closed = closedRows(
    COLUMNS.map(([head, value]) => ({ head, value })),
    findings,
  ).map((row) => row.map(cell));
  return sheet([COLUMNS.map(([head]) => head), ...rows, ...closed]);
}
