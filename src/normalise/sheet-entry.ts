import type { AbsentEntry, FrameEntry, ReelEntry } from '../model/collation-record.js';
import { oneOf, quoted, type Row } from './sheet-row.js';

/** What one row of a sheet adds to a reel. `reel` is null where neither the row nor one above it names the reel. */
export interface SheetEntry {
  readonly reel: string | null;
  readonly row: number;
  readonly frame: FrameEntry | null;
  readonly absent: AbsentEntry | null;
}

/** Columns of what stands on the paper itself: nothing of it can be told of what is not on the film. */
export const OF_PAPER = [
  'date printed',
  'date printed judged',
  'judged by',
  'weekday printed',
  'title printed',
  'edition label',
  'volume',
  'issue number',
  'issue number intended',
];

/** The note, with the cells of unknown columns behind it. */
export function noteOf(row: Row, more: readonly string[] = []): string | undefined {
  if (more.length === 0 && row.others.length === 0) return row.text('note');
  const parts = [row.text('note'), ...more, ...row.others].filter((part) => part !== undefined);
  return parts.length === 0 ? undefined : parts.join('; ');
}

/** Facts that the record holds of frames alone, of a row that is not on the film: kept as a note, and said. */
export function notedFacts(row: Row, fields: readonly string[]): readonly string[] {
  return fields.flatMap((field) => {
    const text = row.text(field);
    if (text === undefined) return [];
    row.remark(field, 'belongs to frames; of what is not on the film it is kept as a note.', quoted(text));
    return [`${field}: ${text}`];
  });
}

/** Whether something absent came out at all. */
export function publishedOf(row: Row): AbsentEntry['published'] {
  return oneOf(row, 'published', ['yes', 'no', 'unknown'], 'an answer to whether it was published');
}

/** What the library makes of the date that the paper prints. */
export function judgement(row: Row, column: string): FrameEntry['datePrintedJudged'] {
  return oneOf(row, column, ['right', 'wrong', 'unclear'], 'a judgement of the date on the paper');
}

/** What the paper prints of its day and title, and what the library makes of it. */
export function printedFacts(
  row: Row,
): Pick<FrameEntry, 'datePrinted' | 'datePrintedJudged' | 'judgedBy' | 'weekdayPrinted' | 'titlePrinted'> {
  return {
    ...given('datePrinted', row.text('date printed')),
    ...given('datePrintedJudged', judgement(row, 'date printed judged')),
    ...given('judgedBy', row.text('judged by')),
    ...given('weekdayPrinted', row.text('weekday printed')),
    ...given('titlePrinted', row.text('title printed')),
  };
}

/** One of the four image positions, which are also written IA, IB, IIA and IIB. */
export function imagePosition(row: Row): ReelEntry['position'] {
  const position = row.text('position')?.toUpperCase();
  const known = (['1A', '1B', '2A', '2B'] as const).find((one) => one === position?.replace(/^II/, '2').replace(/^I/, '1'));
  if (position !== undefined && known === undefined)
    row.complain('position', 'is not an image position; write 1A, 1B, 2A or 2B.', quoted(position));
  return known;
}

/** A property only where there is a value: absent cells leave no trace in the record. */
export function given<K extends string, const V>(key: K, value: V | undefined): { readonly [P in K]?: V } {
  return value === undefined ? {} : ({ [key]: value } as { readonly [P in K]?: V });
}
