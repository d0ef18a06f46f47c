import type { AbsentEntry, CollationRecord, FrameEntry } from '../../../src/model/collation-record.js';

/** Columns of a frame sheet: a row per frame, and a row without a frame number per absence. */
const COLUMNS: readonly (readonly [string, (entry: Partial<FrameEntry> & Partial<AbsentEntry>) => string | number | undefined])[] = [
  ['frame', (entry) => entry.frame],
  ['kind', (entry) => entry.kind],
  ['deliver', (entry) => (entry.deliver === undefined ? undefined : entry.deliver ? 'yes' : 'no')],
  ['title', (entry) => entry.title],
  ['date', (entry) => entry.date],
  ['date to', (entry) => entry.dateTo],
  ['date printed', (entry) => entry.datePrinted],
  ['weekday printed', (entry) => entry.weekdayPrinted],
  ['edition', (entry) => entry.edition],
  ['edition label', (entry) => entry.editionLabel],
  ['volume', (entry) => entry.volume],
  ['issue number', (entry) => entry.issueNumber],
  ['issue number intended', (entry) => entry.issueNumberIntended],
  ['section', (entry) => entry.section],
  ['supplement', (entry) => (entry.supplement === true ? 'yes' : undefined)],
  ['page', (entry) => entry.page],
  ['page printed', (entry) => entry.pagePrinted],
  ['order', (entry) => entry.order],
  ['duplicate of', (entry) => entry.duplicateOf],
  ['retake of', (entry) => entry.retakeOf],
  ['source reel', (entry) => entry.sourceReel],
  ['condition', (entry) => entry.condition?.join('; ')],
  ['published', (entry) => entry.published],
  ['note', (entry) => entry.note],
];

/** The record as a frame sheet, all reels in one file: UTF-8, commas, a quoted cell where it must be. */
export function frameSheet(record: CollationRecord): string {
  const rows = record.reels.flatMap((reel) =>
    [...reel.frames, ...(reel.absent ?? [])].map((entry) => [reel.number, ...COLUMNS.map(([, cell]) => cell(entry))]),
  );
  return csv([['reel', ...COLUMNS.map(([name]) => name)], ...rows]);
}

/** Titles of the record, a row each. */
export function titleSheet(record: CollationRecord): string {
  const rows = record.titles.map((title) => {
    const pattern = title.patterns?.[0];
    const days = pattern?.days.join(' ');
    return [
      title.id,
      title.name,
      title.language,
      title.readingDirection,
      days,
      pattern?.omitted?.join(' '),
      pattern?.usualPages?.join(' '),
      pattern?.frequency,
    ];
  });
  return csv([['id', 'name', 'language', 'reading direction', 'days', 'omitted', 'usual pages', 'frequency'], ...rows]);
}

/** Reels of the record, a row each. */
export function reelSheet(record: CollationRecord): string {
  const rows = record.reels.map((reel) => [
    reel.number,
    reel.position,
    reel.filmBase,
    reel.polarity,
    reel.generation,
    reel.reduction,
    reel.notes,
  ]);
  return csv([['number', 'position', 'film base', 'polarity', 'generation', 'reduction', 'notes'], ...rows]);
}

function csv(rows: readonly (readonly (string | number | undefined)[])[]): string {
  const cell = (value: string | number | undefined): string => {
    const text = value === undefined ? '' : String(value);
    return /[",;\r\n]/.test(text) ? `"${text.replaceAll('"', '""')}"` : text;
  };
  return `${rows.map((row) => row.map(cell).join(',')).join('\r\n')}\r\n`;
}
