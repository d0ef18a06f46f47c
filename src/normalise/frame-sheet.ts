import type { AbsentEntry, FrameEntry, FrameKind } from '../model/collation-record.js';
import type { WrittenSheet } from '../model/written-sheet.js';
import { DELIVERED, HELD_BACK } from './delivery-words.js';
import { given, imagePosition, judgement, notedFacts, noteOf, OF_PAPER, publishedOf, type SheetEntry } from './sheet-entry.js';
import {
  type Complaints,
  filledColumns,
  frameNumber,
  framePointer,
  label,
  oneOf,
  type Row,
  realDate,
  rowReader,
  wholeNumber,
  yesNo,
} from './sheet-row.js';
import { WEEKDAY_COLUMN } from './weekday-column.js';

/** Columns of a frame sheet, in the order in which we write them. */
export const FRAME_COLUMNS = [
  'reel',
  'frame',
  'kind',
  'deliver',
  'title',
  'date',
  'combined with',
  'date to',
  'date printed',
  'date printed judged',
  'judged by',
  'weekday printed',
  'title printed',
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
  'position',
  'reduction',
  'condition',
  'published',
  'note',
] as const;

const KINDS = ['page', 'blank', 'target', 'void', 'other'] as const satisfies readonly FrameKind[];

/** Largest numbers of an edition and of a place in an issue, as the format of the record has them. */
const LAST_EDITION = 999;
const LAST_PLACE = 9999;

/** Reads a frame sheet: a row per frame; a row without a frame number is an absent page or issue. */
export function readFrameSheet(sheet: WrittenSheet, complaints: Complaints): readonly SheetEntry[] {
  let reel: string | null = null;
  const rowOf = rowReader(sheet, [...FRAME_COLUMNS, WEEKDAY_COLUMN], complaints);
  // Most sheets leave most columns empty.
  const filled = filledColumns(sheet, FRAME_COLUMNS);
  const facts = FACTS.filter(({ column }) => filled.has(column));
  return sheet.rows.map((written): SheetEntry => {
    const row = rowOf(written);
    // An empty reel cell belongs to the reel above it.
    reel = label(row, 'reel') ?? reel;
    if (row.text('frame') === undefined) return { reel, row: row.row, frame: null, absent: absentOf(row) };
    const number = frameNumber(row, 'frame');
    // The other cells are read in any case, so that all that is wrong with a row is told at once.
    const frame = frameOf(row, number ?? '', facts);
    return { reel, row: row.row, frame: number === undefined ? null : frame, absent: null };
  });
}
/** What one column states of a frame. */
interface Fact {
  readonly column: string;
  readonly add: (entry: Mutable<FrameEntry>, row: Row) => void;
}

type Mutable<T> = { -readonly [P in keyof T]: T[P] };

function fact<K extends keyof FrameEntry>(key: K, column: string, read: (row: Row, column: string) => FrameEntry[K] | undefined): Fact {
  return {
    column,
    add: (entry, row) => {
      const value = read(row, column);
      if (value !== undefined) entry[key] = value;
    },
  };
}

const text = (row: Row, column: string): string | undefined => row.text(column);

/** The columns of a frame in the order in which its entry has them; the note comes last and is no column alone. */
const FACTS: readonly Fact[] = [
  fact('kind', 'kind', (row, column) => oneOf(row, column, KINDS, 'a kind of frame')),
  fact('deliver', 'deliver', (row, column) => yesNo(row, column, DELIVERED, HELD_BACK)),
  fact('title', 'title', label),
  fact('date', 'date', realDate),
  fact('combinedWith', 'combined with', realDate),
  fact('datePrinted', 'date printed', text),
  fact('datePrintedJudged', 'date printed judged', judgement),
  fact('judgedBy', 'judged by', text),
  fact('weekdayPrinted', 'weekday printed', text),
  fact('titlePrinted', 'title printed', text),
  fact('edition', 'edition', (row, column) => wholeNumber(row, column, LAST_EDITION)),
  fact('editionLabel', 'edition label', text),
  fact('volume', 'volume', label),
  fact('issueNumber', 'issue number', label),
  fact('issueNumberIntended', 'issue number intended', label),
  fact('section', 'section', label),
  fact('supplement', 'supplement', (row, column) => yesNo(row, column)),
  fact('page', 'page', label),
  fact('pagePrinted', 'page printed', label),
  fact('order', 'order', (row, column) => wholeNumber(row, column, LAST_PLACE)),
  fact('duplicateOf', 'duplicate of', framePointer),
  fact('retakeOf', 'retake of', framePointer),
  fact('sourceReel', 'source reel', label),
  fact('position', 'position', (row) => imagePosition(row)),
  fact('reduction', 'reduction', label),
  fact('condition', 'condition', listOf),
];

/** `facts` are those of the columns that hold anything. */
function frameOf(row: Row, frame: string, facts: readonly Fact[]): FrameEntry {
  if (row.text('date to') !== undefined)
    row.complain('date to', 'a frame has one date; a span of days belongs to absent issues, which have no frame number.');
  if (row.text('published') !== undefined)
    row.complain('published', 'a frame is on the film; whether it was published is asked of what is absent, which has no frame number.');
  const entry: Mutable<FrameEntry> = { frame };
  for (const { add } of facts) add(entry, row);
  const note = noteOf(row);
  if (note !== undefined) entry.note = note;
  return entry;
}

function listOf(row: Row, field: string): readonly string[] | undefined {
  const words = (row.text(field) ?? '').split(/[,;]/).map((word) => word.trim());
  const filled = words.filter((word) => word !== '');
  return filled.length === 0 ? undefined : filled;
}

/** Cells that say something of a frame, and so nothing of what is not on the film. */
const OF_FRAMES_ONLY = [...OF_PAPER, 'page printed', 'duplicate of', 'retake of', 'source reel', 'position', 'reduction', 'condition'];

function absentOf(row: Row): AbsentEntry | null {
  const date = realDate(row, 'date');
  if (row.text('date') === undefined) {
    row.complain('frame', 'this row has neither a frame number nor a date; give a frame its number, or an absent page or issue its date.');
    return null;
  }
  const stray = OF_FRAMES_ONLY.find((field) => row.text(field) !== undefined);
  const delivered = yesNo(row, 'deliver', DELIVERED, HELD_BACK);
  // A row that says whether it was published is no frame whose number was forgotten.
  const said = row.text('published') !== undefined && delivered !== true;
  if (!said && (stray !== undefined || row.text('deliver') !== undefined)) {
    row.complain(
      'frame',
      `this row has no frame number, so it stands for an absent page or issue, but something stands under "${stray ?? 'deliver'}". Give the frame its number, or say under "published" whether it came out.`,
    );
    return null;
  }
  if (date === undefined) return null;
  return {
    date,
    ...given('title', label(row, 'title')),
    ...given('combinedWith', realDate(row, 'combined with')),
    ...given('dateTo', realDate(row, 'date to')),
    ...given('edition', wholeNumber(row, 'edition', LAST_EDITION)),
    ...given('section', label(row, 'section')),
    ...given('page', label(row, 'page')),
    ...given('order', wholeNumber(row, 'order', LAST_PLACE)),
    ...given('published', publishedOf(row)),
    ...given('note', noteOf(row, notedFacts(row, OF_FRAMES_ONLY))),
  };
}
