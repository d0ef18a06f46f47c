import { expectedDays } from '../../calendar/patterns.js';
import { weekdayName } from '../../calendar/weekday-names.js';
import type { BlankRecord, BlankSheet } from '../../model/blank-record.js';
import type { CollationRecord, PublicationPattern, TitleEntry } from '../../model/collation-record.js';
import { COMPANIONS } from '../../normalise/companion-sheets.js';
import { inSeries } from '../../normalise/in-series.js';
import { titleId } from '../../normalise/labels.js';
import { recordTables } from '../convert.js';
import { reelTable, titleTable } from '../list-tables.js';
import { type Table, WORKBOOK } from '../table.js';
import { choicesOf, columnsFor, furtherColumns } from './columns.js';
import { calendarDays, earlierDays } from './days.js';
import { guideLines } from './guide.js';
import { type Cells, expectedRows, mergedRows, rowsOfTable, withWeekday } from './rows.js';
import type { BlankWish } from './wish.js';

/** So many columns show which issue a row is of. */
const KEPT: Readonly<Record<BlankWish['per'], number>> = { issue: 2, frame: 3 };

/**
 * A record that is to be filled in: a row for each issue that is expected in the span (or for each usual page of one), beside all that an
 * earlier record holds. Gives sentences instead where the sheet has no place for something of the earlier record.
 */
export function blankRecord(wish: BlankWish): BlankRecord | { readonly refusals: readonly string[] } {
  const { old, per, title, from, to } = wish;
  const form = per === 'issue' ? 'issue-sheet' : 'frame-sheet';
  const before = old === null ? null : recordTables(old, form, WORKBOOK);
  if (before !== null && before.refusals.length > 0) return { refusals: before.refusals };
  const record = withTitle(old, wish);
  const earlier = before?.tables[0] === undefined ? [] : rowsOfTable(before.tables[0]);
  const known = earlierDays(wish);
  const added = expectedDays(wish.patterns, from, to).filter((day) => !known.has(day));
  const rows = mergedRows(
    earlier,
    added.flatMap((day) => expectedRows(wish, day)),
  ).map((row) => withWeekday(row, record.titles));
  const heads = columnsFor(per, rows);
  const pattern = wish.patterns.map(patternInWords);
  const first = blankSheet({ name: per === 'issue' ? 'issues' : 'frames', heads, rows: rows.map((row) => cellsOf(row, heads)) }, wish);
  return {
    title: { id: title, name: titleIn(record, title)?.name ?? null },
    from,
    to,
    per,
    sheets: [{ ...first, kept: KEPT[per] }, blankSheet(titleTable(record), wish), blankSheet(reelTable(record), wish)],
    days: calendarDays(wish, known),
    pattern,
    beside: COMPANIONS,
    guide: guideLines(wish, pattern, heads, furtherColumns(per, heads)),
  };
}

function cellsOf(row: Cells, heads: readonly string[]): readonly (string | null)[] {
  return heads.map((head) => row[head] ?? null);
}

function blankSheet({ name, heads, rows }: Table, { pages }: BlankWish): BlankSheet {
  return { name, heads, rows: rows.map((cells) => cells.map((text) => text ?? '')), kept: 1, choices: choicesOf(heads, pages) };
}

/** The earlier record, or an empty one, in which the title has the patterns that were asked for. */
function withTitle(old: CollationRecord | null, { title, patterns }: BlankWish): CollationRecord {
  const record = old ?? { format: 'reeltally/collation-record/2', titles: [], reels: [] };
  const known = titleIn(record, title);
  const entry: TitleEntry = { ...(known ?? { id: title }), patterns };
  const titles = known === undefined ? [...record.titles, entry] : record.titles.map((one) => (one === known ? entry : one));
  return { ...record, titles };
}

function titleIn({ titles }: CollationRecord, title: string): TitleEntry | undefined {
  return titles.find(({ id }) => titleId(id) === titleId(title));
}

function patternInWords({ from, to, days, omitted }: PublicationPattern): string {
  const names = days.map(weekdayName);
  const list = names.length === 0 ? 'no fixed days' : inSeries(names);
  const span = [from === undefined ? '' : ` from ${from}`, to === undefined ? '' : ` to ${to}`].join('');
  return `${names.length === 7 ? 'every day' : list}${span}${omitted === undefined ? '' : `, not on ${omitted.join(', ')}`}`;
}
