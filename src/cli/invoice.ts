import { invoiceMistakes } from '../payment/invoice-lines.js';
import { reconcileInvoice } from '../payment/reconcile.js';
import { readJsonFile } from '../read/json.js';
import { UserMistake } from '../read/mistake.js';
import { invoiceCsv } from '../report/invoice/csv.js';
import { invoiceText } from '../report/invoice/text.js';
import { jsonText } from '../report/json.js';
import { readInvoice } from './invoice-file.js';
import { refuseExisting, writeResults } from './results-folder.js';
import { print, tell, widthOf } from './streams.js';

/** Options of `invoice` as they come from the command line. */
export interface InvoiceArguments {
  readonly findings: string;
  readonly columns?: string;
  readonly out?: string;
  readonly format?: string;
  readonly replace?: true;
  readonly quiet?: true;
}

const FORMATS = ['text', 'csv', 'json'] as const;
const INVOICE_FILES: ReadonlySet<string> = new Set(['invoice.json', 'invoice.csv', 'invoice.txt']);
const TOLD = 20;

/** Holds an invoice against what was accepted: 0 where they agree, 1 where they differ. Throws UserMistake. */
export async function invoiceCommand(path: string, options: InvoiceArguments): Promise<number> {
  const { out, replace = false } = options;
  const format = FORMATS.find((one) => one === (options.format ?? 'text'));
  if (format === undefined)
    throw new UserMistake(`--format: there is no format ${String(options.format)}. There are ${FORMATS.join(', ')}.`);
  if (out !== undefined) await refuseExisting(out, replace, INVOICE_FILES);
  const { value: findings } = await readJsonFile(options.findings, 'findings');
  const columns =
    options.columns === undefined ? { format: 'reeltally/columns/1' as const } : (await readJsonFile(options.columns, 'columns')).value;
  const { lines, facts, remarks } = await readInvoice(path, columns);
  if (options.quiet !== true) for (const remark of remarks) tell(`reeltally: ${remark}\n`);
  const mistakes = invoiceMistakes(lines, findings, facts);
  if (mistakes.length > 0) throw new UserMistake(refusal(path, mistakes));
  const result = reconcileInvoice(lines, findings, facts);
  if (out === undefined)
    await print(
      format === 'json' ? jsonText(result) : format === 'csv' ? invoiceCsv(result) : invoiceText(result, widthOf(process.stdout)),
    );
  else {
    const files = [
      { name: 'invoice.json', content: jsonText(result) },
      { name: 'invoice.csv', content: invoiceCsv(result) },
      { name: 'invoice.txt', content: invoiceText(result, 80) },
    ];
    await writeResults(out, files, replace, INVOICE_FILES);
    if (options.quiet !== true) tell(`Written to ${out}: ${files.map(({ name }) => name).join(', ')}.\n`);
  }
  return result.differences.length === 0 ? 0 : 1;
}

function refusal(path: string, mistakes: readonly string[]): string {
  const rest = mistakes.length - TOLD;
  return [
    `${path}: the invoice cannot be held against the result as it is:`,
    ...mistakes.slice(0, TOLD).map((says) => `  ${says}`),
    ...(rest > 0 ? [`  and ${String(rest)} more.`] : []),
  ].join('\n');
}
