import type { AccountInvoice } from '../model/account.js';
import type { InvoiceLine } from '../model/invoice.js';
import { type ClassDue, classDue, type LineDue } from './billed.js';
import { dueAmount, minorOf, taxOn } from './money.js';
import type { AccountFacts } from './owed.js';

/** One line settled, in minor units. */
export interface SettledLine {
  readonly line: InvoiceLine;
  /** Null for a line that the agreement does not know. */
  readonly of: { readonly class: ClassDue; readonly due: LineDue } | null;
  readonly billed: bigint;
  readonly due: bigint;
  /** A line that the agreement does not know, released by name. */
  readonly named: boolean;
  /** The tax is in the amount. */
  readonly taxed: boolean;
}

/** Tax of one rate, in minor units. */
export interface SettledTax {
  readonly rate: string;
  readonly onBilled: bigint;
  readonly billed: bigint;
  readonly onDue: bigint;
  readonly due: bigint;
}

/** One invoice settled, in minor units, tax included. */
export interface SettledInvoice {
  readonly invoice: AccountInvoice;
  readonly lines: readonly SettledLine[];
  readonly taxes: readonly SettledTax[];
  readonly billed: bigint;
  readonly due: bigint;
  readonly released: bigint;
}

/** An account with every sum made. */
export interface Settled {
  readonly classes: readonly ClassDue[];
  readonly invoices: readonly SettledInvoice[];
  /** Released beyond all that was due, on no invoice. */
  readonly beyond: bigint;
}

/** A line by its invoice and number. */
export interface LineName {
  readonly invoice: string;
  readonly line: string;
}

/** Makes every sum of an account. `named` are lines the agreement does not know that are to be released beside those released before. */
export function settle(facts: AccountFacts, named: readonly LineName[] = []): Settled {
  const classes = facts.prices.map((entry) => classDue(entry, facts));
  const all = [...facts.releases.flatMap((release) => release.named), ...named];
  const parts = facts.releases.flatMap((release) => release.parts);
  const sum = (invoice: string | null): bigint =>
    parts.filter((part) => part.invoice === invoice).reduce((total, part) => total + minorOf(part.amount, facts.minorDigits), 0n);
  return {
    classes,
    invoices: facts.invoices.map((invoice) => settledInvoice(invoice, classes, all, sum(invoice.number), facts.minorDigits)),
    beyond: sum(null),
  };
}

function settledInvoice(
  invoice: AccountInvoice,
  classes: readonly ClassDue[],
  named: readonly LineName[],
  released: bigint,
  digits: number,
): SettledInvoice {
  const lines = invoice.lines.map((line): SettledLine => {
    const billed = minorOf(line.amount, digits);
    const own = classes.find(({ entry }) => entry.class === line.class);
    const due = own?.lines.find((one) => one.invoice === invoice.number && one.line === line);
    if (own !== undefined && due !== undefined)
      return {
        line,
        of: { class: own, due },
        billed,
        due: dueAmount(own.entry, due, digits),
        named: false,
        taxed: own.entry.net === false,
      };
    const released = named.some((name) => name.invoice === invoice.number && name.line === line.line);
    return { line, of: null, billed, due: released ? billed : 0n, named: released, taxed: false };
  });
  const taxes = taxesOf(invoice, lines, digits);
  const sum = (values: readonly bigint[]): bigint => values.reduce((total, value) => total + value, 0n);
  const stated = invoice.gross === null ? null : minorOf(invoice.gross.amount, digits);
  const net = invoice.net === null ? sum(lines.map(({ billed }) => billed)) : minorOf(invoice.net.amount, digits);
  return {
    invoice,
    lines,
    taxes,
    billed: stated ?? net + sum(taxes.map(({ billed }) => billed)),
    due: sum(lines.map(({ due }) => due)) + sum(taxes.map(({ due }) => due)),
    released,
  };
}

/** The tax by rate, on the sum of the lines of each. Where the invoice states no sum of a rate, it is made here. */
function taxesOf(invoice: AccountInvoice, lines: readonly SettledLine[], digits: number): readonly SettledTax[] {
  // where tax is in every price nothing comes on top
  if (lines.length > 0 && lines.every(({ of, taxed }) => of === null || taxed) && lines.some(({ taxed }) => taxed)) return [];
  const rates = [
    ...new Set([
      ...lines.flatMap(({ line, taxed }) => (line.taxRate === null || taxed ? [] : [line.taxRate])),
      ...invoice.taxes.map(({ rate }) => rate),
    ]),
  ];
  return rates.map((rate): SettledTax => {
    const own = lines.filter(({ line, taxed }) => line.taxRate === rate && !taxed);
    const onBilled = own.reduce((total, { billed }) => total + billed, 0n);
    const onDue = own.reduce((total, { due }) => total + due, 0n);
    const stated = invoice.taxes.filter((tax) => tax.rate === rate);
    const billed = stated.length === 0 ? taxOn(onBilled, rate) : stated.reduce((total, tax) => total + minorOf(tax.amount, digits), 0n);
    return { rate, onBilled, billed, onDue, due: taxOn(onDue, rate) };
  });
}

/** Due and not released, over the whole account, in minor units; negative where the vendor owes it. */
export function openAmount({ invoices, beyond }: Settled): bigint {
  return invoices.reduce((total, { due, released }) => total + due - released, 0n) - beyond;
}
