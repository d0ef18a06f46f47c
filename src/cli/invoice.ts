import { invoiceInDossier } from '../acts/dossier/invoice.js';
import { differs, heldInvoices, INVOICE_FILES, invoiceFiles, invoicesText } from '../acts/invoice.js';
import { refuseExisting } from '../acts/outputs/results-folder.js';
import { UserMistake } from '../read/mistake.js';
import { invoiceCsv } from '../report/invoice/csv.js';
import { jsonText } from '../report/json.js';
import { writeAndSay } from './folder.js';
import { sayWritten, typedInDossier } from './in-dossier.js';
import { print, widthOf } from './streams.js';
import { surroundings } from './surroundings.js';

/** Options of `invoice` as they come from the command line. */
export interface InvoiceArguments {
  readonly findings?: readonly string[];
  readonly account?: string;
  readonly out?: string;
  readonly format?: string;
  readonly replace?: true;
  readonly quiet?: true;
}

const FORMATS = ['text', 'csv', 'json'] as const;

/** Holds invoices against what is due: 0 where nothing differs, 1 where something does. Throws UserMistake. */
export async function invoiceCommand(paths: readonly string[], options: InvoiceArguments): Promise<number> {
  const { out, replace = false, quiet = false, findings = [], account = null } = options;
  const format = FORMATS.find((one) => one === (options.format ?? 'text'));
  if (format === undefined)
    throw new UserMistake(`--format: there is no format ${String(options.format)}. There are ${FORMATS.join(', ')}.`);
  if (findings.length === 0 && account === null) return invoiceHere(paths, options);
  // an account that is kept elsewhere is not written a second time
  const ours = account === null ? INVOICE_FILES : new Set([...INVOICE_FILES].filter((name) => name !== 'account.json'));
  if (out !== undefined) await refuseExisting(out, replace, ours);
  const held = await heldInvoices({ invoices: paths, findings, account }, surroundings({ quiet }));
  const { results } = held;
  if (out === undefined)
    await print(
      format === 'json'
        ? jsonText(results.length === 1 ? results[0] : results)
        : format === 'csv'
          ? invoiceCsv(results)
          : invoicesText(results, held.account, widthOf(process.stdout)),
    );
  else
    await writeAndSay(
      invoiceFiles(held).filter(({ name }) => ours.has(name)),
      { out, replace, quiet, ours },
    );
  return differs(held) ? 1 : 0;
}

/** The same in a dossier, which takes the invoice in and knows what it is held against. */
async function invoiceHere(paths: readonly string[], { out, format, replace, quiet }: InvoiceArguments): Promise<number> {
  const root = await typedInDossier(
    'Say what the invoice is held against: --findings with saved results, or --account with the account of the order.',
    { out, format, replace },
  );
  const [path, another] = paths;
  if (path === undefined || another !== undefined)
    throw new UserMistake('In a dossier invoices are taken in one by one: name the file of one.');
  const { held, folder, written } = await invoiceInDossier(root, path, surroundings({ quiet: quiet === true }));
  await print(invoicesText(held.results, held.account, widthOf(process.stdout)));
  if (quiet !== true) sayWritten(root, folder, written);
  return differs(held) ? 1 : 0;
}
