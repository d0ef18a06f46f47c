import type { BookFacts, SheetProblem, TypedCell, WrittenSheet } from '../model/written-sheet.js';
import { bothDays, FALSE_LEAP_DAY, readDayCell, serialOf } from './day-cell.js';
import { typedLabel } from './typed-guess.js';

/** What is wrong with a cell, or how it was read, without its place. */
export type CellCause = Pick<SheetProblem, 'held' | 'guess' | 'says'>;

/** A cell that is not mere text: the text that it stands for, with a remark where that is not to the letter, or why it cannot be used. */
export type TypedReading =
  | { readonly text: string; readonly remark: CellCause | null }
  | { readonly text: null; readonly fault: CellCause };

/** What the other cells of a column say of one of them. */
export interface ColumnBeside {
  /** Some of its texts have zeros in front, which a number has lost. */
  readonly zeros: boolean;
  /** Some of its texts are of a year before 1900, which spreadsheet programs do not count as days. */
  readonly early: boolean;
  /** Years of the days that it holds, but for those that may be years typed into a cell for days. */
  readonly years: readonly [first: number, last: number] | null;
}

/** Nothing is known of the column. */
export const ALONE: ColumnBeside = { zeros: false, early: false, years: null };

/** Fields that hold a count, or a frame number: what digits a whole number has, such a field may have. */
const COUNTS: ReadonlySet<string> = new Set(['frame', 'first frame', 'order', 'edition', 'duplicate of', 'retake of', 'usual pages']);
/** Number formats that show a whole number as it is. */
const AS_IT_IS: ReadonlySet<string> = new Set(['General', '0', '@']);
const YES_OR_NO: ReadonlySet<string> = new Set(['deliver', 'supplement']);
const FREE: ReadonlySet<string> = new Set(['note', 'notes', 'judged by', 'condition']);
const DAYS: ReadonlySet<string> = new Set(['date', 'combined with', 'date to', 'date printed', 'from', 'to']);
/** Years between these, typed into a cell for days, become days of 1904 and 1905. */
const FIRST_YEAR = 1600;
const LAST_YEAR = 2100;

const AGAIN = 'Format the column as text and write it again.';
const NO_TEXT = 'stands where text belongs';

/** Reads a cell of a workbook in a column of ours. A formula counts as its last result. */
export function readTypedCell(cell: TypedCell, field: string, book: BookFacts, beside: ColumnBeside = ALONE): TypedReading {
  if (cell.formula === null) return readPlain(cell, field, book, beside);
  const result = cell.kind === 'text' ? { text: cell.value.trim(), remark: null } : readPlain(cell, field, book, beside);
  if (result.text === null) return result;
  return { text: result.text, remark: { held: formulaHeld(cell), says: 'is a formula; the result that the workbook shows is read.' } };
}

/** What a cell of a workbook says where any text will do, such as in a note. */
export function typedCellText(cell: TypedCell, book: BookFacts): string {
  if (cell.kind !== 'date') return cell.value;
  const { day, time } = readDayCell(cell, book);
  return day === null || time !== null ? cell.value : day;
}

/** Answers, by a column counted from 0, what its cells say of each other. */
export function columnsBeside(sheet: WrittenSheet, typed: readonly TypedCell[]): (column: number) => ColumnBeside {
  const known = new Map<number, ColumnBeside>();
  const book = sheet.typed?.book ?? { date1904: false, program: null };
  return (column) => {
    const before = known.get(column);
    if (before !== undefined) return before;
    const own = new Map(typed.filter((cell) => cell.column === column).map((cell) => [cell.row, cell]));
    const texts = sheet.rows.flatMap(({ row, cells }) => (own.has(row) ? [] : [(cells[column] ?? '').trim()]));
    const years = [
      ...texts.flatMap((text) => yearOf(/^(\d{4})-\d{2}/.exec(text)?.[1])),
      ...[...own.values()].flatMap((cell) =>
        cell.kind !== 'date' || mayBeYear(cell, book) ? [] : yearOf(readDayCell(cell, book).day?.slice(0, 4)),
      ),
    ];
    const found: ColumnBeside = {
      zeros: texts.some((text) => /^0\d/.test(text)),
      early: texts.some((text) => /(^|\D)1[5-8]\d\d(\D|$)/.test(text)),
      years: years.length === 0 ? null : [Math.min(...years), Math.max(...years)],
    };
    known.set(column, found);
    return found;
  };
}

function yearOf(digits: string | undefined): readonly number[] {
  return digits === undefined ? [] : [Number(digits)];
}

function readPlain(cell: TypedCell, field: string, book: BookFacts, beside: ColumnBeside): TypedReading {
  const { kind, value, format } = cell;
  const refuse = (held: string, says: string, guess?: string | null): TypedReading => ({
    text: null,
    fault: { held, says, ...(guess == null ? {} : { guess }) },
  });
  if (kind === 'error') return refuse(`the error ${value.slice(0, 40)}`, 'stands there; write the text itself.');
  if (kind === 'text' || FREE.has(field)) return { text: typedCellText(cell, book).trim(), remark: null };
  if (kind === 'boolean') {
    if (YES_OR_NO.has(field)) return { text: value, remark: null };
    return refuse(`the truth value ${value}`, `${NO_TEXT}. ${AGAIN}`, `"${value.toLowerCase()}"`);
  }
  if (kind === 'number' && value === '') return { text: '', remark: null };
  if (DAYS.has(field)) return readDayField(cell, field, book, beside);
  if (kind === 'date') return refuse(dayHeld(cell, book), `${NO_TEXT}. ${AGAIN}`, typedLabel(cell, book));
  if (!/^\d{1,15}$/.test(value) || !isWholeFormat(format)) return refuse(numberHeld(cell), `${NO_TEXT}. ${AGAIN}`, typedLabel(cell, book));
  if (COUNTS.has(field) && AS_IT_IS.has(format)) return { text: value, remark: null };
  // In such a format the zeros in front are shown, so they were meant.
  const shown = /^0{2,15}$/.test(format) ? value.padStart(format.length, '0') : value;
  if (beside.zeros && shown === value)
    return refuse(numberHeld(cell), `${NO_TEXT}; others of the column have zeros in front, which a number loses. ${AGAIN}`);
  return { text: shown, remark: { held: `the number ${shown}`, says: `${NO_TEXT}; its digits are read. Zeros in front would be lost.` } };
}

function isWholeFormat(format: string): boolean {
  return AS_IT_IS.has(format) || /^0{2,15}$/.test(format) || format === '#,##0';
}

/** A cell in a column of days. Read is what can mean one day alone: from March 1900 on, by the count of the program that wrote it. */
function readDayField(cell: TypedCell, field: string, book: BookFacts, beside: ColumnBeside): TypedReading {
  const look = 'Look at the paper, write YYYY-MM-DD, and format the column as text.';
  const refuse = (held: string, says: string, guess?: string): TypedReading => ({
    text: null,
    fault: { held, says: `${says} ${look}`, ...(guess === undefined ? {} : { guess }) },
  });
  const serial = Number(cell.value);
  if (cell.kind === 'number') {
    if (Number.isInteger(serial) && serial >= FIRST_YEAR && serial <= LAST_YEAR) {
      if (field === 'date printed') return { text: cell.value, remark: null };
      return refuse(numberHeld(cell), 'is probably a year; a year alone is written as 1888-XX-XX.', `${cell.value}-XX-XX`);
    }
    const { day } = readDayCell(cell, book);
    const guess = day === null || AS_IT_IS.has(cell.format) ? undefined : day;
    return refuse(numberHeld(cell), 'stands where a day belongs; days may be counted by it.', guess);
  }
  const { day, time, serial: counted } = readDayCell(cell, book);
  const held = dayHeld(cell, book);
  if (day === null && counted !== null && counted >= 1 && counted < FALSE_LEAP_DAY + 1 && !book.date1904) {
    const [one, other] = bothDays(counted);
    return refuse(
      held,
      'means two days: spreadsheet programs do not agree how January and February 1900 are counted.',
      `${one} or ${other}`,
    );
  }
  if (day === null || time !== null) return refuse(held, 'is not a day.');
  const year = Number(day.slice(0, 4));
  if (mayBeYear(cell, book) && !fits(year, beside)) {
    const typed = yearTyped(cell, book);
    return refuse(held, 'is probably a year that was typed into a cell for days.', `the year ${String(typed ?? '')}`);
  }
  if (counted !== null && counted < 0 && !/^libreoffice/i.test(book.program ?? ''))
    return refuse(held, 'lies before the days that the program counts which wrote the workbook.', day);
  if (beside.early && year >= 1930)
    return refuse(held, 'stands beside days before 1900; perhaps two digits of the year were typed and a program completed them.', day);
  return {
    text: day,
    remark: { held: `the day ${day}`, says: 'is a day as the spreadsheet program counts days; it is read as that day.' },
  };
}

/** Whether the days of the same column come from about the same time. */
function fits(year: number, { years }: ColumnBeside): boolean {
  return years !== null && year >= years[0] - 2 && year <= years[1] + 2;
}

/** The year that may have been typed where a cell holds a day of 1904 or 1905. */
function yearTyped(cell: TypedCell, book: BookFacts): number | null {
  const { day, serial } = readDayCell(cell, book);
  if (day === null || cell.kind !== 'date') return null;
  // A day that is written out was counted by the program all the same.
  const counted = serial ?? serialOf(day, book);
  return Number.isInteger(counted) && counted >= FIRST_YEAR && counted <= LAST_YEAR ? counted : null;
}

function mayBeYear(cell: TypedCell, book: BookFacts): boolean {
  return yearTyped(cell, book) !== null;
}

function formulaHeld({ formula, value }: TypedCell): string {
  return formula === '' || formula === null
    ? `"${value.slice(0, 40)}"`
    : `=${formula.slice(0, 40)} with the result "${value.slice(0, 40)}"`;
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
  if (serial === null) return `${day === null ? 'the date' : 'the day'} ${cell.value.slice(0, 40)}`;
  const count = book.date1904 ? `${cell.value} of the count that begins with 1904` : cell.value;
  if (day === null && time !== null) return `a time, stored as the number ${count} ${how},`;
  return day === null ? `a date, stored as the number ${count} ${how},` : `the day ${day}, stored as the number ${count} ${how},`;
}
