import { invoiceInDossier } from '../acts/dossier/invoice.js';
import { heldInvoice, INVOICE_FILES, invoiceFiles } from '../acts/invoice.js';
import { refuseExisting } from '../acts/outputs/results-folder.js';
import { UserMistake } from '../read/mistake.js';
import { invoiceCsv } from '../report/invoice/csv.js';
import { invoiceText } from '../report/invoice/text.js';
import { jsonText } from '../report/json.js';
import { writeAndSay } from './folder.js';
import { sayWritten, typedInDossier } from './in-dossier.js';
import { print, widthOf } from './streams.js';
import { surroundings } from './surroundings.js';

/** Options of `invoice` as they come from the command line. */
export interface InvoiceArguments {
  readonly findings?: string;
  readonly columns?: string;
  readonly out?: string;
  readonly format?: string;
  readonly replace?: true;
  readonly quiet?: true;
}

const FORMATS = ['text', 'csv', 'json'] as const;

/** Holds an invoice against what was accepted: 0 where they agree, 1 where they differ. Throws UserMistake. */
export async function invoiceCommand(path: string, options: InvoiceArguments): Promise<number> {
  const { out, replace = false, quiet = false, findings, columns } = options;
  const format = FORMATS.find((one) => one === (options.format ?? 'text'));
  if (format === undefined)
    throw new UserMistake(`--format: there is no format ${String(options.format)}. There are ${FORMATS.join(', ')}.`);
  if (findings === undefined) return invoiceHere(path, options);
  if (out !== undefined) await refuseExisting(out, replace, INVOICE_FILES);
  const result = await heldInvoice({ invoice: path, findings, ...(columns === undefined ? {} : { columns }) }, surroundings({ quiet }));
  if (out === undefined)
    await print(
      format === 'json' ? jsonText(result) : format === 'csv' ? invoiceCsv(result) : invoiceText(result, widthOf(process.stdout)),
    );
  else await writeAndSay(invoiceFiles(result), { out, replace, quiet, ours: INVOICE_FILES });
  return result.differences.length === 0 ? 0 : 1;
}

/** The same in a dossier, which takes the invoice in and knows what it is held against. */
async function invoiceHere(path: string, { columns, out, format, replace, quiet }: InvoiceArguments): Promise<number> {
  const root = await typedInDossier('Say against which saved result the invoice is held: --findings findings.json.', {
    out,
    format,
    replace,
  });
  const { result, folder, written } = await invoiceInDossier(root, path, columns, surroundings({ quiet: quiet === true }));
  await print(invoiceText(result, widthOf(process.stdout)));
  if (quiet !== true) sayWritten(root, folder, written);
  return result.differences.length === 0 ? 0 : 1;
}
