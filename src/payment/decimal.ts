/** An exact decimal number: `units` divided by ten to the power `scale`. */
export interface Decimal {
  readonly units: bigint;
  readonly scale: number;
}

/** One shape only, because in `1,234` a comma means a thousand in one country and a fraction in another. */
const DECIMAL = /^(-?)(\d{1,15})(?:\.(\d{1,6}))?$/;

/** Reads `12`, `-3.20` or `0.325` (point, no grouping, at most 15 digits before it and 6 behind); null for any other text. */
export function parseDecimal(text: string): Decimal | null {
  const match = DECIMAL.exec(text.trim());
  if (match === null) return null;
  const [, sign = '', whole = '', fraction = ''] = match;
  return { units: BigInt(`${sign}${whole}${fraction}`), scale: fraction.length };
}

/** A whole number as a decimal. */
export function whole(count: number): Decimal {
  return { units: BigInt(count), scale: 0 };
}

/** The exact product. */
export function multiply(a: Decimal, b: Decimal): Decimal {
  return { units: a.units * b.units, scale: a.scale + b.scale };
}

/** True where two decimals are the same number, however many zeros they end in. */
export function sameNumber(a: Decimal, b: Decimal): boolean {
  return a.units * 10n ** BigInt(b.scale) === b.units * 10n ** BigInt(a.scale);
}

/** The number in units of ten to the power `-digits`, halves away from zero, so that a credit undoes exactly what was billed. */
export function roundHalfUp(value: Decimal, digits: number): bigint {
  if (value.scale <= digits) return value.units * 10n ** BigInt(digits - value.scale);
  const divisor = 10n ** BigInt(value.scale - digits);
  const size = value.units < 0n ? -value.units : value.units;
  const rounded = (size * 2n + divisor) / (divisor * 2n);
  return value.units < 0n ? -rounded : rounded;
}

/** The number in minor units where it is a whole number of them, else null. */
export function exactMinor(value: Decimal, digits: number): bigint | null {
  const minor = roundHalfUp(value, digits);
  return sameNumber({ units: minor, scale: digits }, value) ? minor : null;
}

/** Minor units as decimal text with exactly `digits` decimals: 1234n with 2 is `12.34`. */
export function writeMinor(minor: bigint, digits: number): string {
  const size = (minor < 0n ? -minor : minor).toString().padStart(digits + 1, '0');
  const text = digits === 0 ? size : `${size.slice(0, -digits)}.${size.slice(-digits)}`;
  return minor < 0n ? `-${text}` : text;
}
