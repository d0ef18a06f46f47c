import type { PriceClass } from '../model/agreement.js';
import type { Findings } from '../model/findings.js';
import type { InvoiceFacts, InvoiceLine } from '../model/invoice.js';
import { disputedBy } from './class-frames.js';
import { minorDigits } from './currency.js';
import { type Decimal, exactMinor, parseDecimal } from './decimal.js';

/** A line whose figures have been read; `minor` is the billed amount in minor units, `entry` the agreed class or null. */
export interface ReadLine {
  readonly line: InvoiceLine;
  readonly entry: PriceClass | null;
  readonly quantity: Decimal;
  readonly unitPrice: Decimal;
  readonly minor: bigint;
}

/** The class of the agreement that a line names: the same text, else the only one that differs from it in case and spaces alone. */
export function classOf(name: string, classes: readonly PriceClass[]): PriceClass | null {
  const exact = classes.find((entry) => entry.class === name);
  if (exact !== undefined) return exact;
  const alike = classes.filter((entry) => folded(entry.class) === folded(name));
  return alike.length === 1 ? (alike[0] ?? null) : null;
}

function folded(name: string): string {
  return name.trim().replace(/\s+/g, ' ').toLowerCase();
}

/** The currency that holds: the agreement's, else the invoice's. */
export function currencyOf(findings: Findings, facts: InvoiceFacts): string {
  return findings.agreement.terms.currency === '' ? facts.currency : findings.agreement.terms.currency;
}

/** What keeps an invoice from being held against a result at all, in sentences without the file's name: figures that cannot be read, another currency, no agreed classes. */
export function invoiceMistakes(lines: readonly InvoiceLine[], findings: Findings, facts: InvoiceFacts): readonly string[] {
  const { classes, currency } = findings.agreement.terms;
  const digits = minorDigits(currencyOf(findings, facts));
  const mistakes: string[] = [];
  if (classes.length === 0)
    mistakes.push('The agreement behind this result has no price classes; put them into terms, classes, and verify again.');
  if (lines.length === 0) mistakes.push('The invoice has no lines.');
  if (currency !== '' && facts.currency !== '' && currency !== facts.currency)
    mistakes.push(`The invoice is in ${shown(facts.currency)} and the agreement in ${currency}; ask for an invoice in ${currency}.`);
  for (const entry of classes) {
    const counted = findings.counts.classes.find((count) => count.class === entry.class);
    const traced = disputedBy(entry, findings).reduce((sum, share) => sum + share.count, 0);
    if (counted === undefined) mistakes.push(`The result has no counts for the class "${entry.class}"; verify again.`);
    else if (counted.disputed !== traced)
      mistakes.push(
        `The result counts ${String(counted.disputed)} disputed in the class "${entry.class}", but its frames show ${String(traced)}; it was changed by hand or by another version. Verify again.`,
      );
  }
  for (const line of lines) mistakes.push(...lineMistakes(line, classes, digits));
  if (facts.total !== null) {
    const total = parseDecimal(facts.total);
    if (total === null) mistakes.push(`The total ${shown(facts.total)} is not a number ${WRITTEN}.`);
    else if (exactMinor(total, digits) === null)
      mistakes.push(`The total ${shown(facts.total)} is not a whole number of the currency's smallest unit (${decimals(digits)}).`);
  }
  return mistakes;
}

const WRITTEN = 'written like 1234.50, with a point and without grouping';

function lineMistakes(line: InvoiceLine, classes: readonly PriceClass[], digits: number): string[] {
  const at = `Row ${String(line.row)}`;
  const figures = [
    ['quantity', line.quantity],
    ['unit price', line.unitPrice],
    ['amount', line.amount],
  ] as const;
  const mistakes = figures
    .filter(([, text]) => parseDecimal(text) === null)
    .map(([name, text]) => `${at}, ${name}: ${text.trim() === '' ? 'the cell is empty' : shown(text)}; a number is needed, ${WRITTEN}.`);
  if (line.class.trim() === '') mistakes.push(`${at}, class: the cell is empty; write the price class as the agreement names it.`);
  const amount = parseDecimal(line.amount);
  if (amount !== null && exactMinor(amount, digits) === null)
    mistakes.push(
      `${at}, amount: ${shown(line.amount)} is not a whole number of the currency's smallest unit (${decimals(digits)}); write it as it is to be paid.`,
    );
  const quantity = parseDecimal(line.quantity);
  if (quantity !== null && classOf(line.class, classes) !== null && wholeNumber(quantity) === null)
    mistakes.push(`${at}, quantity: ${shown(line.quantity)}; frames and reels are counted in whole numbers.`);
  return mistakes;
}

function decimals(digits: number): string {
  return digits === 0 ? 'no decimals' : digits === 1 ? '1 decimal' : `${String(digits)} decimals`;
}

/** As it stands there, shortened, with nothing in it that a terminal would act on. */
function shown(text: string): string {
  const plain = text.replace(/[^\p{L}\p{M}\p{N}\p{P}\p{S} ]/gu, '?');
  return `"${plain.length > 40 ? `${plain.slice(0, 40)}…` : plain}"`;
}

/** A decimal as a whole number, or null where it is none or too large to count. */
export function wholeNumber(value: Decimal): number | null {
  const units = exactMinor(value, 0);
  return units === null || units > BigInt(Number.MAX_SAFE_INTEGER) || -units > BigInt(Number.MAX_SAFE_INTEGER) ? null : Number(units);
}

/** Lines with their figures read. Throws a RangeError where `invoiceMistakes` would have had something to say. */
export function readLines(lines: readonly InvoiceLine[], classes: readonly PriceClass[], digits: number): readonly ReadLine[] {
  return lines.map((line) => {
    const quantity = parseDecimal(line.quantity);
    const unitPrice = parseDecimal(line.unitPrice);
    const amount = parseDecimal(line.amount);
    const minor = amount === null ? null : exactMinor(amount, digits);
    if (quantity === null || unitPrice === null || minor === null) throw new RangeError(`row ${String(line.row)} cannot be read`);
    return { line, entry: classOf(line.class, classes), quantity, unitPrice, minor };
  });
}
