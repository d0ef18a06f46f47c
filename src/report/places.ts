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
}

/** Where a finding stands, by document and sheet in the order in which they are named; rows that follow each other are one spot. */
export function placeSources(places: readonly ResultPlace[]): readonly PlaceSource[] {
  const sources = new Map<
    string,
    { readonly document: string | null; readonly sheet: string; readonly spots: string[]; readonly rows: string[] }
  >();
  for (const { document, sheet = '', row, ...spot } of places) {
    const words = placeInWords(spot);
    if (document === undefined && sheet === '' && row === undefined && words === '') continue;
    const key = document === undefined ? `sheet ${sheet}` : `document ${document}`;
    const source = sources.get(key) ?? { document: document ?? null, sheet: document === undefined ? sheet : '', spots: [], rows: [] };
    sources.set(key, source);
    if (row !== undefined) source.rows.push(String(row));
    if (words !== '') source.spots.push(words);
  }
  return [...sources.values()].map(({ document, sheet, spots, rows }) => ({
    document,
    sheet,
    spots: rows.length === 0 ? spots : [...spots, `${rows.length === 1 ? 'row' : 'rows'} ${inRuns(rows)}`],
  }));
}
