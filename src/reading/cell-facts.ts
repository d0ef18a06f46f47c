import type { DateWays } from './own-dates.js';
import { readOwnDay } from './own-dates.js';
import { framePage } from './pages/label.js';
import { type Ways, wordKey } from './ways.js';

/** Facts of a row by our column. */
export type Facts = ReadonlyMap<string, string>;

/** Columns that hold days. */
export const DAY_COLUMNS: ReadonlySet<string> = new Set(['date', 'combined with', 'date to', 'from', 'to']);

/** `6 i.e. 5`: what is printed, then what is right (MARC and AACR2 usage of "i.e."). The place of the right one is where the column is. */
const CORRECTED: ReadonlyMap<string, { readonly printed: string; readonly right: string }> = new Map([
  ['page', { printed: 'page printed', right: 'page' }],
  ['date', { printed: 'date printed', right: 'date' }],
  ['issue number', { printed: 'issue number', right: 'issue number intended' }],
]);

/** The facts that one cell of our columns states; `fields` are several for a joined column. What cannot be read is left as it stands, to be complained about. */
export function cellFacts(text: string, fields: readonly string[], ways: Ways): Facts {
  const [field, ...others] = fields;
  if (field === undefined || text === '') return new Map();
  if (others.length > 0) return joinedFacts(text, fields);
  const corrected = CORRECTED.get(field);
  const [printed, right] = correctedParts(text);
  if (corrected !== undefined && right !== undefined && printed !== undefined) {
    const known = field === 'date' ? rightDay(printed, right, ways) : right;
    return new Map([
      [corrected.printed, field === 'date' ? (readOwnDay(printed, ways) ?? printed) : printed],
      [corrected.right, known],
    ]);
  }
  if (field === 'page' && ways.words.get('page')?.has(wordKey(text)) !== true) {
    const page = framePage(text, ways);
    if (page.is === 'label')
      return new Map([['page', page.label], ...(page.printed === null ? [] : [['page printed', page.printed] as const])]);
  }
  return new Map([[field, plainFact(text, field, ways)]]);
}

function plainFact(text: string, field: string, ways: Ways): string {
  // Words under `note` say what the row shows; the note itself stays as it is written.
  const word = field === 'note' ? undefined : ways.words.get(field)?.get(wordKey(text));
  if (word !== undefined) return word;
  if (field === 'title') return ways.titles.get(wordKey(text)) ?? text;
  if (DAY_COLUMNS.has(field)) return readOwnDay(text, ways) ?? text;
  return text;
}

/** True for a cell that says what is printed and what is right. */
export function isCorrected(text: string, field: string): boolean {
  return CORRECTED.has(field) && correctedParts(text)[1] !== undefined;
}

/** `6 i.e. 5`, `6 [i.e. 5]` and `6 (recte 5)` in their two parts; one part for any other text. */
function correctedParts(text: string): readonly string[] {
  const match = /^(.{1,60}?)\s*[[(]?\s*(?:\bi\.? ?e\.?,?|\brecte|\bcorrectly)\s+([^\])]{1,60}?)\s*[\])]?$/i.exec(text);
  return match?.[1] === undefined || match[2] === undefined ? [text] : [match[1].trim(), match[2].trim()];
}

/** `4 January 1899 i.e. 1900`: what is right may be the year alone, or the day and month. */
function rightDay(printed: string, right: string, ways: DateWays): string {
  const whole = readOwnDay(right, ways);
  if (whole !== null && !/^\d{4}$/.test(right)) return whole;
  const base = readOwnDay(printed, ways);
  return base !== null && /^\d{4}$/.test(right) ? `${right}${base.slice(4)}` : right;
}

/** `Vol. 8, No. 283`, `8/283` and `VIII:283` in their parts: as many as there are columns, else the cell stands as it is in the first. */
function joinedFacts(text: string, fields: readonly string[]): Facts {
  const parts = text
    .replace(/\b(vol(ume)?|no|nr|number|issue|iss|nos|jg|jahrgang|nummer|bd|band)\b\.?/giu, ' ')
    .split(/[\s,;:/|]+|(?<=\d)-(?=\d)/)
    .filter((part) => part !== '');
  if (parts.length !== fields.length) return new Map([[fields[0] ?? '', text]]);
  return new Map(fields.map((field, at) => [field, parts[at] ?? '']));
}

/** True where a joined cell falls into as many parts as it has columns. */
export function isJoined(text: string, fields: readonly string[]): boolean {
  return text === '' || joinedFacts(text, fields).size === fields.length;
}
