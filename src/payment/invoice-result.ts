import type { Account } from '../model/account.js';
import type { InvoiceLineResult, InvoiceResult } from '../model/invoice.js';
import { asIfAccepted } from './account.js';
import { multiply, parseDecimal, roundHalfUp, writeMinor } from './decimal.js';
import { differencesOf } from './differences.js';
import { type SettledLine, settle } from './settle.js';

/** One invoice of an account held against what is due; deliveries that nobody has decided about are taken as if they were accepted, and named. */
export function invoiceResult(account: Account, number: string): InvoiceResult {
  const digits = account.minorDigits;
  const write = (minor: bigint): string => writeMinor(minor, digits);
  const settled = settle(asIfAccepted(account));
  const own = settled.invoices.find(({ invoice }) => invoice.number === number);
  const now = settle(account).invoices.find(({ invoice }) => invoice.number === number);
  if (own === undefined || now === undefined) throw new RangeError(`the account has no invoice ${number}`);
  return {
    format: 'reeltally/invoice/1',
    number,
    currency: account.currency,
    minorDigits: digits,
    rounding: 'half-up',
    asIfAccepted: account.deliveries.filter(({ decision }) => decision === null).map(({ batch, delivery }) => ({ batch, delivery })),
    lines: own.lines.map((line) => lineResult(line, digits)),
    taxes: own.taxes.map(({ rate, onBilled, billed, onDue, due }) => ({
      rate,
      onBilled: write(onBilled),
      billed: write(billed),
      onDue: write(onDue),
      due: write(due),
    })),
    differences: differencesOf(settled, own, digits),
    billed: write(own.billed),
    due: write(own.due),
    difference: write(own.billed - own.due),
    dueNow: write(now.due),
    released: write(now.released),
  };
}

function lineResult({ line, of, due }: SettledLine, digits: number): InvoiceLineResult {
  const [quantity, price] = [parseDecimal(line.quantity ?? ''), parseDecimal(line.unitPrice ?? '')];
  const computed = quantity === null || price === null ? null : writeMinor(roundHalfUp(multiply(quantity, price), digits), digits);
  return { ...line, computed, dueQuantity: of?.due.due ?? 0, due: writeMinor(due, digits) };
}
