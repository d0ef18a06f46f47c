import { access } from 'node:fs/promises';
import { basename, dirname } from 'node:path';
import type { Account } from '../model/account.js';
import type { InvoiceResult } from '../model/invoice.js';
import { takenIn } from '../payment/account.js';
import { accountDelivery, resultMistake } from '../payment/delivery.js';
import { invoiceResult } from '../payment/invoice-result.js';
import { readJsonFile } from '../read/json.js';
import { UserMistake } from '../read/mistake.js';
import { accountText } from '../report/account/text.js';
import { invoiceCsv } from '../report/invoice/csv.js';
import { invoiceText } from '../report/invoice/text.js';
import { jsonText } from '../report/json.js';
import { type InvoiceFile, readInvoice } from './inputs/invoice-file.js';
import { type ResultFile, writeResults } from './outputs/results-folder.js';
import type { Surroundings } from './surroundings.js';

/** What is held against what: paths. */
export interface InvoiceFiles {
  readonly invoices: readonly string[];
  readonly findings: readonly string[];
  /** The account of the order; null where none is kept. */
  readonly account: string | null;
  /** Whether the account and what was matched in the invoice are written where they lie. */
  readonly keep?: { readonly account: boolean; readonly reading: boolean };
}

/** Invoices held against what is due, and the account with them in. */
export interface HeldInvoices {
  readonly account: Account;
  readonly results: readonly InvoiceResult[];
}

/** Every file that invoices held against an account put into a folder. */
export const INVOICE_FILES: ReadonlySet<string> = new Set(['invoice.json', 'invoice.csv', 'invoice.txt', 'account.json', 'account.txt']);

/** Takes results and invoices into an account and holds the invoices against what is due. Reading files are written beside the invoices, the account where it is kept. Throws UserMistake. */
export async function heldInvoices(files: InvoiceFiles, { say }: Surroundings): Promise<HeldInvoices> {
  const keep = files.keep ?? { account: true, reading: true };
  const before = files.account === null ? null : await keptAccount(files.account);
  const arrivals = [];
  for (const path of files.findings) {
    const { value, sha256 } = await readJsonFile(path, 'findings');
    const mistake = resultMistake(value, path);
    if (mistake !== null) throw new UserMistake(mistake);
    arrivals.push({ delivery: accountDelivery(value, { name: basename(path), sha256 }), agreement: value.agreement });
  }
  const prices = before?.prices ?? arrivals[0]?.agreement.terms.classes ?? [];
  const currency = before?.currency ?? arrivals[0]?.agreement.terms.currency ?? '';
  const batches = [...(before?.deliveries ?? []), ...arrivals.map(({ delivery }) => delivery)].map(({ batch }) => batch);
  const read: InvoiceFile[] = [];
  for (const path of files.invoices) {
    const one = await readInvoice(path, { classes: prices.map((entry) => entry.class), batches: [...new Set(batches)], currency });
    if (keep.reading) await keepReading(one.reading, say);
    if ('mistake' in one) throw one.mistake;
    for (const remark of one.remarks) say(remark, 'remark');
    read.push(one);
  }
  const { account, mistakes, remarks } = takenIn(
    before,
    arrivals,
    read.map(({ invoice }) => invoice),
  );
  for (const remark of remarks) say(remark, 'remark');
  if (account === null) throw new UserMistake(mistakes.join('\n'));
  if (files.account !== null && keep.account) await writeAccount(files.account, account);
  const numbers = read.map(({ invoice }) => invoice.number);
  return {
    account,
    results: (numbers.length > 0 ? numbers : account.invoices.map(({ number }) => number)).map((number) => invoiceResult(account, number)),
  };
}

/** The account in a file; null where there is none yet. Throws UserMistake. */
export async function keptAccount(path: string): Promise<Account | null> {
  try {
    await access(path);
  } catch {
    return null;
  }
  return (await readJsonFile(path, 'account')).value;
}

/** Writes the account in place of what was there, whole or not at all. */
export async function writeAccount(path: string, account: Account): Promise<void> {
  const name = basename(path);
  await writeResults(dirname(path), [{ name, content: jsonText(account) }], true, new Set([name]));
}

async function keepReading(reading: InvoiceFile['reading'], say: Surroundings['say']): Promise<void> {
  if (reading === null) return;
  const name = basename(reading.path);
  await writeResults(dirname(reading.path), [{ name, content: reading.content }], true, new Set([name]));
  say(`How the invoice was read is kept in ${reading.path}.`, 'remark');
}

/** The files of invoices that were held against an account. */
export function invoiceFiles({ account, results }: HeldInvoices): readonly ResultFile[] {
  return [
    { name: 'invoice.json', content: jsonText(results.length === 1 ? results[0] : results) },
    { name: 'invoice.csv', content: invoiceCsv(results) },
    { name: 'invoice.txt', content: invoicesText(results, account, 80) },
    { name: 'account.json', content: jsonText(account) },
    { name: 'account.txt', content: accountText(account, 80) },
  ];
}

/** Invoices for reading, and the account that they stand in. */
export function invoicesText(results: readonly InvoiceResult[], account: Account, width: number): string {
  return [...results.map((result) => invoiceText(result, width)), accountText(account, width)].join('\n');
}

/** True where an invoice asks for another amount than is due, or states something that is not so. */
export function differs({ results }: HeldInvoices): boolean {
  return results.some(({ differences }) => differences.length > 0);
}
