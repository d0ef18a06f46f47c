/** A share of a lot, or a chance, as an exact fraction, so that 7 % of 100 is 7 and not a hair more. */
export interface Share {
  readonly top: bigint;
  readonly bottom: bigint;
}

/** Reads a percentage such as `1`, `0.65` or `12.5` (without the sign); null where it is not a number above 0 and up to 100. */
export function percentShare(text: string): Share | null {
  const match = /^(\d{1,3})(?:\.(\d{1,12}))?$/.exec(text.trim());
  if (match === null) return null;
  const fraction = match[2] ?? '';
  const top = BigInt((match[1] ?? '') + fraction);
  const bottom = 100n * 10n ** BigInt(fraction.length);
  return top > 0n && top <= bottom ? { top, bottom } : null;
}

/** The least count that is at least the share of `lot` units. */
export function countAtLeast(share: Share, lot: number): number {
  return Number((share.top * BigInt(lot) + share.bottom - 1n) / share.bottom);
}

/** Reads a chance such as `0.05`; null where it does not lie between 0 and 1, both excluded. */
export function chance(text: string): Share | null {
  const digits = /^0?\.(\d{1,12})$/.exec(text.trim())?.[1];
  if (digits === undefined) return null;
  const top = BigInt(digits);
  return top > 0n ? { top, bottom: 10n ** BigInt(digits.length) } : null;
}

/** Why a lot of this size cannot be sampled; null where it can. */
export function lotMistake(lot: number): string | null {
  if (Number.isSafeInteger(lot) && lot >= 1 && lot <= 10_000_000) return null;
  return `The lot is said to hold ${lot} units. A lot holds a whole number of units, from 1 to 10,000,000.`;
}
