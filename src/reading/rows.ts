import type { BookCell, BookRow } from '../model/written-grid.js';
import { plainText, readFrameNumber } from '../normalise/labels.js';
import { headerKey } from '../normalise/sheet-row.js';
import type { ColumnPlan } from './columns.js';
import type { Heads } from './heads.js';
import { type Beside, isDayText, monthNumber } from './own-dates.js';

/** What a row below the heads is: data, or something that a person put between the data. */
export type RowKind =
  | { readonly is: 'data' }
  | { readonly is: 'heads' }
  | { readonly is: 'total' }
  /** A line with the name of the reel to which the rows below belong. */
  | { readonly is: 'reel'; readonly reel: string }
  /** One text and nothing else, or a text with a colon and the numbers that it announces; `heading` where it is a year or a month. */
  | { readonly is: 'lone text'; readonly text: string; readonly heading: Beside | null };

/** Words that begin a row of sums. */
export const TOTAL = /^(grand |sub-?)?(total|totals|sum|summe|gesamt|insgesamt|totaal|totale)\b/i;
const REEL_LINE =
  /^(?:filmrolle|(?:micro)?film|reel|rolle|roll|spule|bobine)\s*(?:number|nummer|numéro|nos?|nr|n°)?\s*[.#:]?\s*((?:[A-Z]{1,4}[ -]?)?\d.{0,40}?)\s*$/i;

/** Columns by which a row is data. */
const KEYS: ReadonlySet<string> = new Set(['frame', 'first frame', 'date', 'pages', 'kind', 'id', 'number']);

/** Columns that hold a number or a day, and no word for a sum. */
const NO_WORDS: ReadonlySet<string> = new Set(['frame', 'first frame', 'date']);

function isTotal({ kind, value }: BookCell): boolean {
  return kind === 'text' && TOTAL.test(plainText(value) ?? '');
}

/** A number that may be a sum. */
const isSum = ({ kind, value }: BookCell): boolean => kind === 'number' || /^[\d.,\s]*$/.test(value);

/** Whether a text that stands alone in its row can be what the column holds. */
function isDatum(text: string, field: string): boolean {
  if (field === 'frame' || field === 'first frame') return readFrameNumber(text) !== null;
  return field === 'date' ? isDayText(text) : KEYS.has(field);
}

const YEAR_LINE = /^(?:year|jahr|jahrgang|année|an)?\s*(?:(\p{L}{3,12})\.?,?\s+)?((?:1[6-9]|20)\d\d)\s*[.:]?$/iu;

/** The year, or the month, that a line between the rows gives to the days below it; null for any other text. */
export function headingOf(text: string): Beside | null {
  const [, month, year] = YEAR_LINE.exec(text) ?? [];
  if (year !== undefined) {
    if (month === undefined) return { year };
    return monthNumber(month) === null ? null : { year, month };
  }
  return /^\p{L}/u.test(text) && monthNumber(text.replace(/:$/, '')) !== null ? { month: text.replace(/:$/, '') } : null;
}

/** True for a text that, alone in its row, is a line between the rows whatever the columns are. */
export function isLine(text: string): boolean {
  const plain = plainText(text) ?? '';
  return headingOf(plain) !== null || TOTAL.test(plain) || reelLine(plain) !== null;
}

/** The reel that a line names; null for any other text. */
function reelLine(text: string): string | null {
  const reel = REEL_LINE.exec(text)?.[1];
  return reel !== undefined && /\d/.test(reel) ? reel.replace(/^[.#:\s]+/, '') : null;
}

/** Says what a row is by the columns of its sheet. */
export function rowKind({ cells }: BookRow, heads: Heads, plans: readonly ColumnPlan[]): RowKind {
  const fieldsOf = (column: number): readonly string[] => plans[column]?.fields ?? [];
  const filled = cells.filter(({ value }) => value.trim() !== '');
  const [first] = filled;
  if (first === undefined) return { is: 'data' };
  const text = plainText(first.value) ?? '';
  const isNamed = ({ column, value }: { readonly column: number; readonly value: string }): boolean => {
    const name = headerKey(heads.names[column] ?? '');
    return name !== '' && name.endsWith(headerKey(value));
  };
  if (filled.length >= 2 && filled.every((cell) => cell.kind === 'text' && isNamed(cell))) return { is: 'heads' };
  const isKey = ({ column }: { readonly column: number }): boolean => fieldsOf(column).some((field) => KEYS.has(field));
  const total = filled.findIndex((cell, at) => isTotal(cell) && (at === 0 || fieldsOf(cell.column).some((field) => NO_WORDS.has(field))));
  // A sum may stand under the pages, and the word itself under the days or the frames, behind the number of the reel.
  if (total >= 0 && filled.slice(total + 1).every((cell) => isSum(cell) || !isKey(cell))) return { is: 'total' };
  const heading = filled.length === 1 && (first.kind === 'text' || first.kind === 'number') ? headingOf(text) : null;
  if (heading !== null) return { is: 'lone text', text, heading };
  if (filled.length > 1 && first.kind === 'text' && /^\p{L}.*:$/u.test(text) && filled.slice(1).every(isSum))
    return { is: 'lone text', text, heading: null };
  if (filled.length > 1 || first.kind !== 'text') return { is: 'data' };
  const reel = reelLine(text);
  if (reel !== null) return { is: 'reel', reel };
  // Where frames have no numbers every row is one, also one that only a note tells of.
  const counted = plans.some(({ fields }) => fields.includes('page')) && !plans.some(({ fields }) => fields.includes('frame'));
  const inNotes = plans[first.column]?.note === true || fieldsOf(first.column).includes('note');
  if (counted && inNotes) return { is: 'data' };
  return fieldsOf(first.column).some((field) => isDatum(text, field)) ? { is: 'data' } : { is: 'lone text', text, heading: null };
}
