import type { AbsentEntry, FrameEntry, FrameKind } from '../model/collation-record.js';
import type { WrittenSheet } from '../model/written-sheet.js';
import { type Complaints, frameNumber, pageText, type Row, realDate, rowsOf, wholeNumber, yesNo } from './sheet-row.js';

/** Columns of a frame sheet, in the order in which we write them. */
export const FRAME_COLUMNS = [
  'reel',
  'frame',
  'kind',
  'deliver',
  'title',
  'date',
  'date to',
  'date printed',
  'weekday printed',
  'edition',
  'edition label',
  'volume',
  'issue number',
  'issue number intended',
  'section',
  'supplement',
  'page',
  'page printed',
  'order',
  'duplicate of',
  'retake of',
  'source reel',
  'condition',
  'published',
  'note',
] as const;

const KINDS: readonly FrameKind[] = ['page', 'blank', 'target', 'void', 'other'];

/** What one row of a sheet adds to a reel. */
export interface SheetEntry {
  readonly reel: string | null;
  readonly row: number;
  readonly frame: FrameEntry | null;
  readonly absent: AbsentEntry | null;
}

/** Reads a frame sheet: a row per frame; a row without a frame number is an absent page or issue. */
export function readFrameSheet(sheet: WrittenSheet, columns: ReadonlyMap<string, string>, complaints: Complaints): SheetEntry[] {
  return rowsOf(sheet, FRAME_COLUMNS, columns, complaints).map((row): SheetEntry => {
    const reel = row.text('reel') ?? null;
    if (row.text('frame') === undefined) return { reel, row: row.row, frame: null, absent: absentOf(row) };
    const number = frameNumber(row, 'frame');
    return { reel, row: row.row, frame: number === undefined ? null : frameOf(row, number), absent: null };
  });
}

function frameOf(row: Row, frame: string): FrameEntry {
  const kind = row.text('kind')?.toLowerCase();
  const known = KINDS.find((one) => one === kind);
  if (kind !== undefined && known === undefined)
    row.complain('kind', `"${kind}" is no kind of frame; write page, blank, target, void or other, or leave the cell empty for a page.`);
  if (row.text('date to') !== undefined)
    row.complain('date to', 'a frame has one date; a span of days belongs to absent issues, which have no frame number.');
  const condition = row
    .text('condition')
    ?.split(/[,;]/)
    .map((word) => word.trim())
    .filter((word) => word !== '');
  const note = noteOf(row);
  return {
    frame,
    ...given('kind', known),
    ...given('deliver', yesNo(row, 'deliver', ['yes', 'true', 'deliver', 'y', '1'], ['no', 'false', 'suppress', 'n', '0'])),
    ...given('title', row.text('title')),
    ...given('date', realDate(row, 'date')),
    ...given('datePrinted', row.text('date printed')),
    ...given('weekdayPrinted', row.text('weekday printed')),
    ...given('edition', wholeNumber(row, 'edition')),
    ...given('editionLabel', row.text('edition label')),
    ...given('volume', row.text('volume')),
    ...given('issueNumber', row.text('issue number')),
    ...given('issueNumberIntended', row.text('issue number intended')),
    ...given('section', row.text('section')),
    ...given('supplement', yesNo(row, 'supplement')),
    ...given('page', pageText(row, 'page')),
    ...given('pagePrinted', pageText(row, 'page printed')),
    ...given('order', wholeNumber(row, 'order')),
    ...given('duplicateOf', row.text('duplicate of')),
    ...given('retakeOf', row.text('retake of')),
    ...given('sourceReel', row.text('source reel')),
    ...given('condition', condition === undefined || condition.length === 0 ? undefined : condition),
    ...given('note', note),
  };
}

function absentOf(row: Row): AbsentEntry | null {
  const date = realDate(row, 'date');
  if (row.text('date') === undefined) {
    row.complain('frame', 'this row has neither a frame number nor a date; give a frame its number, or an absent issue its date.');
    return null;
  }
  if (date === undefined) return null;
  const published = row.text('published')?.toLowerCase();
  if (published !== undefined && published !== 'yes' && published !== 'no' && published !== 'unknown')
    row.complain('published', `"${published}" is neither yes, no nor unknown.`);
  return {
    date,
    ...given('title', row.text('title')),
    ...given('dateTo', realDate(row, 'date to')),
    ...given('edition', wholeNumber(row, 'edition')),
    ...given('section', row.text('section')),
    ...given('page', pageText(row, 'page')),
    ...given('order', wholeNumber(row, 'order')),
    ...given('published', published === 'yes' || published === 'no' || published === 'unknown' ? published : undefined),
    ...given('note', noteOf(row)),
  };
}

/** The note, with the cells of unknown columns behind it. */
export function noteOf(row: Row): string | undefined {
  const parts = [row.text('note'), ...row.others].filter((part) => part !== undefined);
  return parts.length === 0 ? undefined : parts.join('; ');
}

/** A property only where there is a value: absent cells leave no trace in the record. */
export function given<K extends string, const V>(key: K, value: V | undefined): { readonly [P in K]?: V } {
  return value === undefined ? {} : ({ [key]: value } as { readonly [P in K]?: V });
}
