import { readDate } from '../calendar/edtf.js';
import type { SheetProblem, WrittenSheet } from '../model/written-sheet.js';
import { inSeries } from './in-series.js';
import { keptInMind } from './kept.js';
import { readFrameNumber } from './labels.js';
import { dateDamage, isImpossibleDay, labelDamage } from './sheet-damage.js';
import { withoutGuard } from './sheet-guard.js';
import { columnsBeside, readTypedCell, typedCellText } from './typed-cell.js';

/** Collects what is wrong with sheets, with the place of each; `remarks` are about what could be read all the same. */
export interface Complaints {
  readonly problems: SheetProblem[];
  readonly remarks: SheetProblem[];
  readonly warnings: string[];
}

/** One row with its cells by field, and a way to complain about one of them. */
export interface Row {
  readonly row: number;
  readonly text: (field: string) => string | undefined;
  /** `says` is the cause, in the same words for every cell; `held` is what stands there, and the sentence begins with it. */
  readonly complain: (column: string, says: string, held?: string, guess?: string) => void;
  /** Says what became of a cell that could be read all the same. */
  readonly remark: (column: string, says: string, held: string) => void;
  /** Cells of columns that have no field, as `column: text`. */
  readonly others: readonly string[];
}

/** Earlier than the first newspaper, and later than any that is on film. */
const FIRST_YEAR = '1600';
const LAST_YEAR = '2100';

/** Column names are the same whatever their case, spaces, `_` and `-`. */
export function headerKey(header: string): string {
  return header.toLowerCase().replace(/[\s_-]+/g, '');
}

/** The columns of a sheet: the place of each field, those that mean nothing here, and those of a field that has a column already. */
function columnsOf(
  sheet: Pick<WrittenSheet, 'headers' | 'means'>,
  fields: readonly string[],
): {
  readonly place: ReadonlyMap<string, number>;
  readonly others: readonly { readonly header: string; readonly index: number }[];
  readonly again: readonly { readonly before: number; readonly header: string }[];
} {
  const known = new Map(fields.map((field) => [headerKey(field), field]));
  const place = new Map<string, number>();
  const others: { readonly header: string; readonly index: number }[] = [];
  const again: { readonly before: number; readonly header: string }[] = [];
  sheet.headers.forEach((header, index) => {
    const means = sheet.means === undefined ? header : (sheet.means[index] ?? null);
    const field = means === null ? undefined : known.get(headerKey(means));
    const before = field === undefined ? undefined : place.get(field);
    if (field === undefined) others.push({ header: header.trim(), index });
    else if (before === undefined) place.set(field, index);
    else again.push({ before, header });
  });
  return { place, others, again };
}

/** The fields whose column holds anything in any row. */
export function filledColumns(sheet: WrittenSheet, fields: readonly string[]): ReadonlySet<string> {
  const { place } = columnsOf(sheet, fields);
  const typed = new Set(sheet.typed?.cells.map(({ column }) => column));
  const filled = [...place].filter(([, index]) => typed.has(index) || sheet.rows.some(({ cells }) => (cells[index] ?? '') !== ''));
  return new Set(filled.map(([field]) => field));
}

/** The rows of a sheet by field. Columns that mean nothing here are named in one warning and kept as notes. */
export function rowsOf(sheet: WrittenSheet, fields: readonly string[], complaints: Complaints): readonly Row[] {
  return sheet.rows.map(rowReader(sheet, fields, complaints));
}

/** Reads the rows of a sheet by field, one after the other; what is to be said of its columns is said at once. */
export function rowReader(
  sheet: WrittenSheet,
  fields: readonly string[],
  complaints: Complaints,
): (written: WrittenSheet['rows'][number]) => Row {
  const { place, others, again: twice } = columnsOf(sheet, fields);
  for (const { before, header } of twice) {
    const says = `the columns "${sheet.headers[before]?.trim() ?? ''}" and "${header.trim()}" mean the same; keep one of them, or rename the other.`;
    complaints.problems.push({ file: sheet.file, sheet: sheet.sheet, row: sheet.headRow ?? 1, column: null, says });
  }
  warnOfOthers(sheet, others, complaints);
  const cell = (cells: readonly string[], index: number): string => {
    const text = (cells[index] ?? '').trim();
    return text.startsWith("'") ? withoutGuard(text).trim() : text;
  };
  const head = (field: string): string => sheet.headers[place.get(field) ?? -1]?.trim() ?? field;
  const typed = typedCells(sheet, new Map([...place].map(([field, index]) => [index, field])), complaints);
  const again = (copied: readonly number[], field: string): { readonly again?: true } =>
    copied.includes(place.get(field) ?? -1) ? { again: true } : {};
  return (written) => {
    const { row, cells, made, copied = NOTHING } = written;
    const other = typed.texts.get(row);
    const textAt = (index: number): string => {
      const own = cell(cells, index);
      // A row that was made from another one has the number of that row, and not its cells.
      if (other === undefined || (made !== undefined && (own === '' || made.includes(index)))) return own;
      return other[index] ?? own;
    };
    return {
      row,
      text: (field) => {
        const index = place.get(field);
        const text = index === undefined ? '' : textAt(index);
        return text === '' ? undefined : text;
      },
      complain: (field, says, held, guess) => {
        // One sentence for a cell is enough: what its text says matters only where it is text.
        if (typed.refused.has(`${row}|${place.get(field) ?? -1}`)) return;
        const which = { ...(held === undefined ? {} : { held }), ...(guess === undefined ? {} : { guess }) };
        complaints.problems.push({
          file: sheet.file,
          sheet: sheet.sheet,
          row,
          column: head(field),
          ...which,
          says,
          ...again(copied, field),
        });
      },
      remark: (field, says, held) =>
        void complaints.remarks.push({
          file: sheet.file,
          sheet: sheet.sheet,
          row,
          column: head(field),
          held,
          says,
          ...again(copied, field),
        }),
      others:
        others.length === 0
          ? NOTHING
          : others.flatMap(({ header, index }) => {
              const text = textAt(index);
              return text === '' ? [] : [header === '' ? text : `${header}: ${text}`];
            }),
    };
  };
}

const NOTHING: readonly never[] = [];

/** Cells of a workbook that are not text: those that can be read all the same with a remark, complaints about the others. */
function typedCells(
  sheet: WrittenSheet,
  fields: ReadonlyMap<number, string>,
  complaints: Complaints,
): { readonly refused: ReadonlySet<string>; readonly texts: ReadonlyMap<number, readonly (string | undefined)[]> } {
  const refused = new Set<string>();
  const texts = new Map<number, (string | undefined)[]>();
  const { cells, book } = sheet.typed ?? { cells: [], book: { date1904: false, program: null } };
  const columns = columnsBeside(sheet, cells);
  if (cells.length === 0) return { refused, texts };
  const copied = new Map(sheet.rows.map((one) => [one.row, one.copied ?? []]));
  const put = (row: number, column: number, text: string): void => {
    const known = texts.get(row) ?? [];
    known[column] = text;
    texts.set(row, known);
  };
  for (const cell of cells) {
    const { row, column } = cell;
    const field = fields.get(column);
    if (field === undefined) {
      put(row, column, typedCellText(cell, book));
      continue;
    }
    const reading = readTypedCell(cell, field, book, columns(column));
    const place = {
      file: sheet.file,
      sheet: sheet.sheet,
      row,
      column: sheet.headers[column]?.trim() ?? null,
      ...(copied.get(row)?.includes(column) === true ? { again: true as const } : {}),
    };
    if (reading.text === null) {
      refused.add(`${row}|${column}`);
      complaints.problems.push({ ...place, ...reading.fault });
    } else {
      put(row, column, reading.text);
      if (reading.remark !== null) complaints.remarks.push({ ...place, ...reading.remark });
    }
  }
  return { refused, texts };
}

/** A text as a sentence shows it. */
export function quoted(text: string): string {
  return `"${text.slice(0, 60)}"`;
}

/** A sheet in a sentence: the file, and the sheet of a workbook. */
export function sheetInWords({ file, sheet }: { readonly file: string; readonly sheet: string }): string {
  return file.startsWith(`${sheet}.`) || file === sheet ? file : `${file}, sheet ${sheet}`;
}

function warnOfOthers(
  sheet: WrittenSheet,
  others: readonly { readonly header: string; readonly index: number }[],
  complaints: Complaints,
): void {
  // Where a reading file was asked, it was said there.
  if (sheet.means !== undefined) return;
  const used = others.filter(({ header, index }) => header !== '' || sheet.rows.some(({ cells }) => (cells[index] ?? '').trim() !== ''));
  const says = keptAsNotes(used.map(({ header, index }) => (header === '' ? `number ${index + 1} (without a name)` : `"${header}"`)));
  if (says !== null) complaints.warnings.push(`${sheetInWords(sheet)}: ${says}`);
}

/** What is said of columns that have no meaning in a record; null where there are none. */
export function keptAsNotes(names: readonly string[]): string | null {
  if (names.length === 0) return null;
  const one = names.length === 1;
  return `the column${one ? '' : 's'} ${names.join(', ')} mean${one ? 's' : ''} nothing here and ${one ? 'is kept as a note' : 'are kept as notes'}.`;
}

const damageOf = keptInMind(labelDamage);

/** Text as it stands on the film or paper; what a spreadsheet program has made of it is refused. */
export function label(row: Row, field: string): string | undefined {
  const text = row.text(field);
  // Most labels are a plain number.
  const damage = text === undefined || /^\d+$/.test(text) ? null : damageOf(text);
  if (text === undefined || damage === null) return text;
  row.complain(field, damage.says, quoted(text), damage.guess);
  return undefined;
}

/** Words for no in every column of yes and no. */
export const NO: readonly string[] = ['no', 'false', 'n', '0'];
const YES: readonly string[] = ['yes', 'true', 'y', '1'];

/** A yes-or-no cell. */
export function yesNo(row: Row, field: string, yes: readonly string[] = [], no: readonly string[] = []): boolean | undefined {
  const text = row.text(field);
  if (text === undefined) return undefined;
  const word = text.toLowerCase();
  if (YES.includes(word) || yes.includes(word)) return true;
  if (NO.includes(word) || no.includes(word)) return false;
  row.complain(field, 'is neither yes nor no; write one of them, or leave the cell empty.', quoted(text));
  return undefined;
}

/** One of a few words, whatever its case. */
export function oneOf<const Word extends string>(row: Row, field: string, words: readonly Word[], means: string): Word | undefined {
  const text = row.text(field);
  if (text === undefined) return undefined;
  const lower = text.toLowerCase();
  const word = words.find((one) => one === text || one.toLowerCase() === lower);
  if (word === undefined) row.complain(field, `is not ${means}; write ${inSeries(words, 'or')}, or leave the cell empty.`, quoted(text));
  return word;
}

/** A whole number from 1 to `largest`. */
export function wholeNumber(row: Row, field: string, largest: number): number | undefined {
  const text = label(row, field);
  if (text === undefined) return undefined;
  if (/^\d{1,5}$/.test(text) && Number(text) > 0 && Number(text) <= largest) return Number(text);
  row.complain(field, `is not a whole number from 1 to ${largest}.`, quoted(text));
  return undefined;
}

/** A frame number such as `12` or `12A`. */
export function frameNumber(row: Row, field: string): string | undefined {
  const text = label(row, field);
  if (text === undefined) return undefined;
  const number = readFrameNumber(text);
  if (number !== null) return number.text.replace(' ', '').toUpperCase();
  row.complain(
    field,
    'is not a frame number; write digits, and a letter for the half of a split exposure, such as 12 or 12A.',
    quoted(text),
  );
  return undefined;
}

/** A frame of the same reel, `415`, or of another, `14:415`. */
export function framePointer(row: Row, field: string): string | undefined {
  const text = label(row, field);
  if (text === undefined) return undefined;
  if (isFramePointer(text)) return text;
  row.complain(field, 'names no frame; write a frame number of the same reel, or reel and frame as 14:415.', quoted(text));
  return undefined;
}

/** True for `415` and `14:415`. */
export function isFramePointer(text: string): boolean {
  const at = text.lastIndexOf(':');
  return readFrameNumber(text.slice(at + 1)) !== null && (at < 0 || text.slice(0, at).trim() !== '');
}

/** A real date: a day, or an uncertain one as EDTF writes it. What spreadsheet programs make of dates is refused with what to do. */
export function realDate(row: Row, field: string): string | undefined {
  const text = row.text(field);
  if (text === undefined) return undefined;
  const fault = dateFault(text, field);
  if (fault === null) return text;
  row.complain(field, fault, quoted(text));
  // The day of an issue is looked at again where the record is checked.
  return field === 'date' && isImpossibleDay(text) ? text : undefined;
}

/** What is wrong with the text of a real date, in a half sentence; null where nothing is. All pages of an issue have the same date. */
export function dateFault(text: string, field: string): string | null {
  return (field === 'date' ? dayFault : otherDayFault)(text);
}

const dayFault = keptInMind((text) => faultOfDay(text, true));
const otherDayFault = keptInMind((text) => faultOfDay(text, false));

/** An impossible day of an issue has a sentence of its own. */
function faultOfDay(text: string, ofIssue: boolean): string | null {
  if (!ofIssue && isImpossibleDay(text)) return 'is a day that never was; write the real one.';
  const reading = readDate(text);
  if (reading.day === null) return reading.uncertain ? null : dateDamage(text);
  const year = reading.day.slice(0, 4);
  if (year >= FIRST_YEAR && year <= LAST_YEAR) return null;
  return `lies outside the years ${FIRST_YEAR} to ${LAST_YEAR}; correct the year.`;
}
