import { stringify } from 'csv-stringify/sync';
import type { Finding, Findings } from '../model/findings.js';
import { short } from './visible.js';
import { CAUSE_WORDS, forTheVendor, framesInWords, placeInWords, whoActs } from './words.js';

/** A spreadsheet cell holds 32,767 characters (Excel specifications and limits); a person reads far fewer. */
const CELL_LIMIT = 2000;

/** What a spreadsheet would run: OWASP, CSV Injection, with the full-width forms beside. The mark itself is guarded too, so that it can be taken off again. */
const FORMULA = /^[\s\u00a0]*['=+\-@\t\r＝＋－＠]/u;
/** What a spreadsheet would turn into another number, a date, a time or a truth value: `0012`, `1899-01-04`, `1-2`, `3E1`, `1:2`, `50%`. */
const NUMBERLIKE = /^[\d.,:/\-+e%() ]+$/i;
const PLAIN_NUMBER = /^(0|[1-9]\d{0,14})$/;
/** `MAR1`, `Dec 1`, `4-Jul`. */
const MONTHLIKE = /^(\d{1,4}[ -]?)?(jan|feb|mar|apr|may|jun|jul|aug|sep|sept|oct|nov|dec)[a-z]{0,6}\.?([ -]?\d{1,4})?$/i;
const TRUTH = /^(true|false)$/i;

/** A text as one cell: on one line, cut where nobody reads on, and with `'` in front where a spreadsheet would make something else of it. */
export function cell(text: string): string {
  const safe = short(text, CELL_LIMIT);
  const number = NUMBERLIKE.test(safe) && /\d/.test(safe) && !PLAIN_NUMBER.test(safe);
  return number || FORMULA.test(safe) || MONTHLIKE.test(safe) || TRUTH.test(safe) ? `'${safe}` : safe;
}

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

/** RFC 4180 with every cell quoted; the byte order mark makes spreadsheet programs read UTF-8. */
function sheet(rows: readonly (readonly string[])[]): string {
  return stringify(
    rows.map((row) => [...row]),
    { bom: true, quoted: true, quoted_empty: true, record_delimiter: '\r\n' },
  );
}

/** The list for the vendor: a row per finding, worst first, with empty columns for the answer and the decision. UTF-8 text. */
export function renderCsv(findings: Findings): string {
  const rows = forTheVendor(findings.findings).map((finding) => COLUMNS.map(([, value]) => cell(value(finding, findings))));
  return sheet([COLUMNS.map(([head]) => head), ...rows]);
}

/** The corrections that the library's rulings ask of the record, for the collator; null where there are none. The record itself is never changed. */
export function renderCorrections(findings: Findings): string | null {
  const rows = findings.findings
    .filter((finding) => finding.ruling?.decision === 'collation-wrong')
    .flatMap((finding) =>
      finding.corrections.map((change) =>
        [
          change.reel,
          change.frame,
          change.action,
          change.field,
          change.from,
          change.to,
          finding.id,
          finding.ruling?.by ?? '',
          finding.ruling?.on ?? '',
        ].map(cell),
      ),
    );
  return rows.length === 0 ? null : sheet([['reel', 'frame', 'action', 'field', 'from', 'to', 'finding', 'by', 'on'], ...rows]);
}
