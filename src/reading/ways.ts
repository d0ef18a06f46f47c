import type { ReadingFile, SheetReading } from '../model/reading.js';
import { plainText } from '../normalise/labels.js';
import { headerKey } from '../normalise/sheet-row.js';

/** What is made of a row that holds one text and nothing else. */
export type RowReading = 'leave out' | 'keep' | 'date of the rows below';

/** A reading file with its dictionaries ready to be asked: heads and words count without regard to case and spaces. */
export interface Ways {
  readonly sheets: ReadonlyMap<string, SheetReading>;
  /** By `headerKey`: the fields of ours that the column holds, none for one that means nothing, null for a note. */
  readonly columns: ReadonlyMap<string, { readonly fields: readonly string[] | null; readonly below: 'as above' | 'nothing' | null }>;
  readonly titles: ReadonlyMap<string, string>;
  /** Identifiers of titles that the sheet writes in several ways. */
  readonly renamed: ReadonlySet<string>;
  readonly words: ReadonlyMap<string, ReadonlyMap<string, string>>;
  readonly order: 'day month year' | 'month day year' | null;
  readonly century: string | null;
  readonly year: string | null;
  readonly calendar: string | null;
  readonly ditto: 'as above' | 'as written' | null;
  readonly counted: boolean;
  readonly loneNumbers: 'count' | 'page' | null;
  /** Whether a column of pages tells what was published, pages that are not on the film among them, or what was filmed. */
  readonly pages: 'published' | 'filmed' | null;
  readonly noPages: 'a page each' | 'not known' | null;
  /** What two pages written as a range are where the number of frames does not show it. */
  readonly spreads: 'one frame' | 'a frame each' | null;
  /** What becomes of frames that repeat or replace another where nothing says which is delivered. */
  readonly duplicates: 'held back' | 'delivered' | null;
  readonly retakes: 'the retake' | 'both' | null;
  readonly colours: ReadonlyMap<string, string>;
  readonly comments: 'notes' | 'nothing' | null;
  readonly struck: 'leave out' | 'keep' | null;
  readonly phrases: ReadonlyMap<string, 'fact' | 'note'>;
  readonly rows: ReadonlyMap<string, RowReading>;
}

/** A word as words are compared. */
export function wordKey(word: string): string {
  return (plainText(word) ?? '').toLowerCase();
}

/** The ways of a reading file; without one everything is read to the letter. */
export function waysOf(reading: ReadingFile | null): Ways {
  const said: ReadingFile = reading ?? { format: 'reeltally/reading/1' };
  const { sheets, columns, titles, words, dates, ditto, frames, loneNumbers, pages, noPages, colours, comments, struck, phrases, rows } =
    said;
  const by = <Value>(dictionary: { readonly [k: string]: Value } | undefined, key: (text: string) => string): ReadonlyMap<string, Value> =>
    new Map(Object.entries(dictionary ?? {}).map(([text, value]) => [key(text), value]));
  return {
    sheets: by(sheets, (name) => name),
    columns: new Map(
      Object.entries(columns ?? {}).map(([head, { is, below }]) => [headerKey(head), { fields: fieldsOf(is), below: below ?? null }]),
    ),
    titles: by(titles, wordKey),
    renamed: new Set(Object.values(titles ?? {}).filter((id, at, all) => all.indexOf(id) !== at)),
    words: new Map(Object.entries(words ?? {}).map(([field, own]) => [field, by(own, wordKey)])),
    order: dates?.order ?? null,
    century: dates?.century ?? null,
    year: dates?.year ?? null,
    calendar: dates?.calendar ?? null,
    ditto: ditto ?? null,
    counted: frames === 'counted',
    loneNumbers: loneNumbers ?? null,
    pages: pages ?? null,
    noPages: noPages ?? null,
    spreads: said.spreads ?? null,
    duplicates: said.duplicates ?? null,
    retakes: said.retakes ?? null,
    colours: by(colours, (colour) => colour),
    comments: comments ?? null,
    struck: struck ?? null,
    phrases: by(phrases, wordKey),
    rows: by(rows, wordKey),
  };
}

function fieldsOf(is: string): readonly string[] | null {
  if (is === 'note') return null;
  return is === 'nothing' ? [] : is.split(',').map((field) => field.trim());
}
