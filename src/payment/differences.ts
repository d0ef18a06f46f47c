import type { InvoiceDifference, InvoiceDifferenceKind } from '../model/invoice.js';
import type { LineDue } from './billed.js';
import { multiply, parseDecimal, roundHalfUp, sameNumber, whole, writeMinor } from './decimal.js';
import { atAgreedPrice, minorOf, taxOn } from './money.js';
import { type Reason, reasonsOf } from './reasons.js';
import type { Settled, SettledInvoice, SettledLine } from './settle.js';

/** Writes minor units as decimal text. */
type Write = (minor: bigint) => string;

/** Every reason why an invoice asks for another amount than is due. Their effects add up, to the minor unit, to what is billed less what is due. */
export function differencesOf(settled: Settled, own: SettledInvoice, digits: number): readonly InvoiceDifference[] {
  const write: Write = (minor) => writeMinor(minor, digits);
  const reasons = new Map(settled.classes.flatMap((dues) => [...reasonsOf(dues)]));
  return [
    ...own.lines.flatMap((line) => lineDifferences(line, reasons, digits, write)),
    ...sumDifferences(own, digits, write),
    ...own.taxes.flatMap((tax): readonly InvoiceDifference[] => {
      const made = taxOn(tax.onBilled, tax.rate);
      const wrong =
        tax.billed === made
          ? []
          : [
              money(
                'tax-differs',
                tax.billed - made,
                `${tax.rate} % tax on ${write(tax.onBilled)} is ${write(made)}; ${write(tax.billed)} is billed.`,
                write,
              ),
            ];
      const notDue =
        made === tax.due
          ? []
          : [
              money(
                'tax-not-due',
                made - tax.due,
                `${tax.rate} % tax is due on ${write(tax.onDue)} and not on ${write(tax.onBilled)}.`,
                write,
              ),
            ];
      return [...wrong, ...notDue];
    }),
    ...totalDiffers(own, digits, write),
  ];
}

function money(kind: InvoiceDifferenceKind, effect: bigint, says: string, write: Write, lines: readonly string[] = []): InvoiceDifference {
  return { kind, lines, class: null, quantity: null, effect: write(effect), findings: [], says };
}

function lineDifferences(
  settled: SettledLine,
  reasons: ReadonlyMap<LineDue, readonly Reason[]>,
  digits: number,
  write: Write,
): readonly InvoiceDifference[] {
  const { line, of, billed, named } = settled;
  const where = `Line ${line.line} (row ${String(line.row)})`;
  if (of === null) {
    if (named || billed === 0n) return [];
    const says = `${where} ${billed < 0n ? 'takes off' : 'bills'} ${write(billed < 0n ? -billed : billed)} for "${line.text}", which the agreement does not know; it is ${billed < 0n ? 'taken off' : 'released'} only where the decision names it.`;
    return [{ ...money('not-agreed', billed, says, write, [line.line]) }];
  }
  const { entry } = of.class;
  const { quantity } = of.due;
  const base = { lines: [line.line], class: entry.class, findings: [] };
  if (line.quantity === null) {
    const says = `${where} bills ${write(billed)} in the class "${entry.class}" and gives no quantity; ask how many are meant.`;
    return billed === 0n ? [] : [{ ...base, kind: 'quantity-not-given', quantity: null, effect: write(billed), says }];
  }
  const agreed = atAgreedPrice(entry, line, quantity, quantity, digits);
  const price = parseDecimal(line.unitPrice ?? '');
  const exact = price === null ? null : multiply(whole(quantity), price);
  const computed = exact === null ? agreed : roundHalfUp(exact, digits);
  const found: InvoiceDifference[] = [];
  if (billed !== computed) {
    // less than one minor unit away from the exact product: only the rounding can be another
    const rounding = exact !== null && isRounding(billed, exact, digits);
    const says = `${where}: ${line.quantity} times ${line.unitPrice ?? entry.unitPrice ?? ''} is ${write(computed)}${rounding ? ' when halves are rounded up' : ''}; ${write(billed)} is billed.`;
    found.push({ ...base, kind: rounding ? 'rounding-differs' : 'amount-differs', quantity: null, effect: write(billed - computed), says });
  }
  const wanted = parseDecimal(entry.unitPrice ?? '');
  if (wanted !== null && price !== null && !sameNumber(wanted, price)) {
    const says = `${where} bills "${entry.class}" at ${line.unitPrice ?? ''}; ${entry.unitPrice ?? ''} is agreed.`;
    found.push({ ...base, kind: 'price-differs', quantity, effect: write(computed - agreed), says });
  }
  // each reason takes its units off the full quantity, so that roundings cancel out between the steps
  let level = quantity;
  for (const { kind, count, findings, says } of reasons.get(of.due) ?? []) {
    const effect = atAgreedPrice(entry, line, quantity, level, digits) - atAgreedPrice(entry, line, quantity, level - count, digits);
    level -= count;
    found.push({ lines: [line.line], class: entry.class, kind, quantity: count, effect: write(effect), findings, says });
  }
  return found;
}

function isRounding(minor: bigint, exact: { readonly units: bigint; readonly scale: number }, digits: number): boolean {
  const unit = 10n ** BigInt(Math.max(0, exact.scale - digits));
  const apart = minor * unit - exact.units * 10n ** BigInt(Math.max(0, digits - exact.scale));
  return apart < unit && -apart < unit;
}

/** Subtotals and the sum before tax against the lines. */
function sumDifferences({ invoice, lines }: SettledInvoice, digits: number, write: Write): readonly InvoiceDifference[] {
  const byLine = new Map(lines.map(({ line, billed }) => [line.line, billed]));
  const subtotals = invoice.subtotals.flatMap((sub) => {
    const made = sub.lines.reduce((sum, line) => sum + (byLine.get(line) ?? 0n), 0n);
    const stated = minorOf(sub.amount, digits);
    const says = `"${sub.text}" (row ${String(sub.row)}) is ${write(stated)}; the lines above it add up to ${write(made)}.`;
    return stated === made ? [] : [money('subtotal-differs', 0n, says, write, sub.lines)];
  });
  const { made, stated } = netOf({ invoice, lines }, digits);
  const says = `The lines add up to ${write(made)}; the invoice says ${write(stated)}.`;
  return [...subtotals, ...(stated === made ? [] : [money('net-differs', stated - made, says, write)])];
}

function netOf(
  { invoice, lines }: Pick<SettledInvoice, 'invoice' | 'lines'>,
  digits: number,
): { readonly made: bigint; readonly stated: bigint } {
  const made = lines.reduce((sum, { billed }) => sum + billed, 0n);
  return { made, stated: invoice.net === null ? made : minorOf(invoice.net.amount, digits) };
}

function totalDiffers(own: SettledInvoice, digits: number, write: Write): readonly InvoiceDifference[] {
  const made = netOf(own, digits).stated + own.taxes.reduce((sum, { billed }) => sum + billed, 0n);
  const says = `The invoice asks for ${write(own.billed)}; its own lines and taxes make ${write(made)}.`;
  return own.billed === made ? [] : [money('total-differs', own.billed - made, says, write)];
}
