import type { Finding, Findings } from '../model/findings.js';
import { repairInWords } from './repair.js';
import { CAUSE_WORDS, forTheVendor, framesInWords, placeInWords, whoActs } from './words.js';

/** A column of the list for the vendor. */
export interface ListColumn {
  readonly head: string;
  readonly value: (finding: Finding, result: Findings) => string;
}

const COLUMNS: readonly (readonly [head: string, value: ListColumn['value']])[] = [
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
  ['in your files', (finding) => repairInWords(finding.repair, 5)],
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
  ['fixed in delivery', (finding) => finding.answer?.fixedIn ?? ''],
];

/** The columns of the list for the vendor, in their order; those that give nothing are for the answer. */
export const LIST_COLUMNS: readonly ListColumn[] = COLUMNS.map(([head, value]) => ({ head, value }));

/** The list for the vendor: the texts of a row for each finding, worst first, without what was ruled to be a slip of the record. */
export function listRows(result: Findings): readonly (readonly string[])[] {
  return forTheVendor(result.findings).map((finding) => LIST_COLUMNS.map(({ value }) => value(finding, result)));
}
