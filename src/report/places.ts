import type { ResultPlace } from '../model/findings.js';
import { inRuns } from './runs.js';
import { placeInWords } from './words.js';

/** A document of the return, or a sheet of the record, with the spots in it that a finding names. */
export interface PlaceSource {
  /** Path of the document; null for a sheet of the record. */
  readonly document: string | null;
  /** Name of the sheet; empty for a document, and where the record has no sheets. */
  readonly sheet: string;
  /** Elements and lines in words, in their order. */
  readonly spots: readonly string[];
  /** How many spots there are, those included that a long run does not name. */
  readonly count: number;
}

/** Where a finding stands, by document and sheet in the order in which they are named; rows that follow each other are one spot. */
export function placeSources(places: readonly ResultPlace[]): readonly PlaceSource[] {
  const sources = new Map<string, Found>();
  for (const { document, sheet = '', row, of, ...spot } of places) {
    const words = placeInWords(spot);
    if (document === undefined && sheet === '' && row === undefined && words === '') continue;
    const key = document === undefined ? `sheet ${sheet}` : `document ${document}`;
    const source = sources.get(key) ?? {
      document: document ?? null,
      sheet: document === undefined ? sheet : '',
      spots: [],
      rows: [],
      end: null,
      unnamed: 0,
    };
    sources.set(key, source);
    const before = source.spots.length;
    if (of !== undefined && row !== undefined) source.end = `\u2026 ${String(row)} (${String(of)} in all)`;
    else if (row !== undefined) source.rows.push(String(row));
    if (words !== '') source.spots.push(of === undefined ? words : `\u2026 ${words} (${String(of)} in all)`);
    // where the run begins in this document too, what it does not name is here
    if (of !== undefined && before > 0) source.unnamed = of - before - 1;
  }
  return [...sources.values()].map(({ document, sheet, spots, rows, end, unnamed }) => {
    const all = rows.length === 0 && end === null ? spots : [...spots, rowsInWords(rows, end)];
    return { document, sheet, spots: all, count: all.length + unnamed };
  });
}

interface Found {
  readonly document: string | null;
  readonly sheet: string;
  readonly spots: string[];
  readonly rows: string[];
  /** The last row of a long run in words. */
  end: string | null;
  unnamed: number;
}

function rowsInWords(rows: readonly string[], end: string | null): string {
  const runs = rows.length === 0 ? [] : [inRuns(rows)];
  return `${rows.length === 1 && end === null ? 'row' : 'rows'} ${[...runs, ...(end === null ? [] : [end])].join(' ')}`;
}
