import { createHash } from 'node:crypto';
import { access } from 'node:fs/promises';
import { basename } from 'node:path';
import type { AccountInvoice } from '../../model/account.js';
import type { InvoiceReading, ReadingFile } from '../../model/reading.js';
import type { BookSheet, Workbook } from '../../model/written-grid.js';
import { readJsonFile } from '../../read/json.js';
import { UserMistake } from '../../read/mistake.js';
import { readRegularFile } from '../../read/regular-file.js';
import { readBook } from '../../read/sheets.js';
import { type InvoiceContext, readInvoiceSheet } from '../../reading/invoice/index.js';
import { refusal } from './refusal.js';

/** An invoice that was read, and the reading file to be kept beside it; null where nothing had to be matched. */
export interface InvoiceFile {
  readonly invoice: AccountInvoice;
  readonly remarks: readonly string[];
  readonly reading: { readonly path: string; readonly content: string } | null;
}

const LARGEST = 16 * 1024 * 1024;

/** Where the reading file of an invoice lies: `NAME.reading.json` beside it. */
export function invoiceReadingPath(path: string): string {
  return `${path.replace(/\.[^./\\]*$/, '')}.reading.json`;
}

/** What could not be read of an invoice, with the reading file in which the answer belongs. */
export interface Unread {
  readonly mistake: UserMistake;
  readonly reading: InvoiceFile['reading'];
}

/** Reads an invoice from CSV, XLSX or ODS by its heads and by the reading file beside it. Throws UserMistake where the file itself cannot be read. */
export async function readInvoice(path: string, context: Omit<InvoiceContext, 'file'>): Promise<InvoiceFile | Unread> {
  if (!/\.(csv|tsv|txt|xlsx|xlsm|ods)$/i.test(path))
    throw new UserMistake(`${path}: an invoice is read from CSV, XLSX or ODS; save its lines as one of them and give that file.`);
  const file = basename(path);
  const bytes = await readRegularFile(path, LARGEST);
  const before = await readingBeside(path);
  const book = await readBook(bytes, file);
  const sheet = sheetOf(book, file);
  const read = readInvoiceSheet(sheet, before?.invoice ?? {}, { ...context, file });
  const reading = readingToKeep(path, before, read.matched);
  if (read.invoice === null)
    return { mistake: new UserMistake(refusal(`${path}: the invoice cannot be read as it is`, read.mistakes)), reading };
  const formulas = sheet.rows.flatMap(({ cells }) => cells.filter(({ formula }) => formula !== null));
  return {
    invoice: { ...read.invoice, file: { name: file, sha256: createHash('sha256').update(bytes).digest('hex') } },
    remarks: [
      ...book.remarks.map((says) => `${file}: ${says}`),
      ...(formulas.length === 0
        ? []
        : [
            `${file}: ${String(formulas.length)} cells hold formulas, such as ${formulas[0]?.address ?? ''}; the results stored with them were read.`,
          ]),
      ...read.remarks,
    ],
    reading,
  };
}

async function readingBeside(path: string): Promise<ReadingFile | null> {
  const beside = invoiceReadingPath(path);
  try {
    await access(beside);
  } catch {
    return null;
  }
  return (await readJsonFile(beside, 'reading')).value;
}

/** Of several sheets the only one that is not empty, else the first that is not hidden. */
function sheetOf({ sheets }: Workbook, file: string): BookSheet {
  const filled = sheets.filter(({ rows }) => rows.length > 0);
  const sheet = filled.find(({ hidden }) => !hidden) ?? filled[0];
  if (sheet === undefined) throw new UserMistake(`${file}: the file is empty.`);
  return sheet;
}

/** Nothing is kept where our own heads and the agreement's own words stand in the file. */
function readingToKeep(path: string, before: ReadingFile | null, matched: InvoiceReading): InvoiceFile['reading'] {
  const own = Object.entries(matched.columns ?? {}).every(([head, is]) => head.toLowerCase() === is);
  const { decimal, classes, columns, ...rest } = matched;
  const invoice: InvoiceReading = {
    ...(own ? {} : { columns: columns ?? {} }),
    ...(classes === undefined ? {} : { classes }),
    ...(decimal === undefined || (own && decimal === 'point') ? {} : { decimal }),
    ...rest,
  };
  if (Object.keys(invoice).length === 0) return null;
  const next: ReadingFile = { ...(before ?? { format: 'reeltally/reading/1' }), invoice };
  return JSON.stringify(next) === JSON.stringify(before)
    ? null
    : { path: invoiceReadingPath(path), content: `${JSON.stringify(next, null, 2)}\n` };
}
