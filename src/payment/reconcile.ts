import type { PriceClass } from '../model/agreement.js';
import type { ClassCount, Findings } from '../model/findings.js';
import type { InvoiceClass, InvoiceDifference, InvoiceFacts, InvoiceLine, InvoiceLineResult, InvoiceResult } from '../model/invoice.js';
import { atPrice, type SettledClass, settleClass } from './class-money.js';
import { units } from './class-quantities.js';
import { minorDigits } from './currency.js';
import { exactMinor, multiply, parseDecimal, roundHalfUp, sameNumber, writeMinor } from './decimal.js';
import { currencyOf, invoiceMistakes, type ReadLine, readLines, wholeNumber } from './invoice-lines.js';

/** What is assumed where the invoice as a whole says nothing. */
const SILENT: InvoiceFacts = { number: '', currency: '', total: null };

/** Holds the lines of an invoice against what was accepted. The differences add up, to the minor unit, to what is billed less what is due. Throws a RangeError where `invoiceMistakes` has something to say. */
export function reconcileInvoice(lines: readonly InvoiceLine[], findings: Findings, facts: InvoiceFacts = SILENT): InvoiceResult {
  const mistakes = invoiceMistakes(lines, findings, facts);
  if (mistakes.length > 0) throw new RangeError(mistakes.join(' '));
  const { classes } = findings.agreement.terms;
  const currency = currencyOf(findings, facts);
  const digits = minorDigits(currency);
  const write = (minor: bigint): string => writeMinor(minor, digits);
  const read = readLines(lines, classes, digits);
  const settled = classes.flatMap((entry) => {
    const count = findings.counts.classes.find((counted) => counted.class === entry.class);
    if (count === undefined) return [];
    const own = read.filter((line) => line.entry === entry);
    return [{ entry, count, own, result: settleClass(entry, count, own, findings, digits) }];
  });
  const dueOf = new Map(settled.flatMap(({ result }) => result.lines.map((line) => [line.read, line] as const)));
  const due = [...dueOf.values()].reduce((sum, line) => sum + line.dueAmount, 0n);
  const lineSum = read.reduce((sum, line) => sum + line.minor, 0n);
  const stated = facts.total === null ? null : parseDecimal(facts.total);
  const billed = (stated === null ? null : exactMinor(stated, digits)) ?? lineSum;
  return {
    format: 'reeltally/invoice/1',
    batch: findings.run.batch,
    delivery: findings.run.delivery,
    verifiedAt: findings.run.at,
    number: facts.number,
    currency,
    minorDigits: digits,
    rounding: 'half-up',
    classes: settled.map(({ entry, count, own, result }) => classResult(entry, count, own, result, write)),
    lines: read.map((line): InvoiceLineResult => {
      const { line: number, row, class: name, quantity, unitPrice, amount } = line.line;
      const computed = write(roundHalfUp(multiply(line.quantity, line.unitPrice), digits));
      const own = dueOf.get(line);
      return {
        line: number,
        row,
        class: name,
        quantity,
        unitPrice,
        amount,
        computed,
        dueQuantity: own?.due ?? 0,
        due: write(own?.dueAmount ?? 0n),
      };
    }),
    differences: [
      ...read.flatMap((line) => lineDifferences(line, digits)),
      ...settled.flatMap(({ entry, result }) => quantityDifferences(entry, result, write)),
      ...(billed === lineSum ? [] : [totalDiffers(billed, lineSum, write)]),
    ],
    billed: write(billed),
    due: write(due),
    difference: write(billed - due),
  };
}

/** What is wrong with a line by itself: its class, its multiplication, its price. */
function lineDifferences(read: ReadLine, digits: number): readonly InvoiceDifference[] {
  const { line, entry, quantity, unitPrice, minor } = read;
  const write = (value: bigint): string => writeMinor(value, digits);
  const where = `Line ${line.line} (row ${String(line.row)})`;
  const base = { lines: [line.line], class: line.class, quantity: null, findings: [] };
  if (entry === null) {
    const says = `${where} bills ${write(minor)} for "${line.class}", which is no price class of the agreement.`;
    return [{ ...base, kind: 'class-not-agreed', quantity: wholeNumber(quantity), effect: write(minor), says }];
  }
  const found: InvoiceDifference[] = [];
  const exact = multiply(quantity, unitPrice);
  const computed = roundHalfUp(exact, digits);
  if (minor !== computed) {
    // Less than one minor unit away from the exact product: only the rounding can be another.
    const apart = minor * 10n ** BigInt(Math.max(0, exact.scale - digits)) - exact.units * 10n ** BigInt(Math.max(0, digits - exact.scale));
    const unit = 10n ** BigInt(Math.max(0, exact.scale - digits));
    const rounding = apart < unit && -apart < unit;
    const says = `${where}: ${line.quantity.trim()} times ${line.unitPrice.trim()} is ${write(computed)}${rounding ? ' when halves are rounded up' : ''}; ${write(minor)} is billed.`;
    found.push({ ...base, kind: rounding ? 'rounding-differs' : 'amount-differs', effect: write(minor - computed), says });
  }
  const agreed = entry.unitPrice === undefined ? null : parseDecimal(entry.unitPrice);
  if (agreed !== null && !sameNumber(agreed, unitPrice)) {
    const count = wholeNumber(quantity) ?? 0;
    const says = `${where} bills "${entry.class}" at ${line.unitPrice.trim()}; ${entry.unitPrice ?? ''} is agreed.`;
    found.push({
      ...base,
      class: entry.class,
      kind: 'price-differs',
      quantity: count,
      effect: write(computed - atPrice(entry, read, count, digits)),
      says,
    });
  }
  return found;
}

function quantityDifferences(entry: PriceClass, result: SettledClass, write: (minor: bigint) => string): readonly InvoiceDifference[] {
  const differences = result.parts.map(
    ({ kind, lines, count, effect, findings, says }): InvoiceDifference => ({
      kind,
      lines,
      class: entry.class,
      quantity: count,
      effect: write(effect),
      findings,
      says,
    }),
  );
  const unbilled = result.payable - result.billed;
  if (unbilled <= 0) return differences;
  const says = `${units(unbilled)} of the class "${entry.class}" ${unbilled === 1 ? 'was' : 'were'} accepted and ${unbilled === 1 ? 'is' : 'are'} not billed; ${unbilled === 1 ? 'it' : 'they'} may come with a later invoice.`;
  return [
    ...differences,
    { kind: 'billed-too-few', lines: [], class: entry.class, quantity: unbilled, effect: write(0n), findings: [], says },
  ];
}

function totalDiffers(billed: bigint, lineSum: bigint, write: (minor: bigint) => string): InvoiceDifference {
  const says = `The lines add up to ${write(lineSum)}; the invoice asks for ${write(billed)}.`;
  return { kind: 'total-differs', lines: [], class: null, quantity: null, effect: write(billed - lineSum), findings: [], says };
}

function classResult(
  entry: PriceClass,
  count: ClassCount,
  own: readonly ReadLine[],
  result: SettledClass,
  write: (minor: bigint) => string,
): InvoiceClass {
  return {
    class: entry.class,
    unitPrice: entry.unitPrice ?? null,
    billed: result.billed,
    record: count.record,
    returned: count.returned,
    accepted: count.accepted,
    disputed: count.disputed,
    rescans: result.rescans,
    due: result.lines.reduce((sum, line) => sum + line.due, 0),
    amountBilled: write(own.reduce((sum, line) => sum + line.minor, 0n)),
    amountDue: write(result.lines.reduce((sum, line) => sum + line.dueAmount, 0n)),
  };
}
