import type { PriceClass, Terms } from '../model/agreement.js';
import type { ExpectedAmount } from '../model/expected-delivery.js';
import type { Side } from '../model/film.js';
import { minorDigits } from './currency.js';
import { multiply, parseDecimal, roundHalfUp, whole, writeMinor } from './decimal.js';
import { isInClass } from './units.js';

/** What each price class of an agreement comes to where everything comes and is accepted, and their sum; null without a price. */
export function expectedAmounts(terms: Terms, record: Side): { readonly amounts: readonly ExpectedAmount[]; readonly sum: string | null } {
  const digits = minorDigits(terms.currency);
  const priced = terms.classes.map((entry) => {
    const units = unitsOf(entry, record);
    const price = entry.unitPrice === undefined ? null : parseDecimal(entry.unitPrice);
    return { entry, units, minor: price === null ? null : roundHalfUp(multiply(whole(units), price), digits) };
  });
  const known = priced.flatMap(({ minor }) => minor ?? []);
  return {
    amounts: priced.map(({ entry, units, minor }) => ({
      class: entry.class,
      units,
      unitPrice: entry.unitPrice ?? null,
      amount: minor === null ? null : writeMinor(minor, digits),
    })),
    sum:
      known.length === 0
        ? null
        : writeMinor(
            known.reduce((sum, minor) => sum + minor, 0n),
            digits,
          ),
  };
}

function unitsOf(entry: PriceClass, record: Side): number {
  const counts = record.reels.map(({ frames }) => frames.filter((frame) => isInClass(entry, frame)).length);
  // a reel or the batch is paid once, when its first frame is accepted
  if (entry.per === 'reel') return counts.filter((count) => count > 0).length;
  if (entry.per === 'batch') return counts.some((count) => count > 0) ? 1 : 0;
  return counts.reduce((sum, count) => sum + count, 0);
}
