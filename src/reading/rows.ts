import type { BookRow } from '../model/written-grid.js';
import { plainText, readFrameNumber } from '../normalise/labels.js';
import { headerKey } from '../normalise/sheet-row.js';
import type { ColumnPlan } from './columns.js';
import type { Heads } from './heads.js';
import { dateForm } from './own-dates.js';

/** What a row below the heads is: data, or something that a person put between the data. */
export type RowKind =
  | { readonly is: 'data' }
  | { readonly is: 'heads' }
  | { readonly is: 'total' }
  /** A line with the name of the reel to which the rows below belong. */
  | { readonly is: 'reel'; readonly reel: string }
  /** One text and nothing else. */
  | { readonly is: 'lone text'; readonly text: string };

const TOTAL = /^(grand |sub-?)?(total|totals|sum|summe|gesamt|insgesamt|totaal|totale)\b/i;
const REEL_LINE = /^(?:reel|roll|film|rolle|bobine)(?:\s+(?:no|nr|number))?\s*[.#:]?\s*(\S.{0,40}?)\s*$/i;

/** Columns by which a row is data. */
const KEYS: ReadonlySet<string> = new Set(['frame', 'first frame', 'date', 'pages', 'kind', 'id', 'number']);

/** Whether a text that stands alone in its row can be what the column holds. */
function isDatum(text: string, field: string): boolean {
  if (field === 'frame' || field === 'first frame') return readFrameNumber(text) !== null;
  return field === 'date' ? dateForm(text).is !== 'other' : KEYS.has(field);
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
  const totals = first.kind === 'text' && TOTAL.test(text);
  // A sum may stand under the pages, and the word itself under the days or the frames.
  if (totals && filled.slice(1).every((cell) => cell.kind === 'number' || /^[\d.,\s]*$/.test(cell.value) || !isKey(cell)))
    return { is: 'total' };
  if (filled.length > 1 || first.kind !== 'text') return { is: 'data' };
  const reel = REEL_LINE.exec(text)?.[1];
  if (reel !== undefined && /\d/.test(reel)) return { is: 'reel', reel: reel.replace(/^[.#:\s]+/, '') };
  // Where frames have no numbers every row is one, also one that only a note tells of.
  const counted = plans.some(({ fields }) => fields.includes('page')) && !plans.some(({ fields }) => fields.includes('frame'));
  const inNotes = plans[first.column]?.note === true || fieldsOf(first.column).includes('note');
  if (counted && inNotes) return { is: 'data' };
  return fieldsOf(first.column).some((field) => isDatum(text, field)) ? { is: 'data' } : { is: 'lone text', text };
}
