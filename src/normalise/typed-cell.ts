import type { BookFacts, TypedCell } from '../model/written-sheet.js';
import { bothDays, FALSE_LEAP_DAY, readDayCell } from './day-cell.js';
import { typedLabel } from './typed-guess.js';

/** Fields that hold a count, or a frame number: what digits a whole number has, such a field may have. */
const COUNTS: ReadonlySet<string> = new Set(['frame', 'first frame', 'order', 'edition', 'duplicate of', 'retake of', 'usual pages']);
/** Number formats that show a whole number as it is. */
const AS_IT_IS: ReadonlySet<string> = new Set(['General', '0', '@']);
const YES_OR_NO: ReadonlySet<string> = new Set(['deliver', 'supplement']);
const FREE: ReadonlySet<string> = new Set(['note', 'notes', 'judged by']);
const DAYS: ReadonlySet<string> = new Set(['date', 'combined with', 'date to', 'from', 'to']);
/** Years between these, typed into a cell for days, become days of 1904 and 1905. */
const FIRST_YEAR = 1600;
const LAST_YEAR = 2100;

const AGAIN = 'Format the column as text and write it again.';

/** What is wrong with a cell of a workbook that is not text where text belongs, with its address, what it holds and what was probably typed; null where it may be taken as it is. */
export function typedCellFault(cell: TypedCell, field: string, book: BookFacts): string | null {
  const { address, value, formula } = cell;
  if (formula !== null) {
    const written = formula === '' ? 'a formula that is written in another cell' : `the formula =${formula.slice(0, 60)}`;
    const result = value === '' ? '' : ` with the result "${value.slice(0, 60)}"`;
    return `the cell ${address} holds ${written}${result}; write the text itself.`;
  }
  if (cell.kind === 'error') return `the cell ${address} holds the error ${value.slice(0, 40)}; write the text itself.`;
  if (cell.kind === 'boolean') {
    if (YES_OR_NO.has(field)) return null;
    return `the cell ${address} holds the truth value ${value} and not text; "${value.toLowerCase()}" was probably typed. ${AGAIN}`;
  }
  if (cell.kind === 'number' && COUNTS.has(field) && AS_IT_IS.has(cell.format) && /^\d{1,9}$/.test(value)) return null;
  if (isFreeText(field)) return null;
  const holds = `the cell ${address} holds ${cell.kind === 'date' ? dayHeld(cell, book) : numberHeld(cell)} and not text`;
  if (DAYS.has(field)) return `${holds}${dayGuess(cell, book)} Look at the paper, write YYYY-MM-DD, and format the column as text.`;
  const guess = typedLabel(cell, book);
  const zeros = /^\d{1,15}$/.test(value) && AS_IT_IS.has(cell.format) ? ' Zeros in front of it would be lost.' : '';
  return `${holds}; ${guess === null ? 'what was typed cannot be told.' : `${guess} was probably typed.${zeros}`} ${AGAIN}`;
}

/** True for a field in which any text will do. */
export function isFreeText(field: string): boolean {
  return FREE.has(field);
}

/** What a cell of a workbook says where any text will do, such as in a note. */
export function typedCellText(cell: TypedCell, book: BookFacts): string {
  if (cell.kind !== 'date') return cell.value;
  const { day, time } = readDayCell(cell, book);
  return day === null || time !== null ? cell.value : day;
}

function numberHeld({ value, format }: TypedCell): string {
  const digits = value.replace(/^-|\..*$/g, '');
  const rounded = digits.length > 15 || /e\+?(1[5-9]|[2-9]\d)/i.test(value);
  const shown = AS_IT_IS.has(format) ? '' : ` in the format ${formatInWords(format)}`;
  return `the number ${value.slice(0, 40)}${shown}${rounded ? ', of which a spreadsheet program keeps no more than 15 digits,' : ''}`;
}

/** A format code without what it only adds to the look: languages, colours and escapes. */
function formatInWords(format: string): string {
  return format
    .slice(0, 200)
    .replace(/\[(?!h|m|s)[^\]]{0,100}\]|\\|;@$/gi, '')
    .slice(0, 40);
}

function dayHeld(cell: TypedCell, book: BookFacts): string {
  const { day, time, serial } = readDayCell(cell, book);
  const how = `in the format ${formatInWords(cell.format)}`;
  if (serial === null) return `the day ${cell.value.slice(0, 40)} as a date`;
  const count = book.date1904 ? `${cell.value} of the count that begins with 1904` : cell.value;
  if (day === null && time !== null) return `a time, stored as the number ${count} ${how},`;
  return day === null ? `a date, stored as the number ${count} ${how},` : `the day ${day}, stored as the number ${count} ${how},`;
}

/** What a cell in a column of days may have been meant for. */
function dayGuess(cell: TypedCell, book: BookFacts): string {
  const serial = Number(cell.value);
  if (cell.kind === 'number') {
    if (Number.isInteger(serial) && serial >= FIRST_YEAR && serial <= LAST_YEAR)
      return `; the year ${cell.value} was probably typed. A year alone is written ${cell.value}-XX-XX.`;
    const { day } = readDayCell(cell, book);
    return day === null || AS_IT_IS.has(cell.format) ? ', by which days may be counted.' : `; ${day} may be meant.`;
  }
  const { day } = readDayCell(cell, book);
  if (Number.isInteger(serial) && serial >= FIRST_YEAR && serial <= LAST_YEAR && !book.date1904)
    return `; it is that day, or the year ${cell.value} was typed into a cell for days.`;
  if (day === null && serial >= 1 && serial < FALSE_LEAP_DAY + 1 && !book.date1904) {
    const [counted, real] = bothDays(serial);
    const program = book.program?.replace(/\/.*$/s, '').slice(0, 40) ?? null;
    const wrote = program === null ? '' : `, and ${program} wrote the workbook`;
    return `; spreadsheet programs do not agree whether that is ${counted} or ${real}${wrote}.`;
  }
  if (day === null) return '.';
  // Two digits of a year are completed to the years from 1930 to 2029.
  const century = Number(day.slice(0, 4)) >= 1930 ? ', unless only two digits of the year were' : '';
  return `; ${day} was probably typed${century}.`;
}
