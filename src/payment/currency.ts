/** ISO 4217, list one: alphabetic codes whose minor unit is not a hundredth, by the number of decimals. From memory. */
const OTHER_MINOR_UNITS: readonly (readonly [number, string])[] = [
  [0, 'BIF CLP DJF GNF ISK JPY KMF KRW PYG RWF UGX UYI VND VUV XAF XOF XPF'],
  [3, 'BHD IQD JOD KWD LYD OMR TND'],
  [4, 'CLF UYW'],
];

const DIGITS: ReadonlyMap<string, number> = new Map(
  OTHER_MINOR_UNITS.flatMap(([digits, codes]) => codes.split(' ').map((code) => [code, digits] as const)),
);

/** Decimals of the minor unit of a currency (ISO 4217 code); 2 where the code is empty or not in the list. */
export function minorDigits(currency: string): number {
  return DIGITS.get(currency) ?? 2;
}
