import type { CollationRecord, PublicationPattern, TitleEntry } from '../model/collation-record.js';
import { NO_DAYS, REEL_COLUMNS, TITLE_COLUMNS } from '../normalise/record-titles.js';
import type { Table } from './table.js';

/** The titles of a record: a row for each, and one more for each further pattern of publication. */
export function titleTable(record: CollationRecord): Table {
  return { name: 'titles', heads: TITLE_COLUMNS, rows: record.titles.flatMap(titleRows) };
}

function titleRows(title: TitleEntry): (string | null)[][] {
  const facts = [title.name, title.language, title.readingDirection, title.calendar].map((text) => text ?? null);
  const [first, ...others] = title.patterns ?? [];
  return [
    [title.id, ...facts, ...patternCells(first)],
    ...others.map((pattern) => [title.id, ...facts.map(() => null), ...patternCells(pattern)]),
  ];
}

function patternCells(pattern: PublicationPattern | undefined): (string | null)[] {
  if (pattern === undefined) return [null, null, null, null, null, null, null];
  const { from, to, days, omitted, usualPages, frequency, regularity } = pattern;
  return [
    from ?? null,
    to ?? null,
    days.length === 0 ? NO_DAYS : days.join(' '),
    // Semicolons, because spreadsheet programs take `4, 8` and `4 8` for one number.
    omitted?.join('; ') ?? null,
    usualPages?.join('; ') ?? null,
    frequency ?? null,
    regularity ?? null,
  ];
}

/** The reels of a record: a row for each carrier. */
export function reelTable(record: CollationRecord): Table {
  const rows = record.reels.map((reel) =>
    [
      reel.number,
      reel.carrier,
      reel.position,
      reel.filmBase,
      reel.polarity,
      reel.generation,
      reel.reduction,
      reel.boxLabel,
      reel.notes,
    ].map((text) => text ?? null),
  );
  return { name: 'reels', heads: REEL_COLUMNS, rows };
}
