import { weekday } from '../calendar/civil.js';
import { readDate } from '../calendar/edtf.js';
import { printedDayMeans, readCalendar } from '../calendar/julian.js';
import { readWeekday, weekdayName } from '../calendar/weekday-names.js';
import type { TitleEntry } from '../model/collation-record.js';
import type { WrittenSheet } from '../model/written-sheet.js';
import { titleId } from './labels.js';
import { withoutGuard } from './sheet-guard.js';
import { type Complaints, headerKey, quoted } from './sheet-row.js';

/** The weekday that our own sheets write beside the day, for the eye. It is no fact of the record: it only shows a slip in the day. */
export const WEEKDAY_COLUMN = 'weekday of date';

/** Says where the weekday beside a day is not the one of that day: one of the two was changed and the other was not. */
export function checkWeekdays(sheet: WrittenSheet, titles: readonly TitleEntry[], complaints: Complaints): void {
  const place = (name: string): number => sheet.headers.findIndex((head) => headerKey(head) === headerKey(name));
  const [beside, dates, ids] = [place(WEEKDAY_COLUMN), place('date'), place('title')];
  if (beside < 0 || dates < 0) return;
  for (const { row, cells } of sheet.rows) {
    const text = withoutGuard((cells[beside] ?? '').trim());
    const day = readDate(withoutGuard((cells[dates] ?? '').trim())).day;
    const real = day === null ? null : realDay(day, ids < 0 ? undefined : cells[ids], titles);
    if (text === '' || day === null || real === null || readWeekday(text, 'eng') === weekday(real)) continue;
    complaints.remarks.push({
      file: sheet.file,
      sheet: sheet.sheet,
      row,
      column: sheet.headers[beside]?.trim() ?? WEEKDAY_COLUMN,
      held: `${quoted(text)} beside ${day}, a ${weekdayName(weekday(real))},`,
      says: 'does not belong to that day; the day is read, so look whether it is the right one.',
    });
  }
}

/** The Gregorian day of a day as its title writes it; null where the calendar of the title has no such day. */
export function realDay(day: string, title: string | undefined, titles: readonly TitleEntry[]): string | null {
  const key = titleId(title ?? '') ?? (titles.length === 1 ? titleId(titles[0]?.id ?? '') : null);
  const calendar = readCalendar(titles.find(({ id }) => titleId(id) === key)?.calendar ?? '');
  return calendar === null ? null : printedDayMeans(day, calendar);
}
