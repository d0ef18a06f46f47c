import type { CollationRecord } from './collation-record.js';

/** A sheet as it is written: text cells with their rows, nothing understood yet. */
export interface WrittenSheet {
  /** File name without its folder, for sentences. */
  readonly file: string;
  /** Name of the sheet, or of the file without its ending. */
  readonly sheet: string;
  readonly headers: readonly string[];
  /** Rows below the header, with the row number that a spreadsheet program shows. Rows without any text are left out. */
  readonly rows: readonly { readonly row: number; readonly cells: readonly string[] }[];
  /** What only the file shows and the text of the cells does not, such as a number in a cell that is formatted as a date. */
  readonly problems: readonly SheetProblem[];
  /** What is worth knowing about the file, in sentences. */
  readonly warnings: readonly string[];
}

/** Everything that was read of a collation record. */
export interface WrittenRecord {
  readonly sheets: readonly WrittenSheet[];
  readonly records: readonly { readonly name: string; readonly record: CollationRecord }[];
  readonly inputs: readonly { readonly role: string; readonly name: string; readonly sha256: string }[];
}

/** What keeps a record from being used: a sentence, and the place that goes in front of it. */
export interface SheetProblem {
  readonly file: string;
  readonly sheet: string;
  readonly row: number | null;
  readonly column: string | null;
  readonly says: string;
}
