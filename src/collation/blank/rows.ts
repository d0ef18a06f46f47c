import { weekday } from '../../calendar/civil.js';
import { readDate } from '../../calendar/edtf.js';
import { weekdayName } from '../../calendar/weekday-names.js';
import type { TitleEntry } from '../../model/collation-record.js';
import { realDay, WEEKDAY_COLUMN } from '../../normalise/weekday-column.js';
import type { Table } from '../table.js';
import type { BlankWish } from './wish.js';

/** The cells of a row that is to be filled in, by the name of their column; what is left out is empty. */
export type Cells = Readonly<Record<string, string>>;

/** Rows for one expected issue: one in a sheet of issues, one for each usual page in a sheet of frames. */
export function expectedRows({ title, per, pages }: BlankWish, day: string): readonly Cells[] {
  const issue = { title, date: day, edition: '1' };
  if (per === 'issue') return [issue];
  return Array.from({ length: pages[0] ?? 1 }, (_, at) => ({ ...issue, page: String(at + 1), order: String(at + 1) }));
}

/** The rows of a table by column. */
export function rowsOfTable({ heads, rows }: Table): readonly Cells[] {
  return rows.map((cells) => Object.fromEntries(heads.flatMap((head, at) => (cells[at] == null ? [] : [[head, cells[at]]]))));
}

/** True for a row of what lies on the film: it has a frame number, or says what the camera saw. */
export function isOnFilm(row: Cells): boolean {
  return row.frame !== undefined || row.pages !== undefined;
}

/**
 * Rows of an earlier record with those of expected issues that it does not speak of. Rows of the film stay in their order; what is not on the
 * film, or not known yet, stands where its day belongs, under the reel that lies there.
 */
export function mergedRows(earlier: readonly Cells[], added: readonly Cells[]): readonly Cells[] {
  const film = earlier.filter(isOnFilm);
  const others = [...earlier.filter((row) => !isOnFilm(row)), ...added]
    .map((row, at) => ({ row, at }))
    .toSorted((a, b) => compare(a.row.date, b.row.date) || a.at - b.at)
    .map(({ row }) => row);
  const merged: Cells[] = [];
  let next = 0;
  for (const [at, row] of film.entries()) {
    // Blanks and targets have no day; they stay in front of the issue that follows them.
    const ahead = film.slice(at).find(({ date }) => date !== undefined);
    for (let other = others[next]; other !== undefined && belongsBefore(other, ahead); other = others[next]) {
      merged.push(placed(other, row));
      next += 1;
    }
    merged.push(row);
  }
  const last = film.at(-1);
  return [...merged, ...others.slice(next).map((other) => placed(other, last))];
}

/** The page that is missing from an issue stands behind what is there of it. */
function belongsBefore({ date = '' }: Cells, ahead: Cells | undefined): boolean {
  return ahead?.date !== undefined && compare(date, ahead.date) < 0;
}

function placed(row: Cells, beside: Cells | undefined): Cells {
  return row.reel !== undefined || beside?.reel === undefined ? row : { ...row, reel: beside.reel };
}

function compare(a = '', b = ''): number {
  return a < b ? -1 : a > b ? 1 : 0;
}

/** The row with the weekday of its day, by the calendar of its title. */
export function withWeekday(row: Cells, titles: readonly TitleEntry[]): Cells {
  const day = readDate(row.date ?? '').day;
  const real = day === null ? null : realDay(day, row.title, titles);
  return real === null ? row : { ...row, [WEEKDAY_COLUMN]: weekdayName(weekday(real)) };
}
