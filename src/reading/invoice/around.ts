import type { InvoiceReading } from '../../model/reading.js';
import type { BookSheet } from '../../model/written-grid.js';
import type { ReadRow } from './rows.js';
import { currenciesIn, NUMBER_WORDS, saysCredit, strangeSigns } from './words.js';

/** What an invoice says of itself around its lines. */
export interface Around {
  readonly number: string | null;
  readonly currency: string | null;
  readonly credit: boolean;
  readonly mistakes: readonly string[];
}

/** What stands around the lines: number, currency, and whether it is a credit note. */
export function factsAround(sheet: BookSheet, at: number, rows: readonly ReadRow[], reading: InvoiceReading, agreed: string): Around {
  const texts = sheet.rows.flatMap(({ cells }) => cells.map(({ value }) => value));
  const distinct = (column: 'invoice number' | 'currency'): readonly string[] =>
    [...new Set(rows.filter(({ is }) => is === 'line').map((row) => row.text(column)))].filter((text) => text !== '');
  const [numbers, named] = [distinct('invoice number'), distinct('currency')];
  const seen =
    named.length > 0 ? [...new Set(named.map((text) => currenciesIn(text)[0] ?? text))] : [...new Set(texts.flatMap(currenciesIn))];
  const currency = seen.length === 1 ? (seen[0] ?? null) : null;
  const strange = [...new Set(texts.flatMap((text) => strangeSigns(text, currency ?? agreed)))];
  const head = sheet.rows.slice(0, at).flatMap(({ cells }) =>
    cells.flatMap(({ value }, place) => {
      const found = NUMBER_WORDS.exec(value.trim());
      if (found === null) return [];
      const own = (found[1] ?? found[2] ?? '').trim();
      return own === '' ? [cells[place + 1]?.value.trim() ?? ''] : [own];
    }),
  );
  return {
    number: numbers[0] ?? head.find((text) => text !== '') ?? null,
    currency,
    credit: sheet.rows.slice(0, at + 1).some(({ cells }) => cells.some(({ value }) => saysCredit(value))),
    mistakes: [
      ...(numbers.length > 1 ? [`several invoice numbers stand in it (${numbers.join(', ')}); give each invoice a file of its own.`] : []),
      ...(seen.length > 1 && reading.currency === undefined
        ? [`several currencies are named in it (${seen.join(', ')}); say in the reading file, under invoice, currency, which holds.`]
        : []),
      ...(strange.length > 0 && reading.currency === undefined
        ? [
            `amounts in it bear "${strange.join('" and "')}", which is no sign of ${currency ?? agreed}; say in the reading file, under invoice, currency, which holds.`,
          ]
        : []),
    ],
  };
}
