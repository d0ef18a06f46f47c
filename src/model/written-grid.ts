import type { BookFacts } from './written-sheet.js';

/** A workbook, or a CSV file as a workbook of one sheet, as it is written; nothing in it is understood yet. */
export interface Workbook extends BookFacts {
  /** Work sheets in the order of their tabs. */
  readonly sheets: readonly BookSheet[];
  /** What is worth knowing about the file, in half sentences that follow its name. */
  readonly remarks: readonly string[];
}

/** One work sheet. */
export interface BookSheet {
  readonly name: string;
  readonly hidden: boolean;
  /** Rows that hold anything, in their order. */
  readonly rows: readonly BookRow[];
  /** Columns counted from 0 that are hidden, both ends included. */
  readonly hiddenColumns: readonly { readonly from: number; readonly to: number }[];
  /** Ranges such as `A1:C1` that are merged into one cell. */
  readonly merged: readonly string[];
}

/** One row. */
export interface BookRow {
  /** Its number as a spreadsheet program shows it. */
  readonly row: number;
  readonly hidden: boolean;
  readonly cells: readonly BookCell[];
}

/** One cell that holds something. */
export interface BookCell {
  readonly address: string;
  /** Counted from 0. */
  readonly column: number;
  /** `date` is a number in a format for days or times, or a day that is written out. A formula has the kind of its last result. */
  readonly kind: 'text' | 'number' | 'boolean' | 'error' | 'date';
  /** What is stored, to the letter: `9863`, `0`, `#REF!`. */
  readonly value: string;
  /** Code of its number format, such as `General` or `d-mmm`. */
  readonly format: string;
  /** The formula without `=`; empty for one that is written in another cell; null for none. */
  readonly formula: string | null;
  /** Its colour as six hexadecimal digits, `FFFF00`, or as the workbook names it; null for none. */
  readonly colour: string | null;
  /** The colour of its text in the same way; null for that of the program. */
  readonly ink: string | null;
  /** Whether its text is struck through. */
  readonly struck: boolean;
  /** What is left of its text without the parts that are struck through; left out where no part is. */
  readonly unstruck?: string;
  /** The comments on it, as people write them; null for none. */
  readonly comment: string | null;
}

/** A sheet of a record with its file; the reading file beside it says how it is to be read. */
export interface WrittenGrid {
  /** File name without its folder, for sentences. */
  readonly file: string;
  readonly sheet: BookSheet;
  readonly book: BookFacts;
  /** Place in `readings` of the record; null for a sheet that has none. */
  readonly reading: number | null;
}
