import type { RecordCheck } from '../model/record-check.js';

/** The columns of the list of items; the last three are for the library to fill in, and make it a file of explained items. */
const HEADS = [
  'item',
  'severity',
  'what',
  'says',
  'likely',
  'evidence',
  'reel',
  'from frame',
  'to frame',
  'title',
  'date',
  'rows',
  'note',
  'by',
  'on',
];

/** The check as a sheet: a row for each item, those that are explained with what was said of them. */
export function checkTable({ items, catalogue }: RecordCheck): {
  readonly name: string;
  readonly heads: readonly string[];
  readonly rows: readonly (readonly string[])[];
} {
  const titles = new Map(catalogue.map(({ code, title }) => [code, title]));
  return {
    name: 'items',
    heads: HEADS,
    rows: items.map(({ id, code, severity, says, likely, evidence, reel, frames, title, date, places, explained }) => [
      id,
      severity,
      titles.get(code) ?? code,
      says,
      likely ?? '',
      evidence.join(' '),
      reel ?? '',
      frames?.from ?? '',
      frames?.to ?? '',
      title ?? '',
      date ?? '',
      places.map(({ sheet, row }) => `${sheet} ${String(row)}`).join('; '),
      explained?.note ?? '',
      explained?.by ?? '',
      explained?.on ?? '',
    ]),
  };
}
