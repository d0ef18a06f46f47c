import type { PriceClass } from '../model/agreement.js';
import type { InvoiceLine } from '../model/invoice.js';
import type { LineDue } from './billed.js';
import { type Decimal, parseDecimal, roundHalfUp } from './decimal.js';

/** A decimal text in minor units, rounded; 0 for one that is none. */
export function minorOf(text: string | null, digits: number): bigint {
  const value = text === null ? null : parseDecimal(text);
  return value === null ? 0n : roundHalfUp(value, digits);
}

/** So many units of a line at the agreed price, else at the price billed, in minor units. Without a price the billed amount is shared out by units. */
export function atAgreedPrice(entry: PriceClass, line: InvoiceLine, quantity: number, count: number, digits: number): bigint {
  const price = parseDecimal(entry.unitPrice ?? '') ?? parseDecimal(line.unitPrice ?? '');
  if (price !== null) return times(price, count, digits);
  if (quantity === 0) return 0n;
  const sign = quantity < 0 ? -1n : 1n;
  return shareOf(minorOf(line.amount, digits) * BigInt(count) * sign, BigInt(Math.abs(quantity)));
}

/** A price so many times, in minor units, halves away from zero. */
export function times(price: Decimal, count: number, digits: number): bigint {
  return roundHalfUp({ units: price.units * BigInt(count), scale: price.scale }, digits);
}

/** The tax of a rate in percent on a sum in minor units, halves away from zero. */
export function taxOn(sum: bigint, rate: string): bigint {
  const percent = parseDecimal(rate);
  return percent === null ? 0n : roundHalfUp({ units: sum * percent.units, scale: percent.scale + 2 }, 0);
}

/** What is due on a line of a class, in minor units. */
export function dueAmount(entry: PriceClass, { line, quantity, due }: LineDue, digits: number): bigint {
  return atAgreedPrice(entry, line, quantity, due, digits);
}

function shareOf(value: bigint, parts: bigint): bigint {
  const size = value < 0n ? -value : value;
  const rounded = (size * 2n + parts) / (parts * 2n);
  return value < 0n ? -rounded : rounded;
}
