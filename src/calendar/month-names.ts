import { LOCALES } from './weekday-names.js';

const NUMBERS = [0, 1, 2, 3, 4, 5, 6, 7, 8, 9, 10, 11] as const;

const MONTHS = buildIndex();

/** The month (1 to 12) that a word names in any language whose weekdays are understood, whole or shortened to three letters or more; null where languages differ. */
export function readMonth(word: string): number | null {
  const key = folded(word);
  const exact = MONTHS.get(key);
  if (exact !== undefined) return only(exact);
  if (key.length < 3) return null;
  const found = new Set<number>();
  for (const [name, months] of MONTHS) if (name.startsWith(key)) for (const month of months) found.add(month);
  return only(found);
}

function only(months: ReadonlySet<number>): number | null {
  const [month] = months;
  return months.size === 1 && month !== undefined ? month : null;
}

function buildIndex(): ReadonlyMap<string, ReadonlySet<number>> {
  const index = new Map<string, Set<number>>();
  for (const locale of LOCALES)
    for (const month of NUMBERS)
      for (const width of ['wide', 'abbreviated'] as const) {
        const name = folded(locale.localize.month(month, { width }));
        index.set(name, (index.get(name) ?? new Set<number>()).add(month + 1));
      }
  return index;
}

function folded(word: string): string {
  return word
    .toLowerCase()
    .normalize('NFKD')
    .replace(/[\u0300-\u036f.]/g, '');
}
