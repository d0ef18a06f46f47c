import type { BookCell, BookRow } from '../model/written-grid.js';
import type { ColumnPlan } from './columns.js';
import type { SheetUse } from './names.js';
import type { Stated } from './phrases.js';

/** A row of data: its number, its cells, what the cells state in our columns, and what its notes state in phrases that are taken as facts. */
export interface ReadRow {
  readonly row: BookRow;
  readonly cells: ReadonlyMap<number, BookCell>;
  readonly facts: Map<string, string>;
  readonly typed: Map<string, BookCell>;
  readonly stated: readonly Stated[];
}

/**
 * A row of a frame sheet whose cells say what their columns hold and nothing else, as most do: its texts by column, and the cells that are no text.
 * `texts` are empty where nothing stands; `places` are the columns of our fields, the same for all rows of a sheet.
 */
export interface PlainRow {
  readonly row: BookRow;
  readonly texts: readonly string[];
  readonly typed: readonly BookCell[];
  readonly places: ReadonlyMap<string, number>;
}

/** A row of data, whichever way it was read. */
export type AnyRow = ReadRow | PlainRow;

/** Whether the row is a plain one. */
export function isPlain(row: AnyRow): row is PlainRow {
  return 'texts' in row;
}

/** Whether a cell stands in that column, or holds there too. */
export function hasCell(row: AnyRow, column: number): boolean {
  return isPlain(row) ? (row.texts[column] ?? '') !== '' : row.cells.has(column);
}

/** Whether anything stands there for a column of ours. */
export function has(row: AnyRow, field: string): boolean {
  return isPlain(row) ? (row.texts[row.places.get(field) ?? -1] ?? '') !== '' : row.facts.has(field) || row.typed.has(field);
}

/** What stands there for a column of ours; empty for nothing. */
export function valueOf(row: AnyRow, field: string): string {
  if (isPlain(row)) return row.texts[row.places.get(field) ?? -1] ?? '';
  return row.facts.get(field) ?? row.typed.get(field)?.value ?? '';
}

/** Adds facts; what is there already stays. */
export function add(facts: Map<string, string>, more: Iterable<readonly [string, string]>): void {
  for (const [field, text] of more) if (!facts.has(field)) facts.set(field, text);
}

/** Adds damage to what is said of the row. */
export function addCondition({ facts }: ReadRow, text: string): void {
  const before = facts.get('condition');
  if (before === undefined) facts.set('condition', text);
  else if (!before.split('; ').includes(text)) facts.set('condition', `${before}; ${text}`);
}

/** Adds to the note of the row. */
export function addNote(row: ReadRow, text: string): void {
  row.facts.set('note', [valueOf(row, 'note'), text].filter((one) => one !== '').join('; '));
}

/** What makes a row one of a frame or of pages. */
const OF_THE_FILM: Readonly<Record<'frames' | 'issues', readonly string[]>> = {
  frames: ['frame', 'deliver'],
  issues: ['first frame', 'pages', 'deliver'],
};

/** Makes the row one of what is not on the film. */
export function makeAbsent({ facts, typed }: ReadRow, use: SheetUse, published: string): void {
  for (const field of use === 'frames' || use === 'issues' ? OF_THE_FILM[use] : []) {
    facts.delete(field);
    typed.delete(field);
  }
  add(facts, [['published', published]]);
}

/** Holds the row back from delivery: the frame, or each page that the row lists, once its pages are read. */
export function holdBack({ facts }: ReadRow): void {
  add(facts, [['deliver', 'no']]);
}

/** The notes of a row, each column's by itself, those of the library's column of notes first. */
export function notesIn(plans: readonly ColumnPlan[], cells: readonly BookCell[]): readonly string[] {
  return columnsOfNotes(plans).flatMap((column) => {
    const text = cells.find((one) => one.column === column)?.value.trim() ?? '';
    return text === '' ? [] : [text];
  });
}

const knownColumns = new WeakMap<readonly ColumnPlan[], readonly number[]>();

/** The columns that hold notes, in the order in which they are read; the same for each row of a sheet. */
function columnsOfNotes(plans: readonly ColumnPlan[]): readonly number[] {
  const known = knownColumns.get(plans);
  if (known !== undefined) return known;
  const own = ({ fields }: ColumnPlan): boolean => fields.includes('note');
  const columns = plans
    .filter((plan) => plan.note || own(plan))
    .toSorted((a, b) => Number(own(b)) - Number(own(a)))
    .map(({ column }) => column);
  knownColumns.set(plans, columns);
  return columns;
}

/** Columns of ours that say what a frame shows, or that nothing was filmed. */
export const SAY_WHAT: Readonly<Record<'frames' | 'issues', readonly string[]>> = {
  frames: ['kind', 'page', 'page printed', 'published', 'duplicate of', 'retake of', 'date to'],
  issues: ['pages', 'published', 'date to'],
};

/**
 * The notes that alone can say what a row of a film shows: no column says whether it is a page, a target or a blank. Null where a column does, and
 * for an issue of which nothing was filmed.
 */
export function loneNote(
  use: 'frames' | 'issues',
  filled: (field: string) => boolean,
  notes: readonly string[],
): { readonly texts: readonly string[]; readonly numbered: boolean } | null {
  if (notes.length === 0 || SAY_WHAT[use].some(filled)) return null;
  const numbered = filled(use === 'frames' ? 'frame' : 'first frame');
  // A day without a frame is a day that is not on the film.
  return filled('date') && !numbered ? null : { texts: notes, numbered };
}

/** True for a row of a page: one with a label, or with labels in its pages. Blanks and targets between them have none. */
export function isPageRow(plans: readonly ColumnPlan[], text: (column: number) => string | undefined): boolean {
  return plans.some(({ column, fields }) => {
    const own = text(column)?.trim() ?? '';
    return (fields.includes('page') && own !== '') || (fields.includes('pages') && /\d/.test(own));
  });
}
