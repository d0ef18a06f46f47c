import type { AbsentEntry, CollationRecord, FrameEntry } from '../model/collation-record.js';
import { FRAME_COLUMNS } from '../normalise/frame-sheet.js';
import type { Table } from './table.js';

type Entry = Partial<FrameEntry> & Partial<AbsentEntry>;
type Column = Exclude<(typeof FRAME_COLUMNS)[number], 'reel'>;

const CELLS: Readonly<Record<Column, (entry: Entry) => string | undefined>> = {
  frame: (entry) => entry.frame,
  kind: (entry) => entry.kind,
  deliver: (entry) => yesNo(entry.deliver),
  title: (entry) => entry.title,
  date: (entry) => entry.date,
  'combined with': (entry) => entry.combinedWith,
  'date to': (entry) => entry.dateTo,
  'date printed': (entry) => entry.datePrinted,
  'date printed judged': (entry) => entry.datePrintedJudged,
  'judged by': (entry) => entry.judgedBy,
  'weekday printed': (entry) => entry.weekdayPrinted,
  'title printed': (entry) => entry.titlePrinted,
  edition: (entry) => entry.edition?.toString(),
  'edition label': (entry) => entry.editionLabel,
  volume: (entry) => entry.volume,
  'issue number': (entry) => entry.issueNumber,
  'issue number intended': (entry) => entry.issueNumberIntended,
  section: (entry) => entry.section,
  supplement: (entry) => yesNo(entry.supplement),
  page: (entry) => entry.page,
  'page printed': (entry) => entry.pagePrinted,
  order: (entry) => entry.order?.toString(),
  'duplicate of': (entry) => entry.duplicateOf,
  'retake of': (entry) => entry.retakeOf,
  'source reel': (entry) => entry.sourceReel,
  position: (entry) => entry.position,
  reduction: (entry) => entry.reduction,
  condition: (entry) => entry.condition?.join('; '),
  published: (entry) => entry.published,
  note: (entry) => entry.note,
};

/** The record as a frame sheet, all reels in one: a row per frame, and behind the frames of a reel a row per absent page or issue. */
export function frameTable(record: CollationRecord): Table {
  const rows = record.reels.flatMap(({ number, frames, absent }) =>
    [...frames, ...(absent ?? [])].map((entry) =>
      FRAME_COLUMNS.map((column) => (column === 'reel' ? number : (CELLS[column](entry) ?? null))),
    ),
  );
  return { name: 'frames', heads: FRAME_COLUMNS, rows };
}

function yesNo(value: boolean | undefined): string | undefined {
  return value === undefined ? undefined : value ? 'yes' : 'no';
}
