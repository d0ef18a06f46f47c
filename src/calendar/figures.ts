const ROMAN: Readonly<Record<string, number>> = { i: 1, v: 5, x: 10, l: 50, c: 100, d: 500, m: 1000 };

/** A number in figures or Roman numerals; null for anything else. */
export function inFigures(text: string | null): number | null {
  const found = text?.trim().toLowerCase() ?? '';
  if (/^\d{1,9}$/.test(found)) return Number(found);
  if (!/^[ivxlcdm]{1,15}$/.test(found)) return null;
  const values = Array.from(found, (letter) => ROMAN[letter] ?? 0);
  return values.reduce((sum, value, at) => sum + (value < (values[at + 1] ?? 0) ? -value : value), 0);
}
