import type { InvoiceResult } from '../../model/invoice.js';
import { cell, sheet } from '../sheet.js';
import { KIND_WORDS } from './kinds.js';

const HEADS = ['invoice number', 'lines', 'class', 'kind', 'why', 'quantity', 'effect', 'currency', 'findings', 'what is so'];

/** The differences of invoices for the vendor's accounts: a row for each, then what is billed, due and too much. UTF-8 text. */
export function invoiceCsv(results: readonly InvoiceResult[]): string {
  return sheet([HEADS, ...results.flatMap(rowsOf).map((row) => row.map(cell))]);
}

function rowsOf({ number, currency, differences, billed, due, difference, asIfAccepted }: InvoiceResult): readonly (readonly string[])[] {
  const rows = differences.map((one) => [
    number,
    one.lines.join('; '),
    one.class ?? '',
    one.kind,
    KIND_WORDS[one.kind],
    one.quantity === null ? '' : String(one.quantity),
    one.effect,
    currency,
    one.findings.join('; '),
    one.says,
  ]);
  const sums = [
    ['billed', billed],
    [asIfAccepted.length === 0 ? 'due' : 'would be due if accepted', due],
    ['billed less due', difference],
  ].map(([what = '', amount = '']) => [number, '', '', '', what, '', amount, currency, '', '']);
  return [...rows, ...sums];
}
