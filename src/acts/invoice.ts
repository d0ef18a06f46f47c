import type { InvoiceResult } from '../model/invoice.js';
import { invoiceMistakes } from '../payment/invoice-lines.js';
import { reconcileInvoice } from '../payment/reconcile.js';
import { readJsonFile } from '../read/json.js';
import { UserMistake } from '../read/mistake.js';
import { invoiceCsv } from '../report/invoice/csv.js';
import { invoiceText } from '../report/invoice/text.js';
import { jsonText } from '../report/json.js';
import { readInvoice } from './inputs/invoice-file.js';
import type { ResultFile } from './outputs/results-folder.js';
import type { Surroundings } from './surroundings.js';

/** What is held against what: paths. */
export interface InvoiceFiles {
  readonly invoice: string;
  readonly findings: string;
  readonly columns?: string;
}

/** Every file that an invoice held against a result puts into its folder. */
export const INVOICE_FILES: ReadonlySet<string> = new Set(['invoice.json', 'invoice.csv', 'invoice.txt']);
const TOLD = 20;

/** Holds an invoice against what was accepted. Throws UserMistake. */
export async function heldInvoice(files: InvoiceFiles, { say }: Surroundings): Promise<InvoiceResult> {
  const { value: findings } = await readJsonFile(files.findings, 'findings');
  const columns =
    files.columns === undefined ? { format: 'reeltally/columns/1' as const } : (await readJsonFile(files.columns, 'columns')).value;
  const { lines, facts, remarks } = await readInvoice(files.invoice, columns);
  for (const remark of remarks) say(remark, 'remark');
  const mistakes = invoiceMistakes(lines, findings, facts);
  if (mistakes.length > 0) throw new UserMistake(refusal(files.invoice, mistakes));
  return reconcileInvoice(lines, findings, facts);
}

/** The files of an invoice that was held against a result. */
export function invoiceFiles(result: InvoiceResult): readonly ResultFile[] {
  return [
    { name: 'invoice.json', content: jsonText(result) },
    { name: 'invoice.csv', content: invoiceCsv(result) },
    { name: 'invoice.txt', content: invoiceText(result, 80) },
  ];
}

function refusal(path: string, mistakes: readonly string[]): string {
  const rest = mistakes.length - TOLD;
  return [
    `${path}: the invoice cannot be held against the result as it is:`,
    ...mistakes.slice(0, TOLD).map((says) => `  ${says}`),
    ...(rest > 0 ? [`  and ${String(rest)} more.`] : []),
  ].join('\n');
}
