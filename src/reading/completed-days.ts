import type { BookCell } from '../model/written-grid.js';
import type { BookFacts } from '../model/written-sheet.js';
import { readDayCell } from '../normalise/day-cell.js';
import { quoted } from '../normalise/sheet-row.js';
import type { ColumnPlan } from './columns.js';
import { MONTH, YEAR } from './names.js';
import { type Beside, type DateWays, isYearless, readOwnDay, yearWritten } from './own-dates.js';

/** What became of a day that its year or month completes: the day, with what is to be said of it, or what is wrong. Null both where there is nothing to say. */
export interface Completed {
  readonly day: string | null;
  readonly held: string;
  readonly remark: string;
  readonly fault: string | null;
}

/** What completes the day of a row: columns of its own before a line above. */
export function dayBeside(plans: readonly ColumnPlan[], cells: ReadonlyMap<number, Pick<BookCell, 'value'>>, heading: Beside): Beside {
  const text = (field: string): string => {
    const column = plans.find(({ fields }) => fields.includes(field))?.column;
    return column === undefined ? '' : (cells.get(column)?.value.trim() ?? '');
  };
  const [year, month] = [text(YEAR), text(MONTH)];
  return { ...heading, ...(year === '' ? {} : { year }), ...(month === '' ? {} : { month }) };
}

/** A format that shows the day and the month alone: what the year is, a program has made up. */
function showsNoYear(format: string): boolean {
  return /d/i.test(format) && !/[yj]|aa/i.test(format.replace(/\[[^\]]*\]|"[^"]*"/g, ''));
}

/** Completes the day of a cell by what stands beside, or says that the two do not agree. */
export function completedDay(cell: BookCell, beside: Beside, ways: DateWays, book: BookFacts): Completed {
  const nothing: Completed = { day: null, held: '', remark: '', fault: null };
  const text = cell.value.trim();
  const { year } = beside;
  const remark = 'has its year from the column or the line beside or above it.';
  if (cell.kind === 'date') {
    const { day } = readDayCell(cell, book);
    if (day === null || year === undefined || day.startsWith(`${year}-`)) return nothing;
    if (showsNoYear(cell.format))
      return { ...nothing, day: `${year}${day.slice(4)}`, held: `a day cell that shows ${day.slice(5)}`, remark };
    return { ...nothing, held: `the day ${day} beside the year ${year}`, fault: OTHER_YEAR };
  }
  if (cell.formula !== null || (cell.kind !== 'text' && cell.kind !== 'number')) return nothing;
  if (isYearless(text)) {
    const day = readOwnDay(text, ways, beside);
    return day === null || (year === undefined && ways.year === null) ? nothing : { ...nothing, day, held: quoted(text), remark };
  }
  if (year === undefined || !/^\d{4}$/.test(year)) return nothing;
  const own = cell.kind === 'text' ? yearWritten(text, ways) : null;
  if (own === null || own === year) return nothing;
  return { ...nothing, held: `${quoted(text)} beside the year ${year}`, fault: OTHER_YEAR };
}

const OTHER_YEAR = 'is of another year; correct one of the two.';
