import { isDay } from '../calendar/civil.js';
import { readDate } from '../calendar/edtf.js';
import type { SheetProblem, WrittenSheet } from '../model/written-sheet.js';
import { readFrameNumber } from './labels.js';

/** Collects what is wrong with sheets, with the place of each. */
export interface Complaints {
  readonly problems: SheetProblem[];
  readonly warnings: string[];
}

/** One row with its cells by field, and ways to read them that complain where a cell cannot be read. */
export interface Row {
  readonly row: number;
  readonly text: (field: string) => string | undefined;
  readonly complain: (column: string, says: string) => void;
  /** Cells of columns that have no field, as `column: text`. */
  readonly others: readonly string[];
}

/** Column names are the same whatever their case, spaces, `_` and `-`. */
export function headerKey(header: string): string {
  return header.toLowerCase().replace(/[\s_-]/g, '');
}

/** The rows of a sheet by field. Columns that mean nothing here are named in one warning and kept as notes. */
export function rowsOf(
  sheet: WrittenSheet,
  fields: readonly string[],
  columns: ReadonlyMap<string, string>,
  complaints: Complaints,
): Row[] {
  const known = new Map(fields.map((field) => [headerKey(field), field]));
  const place = new Map<string, number>();
  const others: { header: string; index: number }[] = [];
  sheet.headers.forEach((header, index) => {
    const key = headerKey(columns.get(headerKey(header)) ?? header);
    const field = known.get(key);
    if (field !== undefined) place.set(field, index);
    else if (header.trim() !== '') others.push({ header: header.trim(), index });
  });
  if (others.length > 0) {
    complaints.warnings.push(
      `${sheet.file}: ${others.length === 1 ? 'the column' : 'the columns'} ${others.map(({ header }) => `"${header}"`).join(', ')} ${others.length === 1 ? 'means' : 'mean'} nothing here and ${others.length === 1 ? 'is' : 'are'} kept as notes.`,
    );
  }
  return sheet.rows.map(({ row, cells }) => ({
    row,
    text: (field) => {
      const index = place.get(field);
      const cell = index === undefined ? '' : (cells[index] ?? '').trim();
      // the mark that keeps a spreadsheet program from reading a cell as a formula is no part of the text
      const bare = /^'[=+\-@\t\r]/.test(cell) ? cell.slice(1) : cell;
      return bare === '' ? undefined : bare;
    },
    complain: (column, says) => complaints.problems.push({ file: sheet.file, sheet: sheet.sheet, row, column, says }),
    others: others.flatMap(({ header, index }) =>
      (cells[index] ?? '').trim() === '' ? [] : [`${header}: ${(cells[index] ?? '').trim()}`],
    ),
  }));
}

/** A yes-or-no cell. */
export function yesNo(
  row: Row,
  field: string,
  yes: readonly string[] = ['yes', 'true', 'y', '1'],
  no: readonly string[] = ['no', 'false', 'n', '0'],
): boolean | undefined {
  const text = row.text(field);
  if (text === undefined) return undefined;
  const word = text.toLowerCase();
  if (yes.includes(word)) return true;
  if (no.includes(word)) return false;
  row.complain(field, `"${text}" is neither ${yes[0] ?? 'yes'} nor ${no[0] ?? 'no'}; write one of them, or leave the cell empty.`);
  return undefined;
}

/** A whole number from 1 on. */
export function wholeNumber(row: Row, field: string): number | undefined {
  const text = row.text(field);
  if (text === undefined) return undefined;
  if (/^\d{1,5}$/.test(text) && Number(text) > 0) return Number(text);
  row.complain(field, `"${text}" is not a whole number from 1 on.`);
  return undefined;
}

/** A frame number such as `12` or `12A`. */
export function frameNumber(row: Row, field: string): string | undefined {
  const text = row.text(field);
  if (text === undefined) return undefined;
  if (readFrameNumber(text) !== null) return text;
  row.complain(field, `"${text}" is no frame number; write digits, and a letter for the half of a split exposure, such as 12 or 12A.`);
  return undefined;
}

/** A real date: a day, or an uncertain one as EDTF writes it. What spreadsheet programs make of dates is refused with what to do. */
export function realDate(row: Row, field: string): string | undefined {
  const text = row.text(field);
  if (text === undefined) return undefined;
  const reading = readDate(text);
  if (reading.day !== null || reading.uncertain) return text;
  if (/^\d{4}-\d{2}-\d{2}$/.test(text) && !isDay(text)) {
    row.complain(field, `${text} is a day that never was; put it under "date printed" if the paper says so, and the real day here.`);
  } else if (/^\d{1,2}[./-]\d{1,2}[./-]\d{2,4}$/.test(text) || /^\d{1,2}[- ][A-Za-z]{3,9}([- ]\d{2,4})?$/.test(text)) {
    row.complain(
      field,
      `"${text}" looks like a date as a spreadsheet program shows it; day and month cannot be told apart for certain. Write it as YYYY-MM-DD, with the column formatted as text.`,
    );
  } else if (/^-?\d{1,5}(\.\d+)?$/.test(text)) {
    row.complain(
      field,
      `"${text}" looks like a spreadsheet program's day count; write the date as YYYY-MM-DD, with the column formatted as text.`,
    );
  } else {
    row.complain(field, `"${text}" is no date; write YYYY-MM-DD, or an uncertain one such as 1899-01-XX or 1899-01-04?.`);
  }
  return undefined;
}

/** A page label. Labels that a spreadsheet program has turned into a date or a power of ten are refused. */
export function pageText(row: Row, field: string): string | undefined {
  const text = row.text(field);
  if (text === undefined) return undefined;
  if (
    /^\d{1,2}-(jan|feb|mar|apr|may|jun|jul|aug|sep|oct|nov|dec)[a-z]*$/i.test(text) ||
    /^(jan|feb|mar|apr|may|jun|jul|aug|sep|oct|nov|dec)[a-z]*-\d{2}$/i.test(text)
  ) {
    row.complain(
      field,
      `"${text}" is probably a label such as 1-2 that a spreadsheet program turned into a date; write the label again, with the column formatted as text.`,
    );
    return undefined;
  }
  if (/^\d(\.\d+)?E\+\d+$/i.test(text)) {
    row.complain(
      field,
      `"${text}" is probably a label such as 3E1 that a spreadsheet program turned into a number; write the label again, with the column formatted as text.`,
    );
    return undefined;
  }
  return text;
}
