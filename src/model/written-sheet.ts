import type { CollationRecord } from './collation-record.js';
import type { ReadingFile } from './reading.js';
import type { WrittenGrid } from './written-grid.js';

/** A sheet as it is written: text cells with their rows, nothing understood yet. */
export interface WrittenSheet {
  /** File name without its folder, for sentences. */
  readonly file: string;
  /** Name of the sheet, or of the file without its ending. */
  readonly sheet: string;
  readonly headers: readonly string[];
  /** Our name of each column as a reading file has it, null for one that means nothing; left out where the heads speak for themselves. */
  readonly means?: readonly (string | null)[];
  /** What the sheet holds, where a reading file says so. */
  readonly use?: 'frames' | 'issues' | 'titles' | 'reels';
  /** The row in which the heads stand; 1 where nothing is said. */
  readonly headRow?: number;
  /** Rows below the header, with the row number that a spreadsheet program shows. Rows without any text are left out. `copied` are places of cells that stand in a row above and hold here too; `made` are those of texts in a row that was made from another one of the same number, whose cells are not its own. */
  readonly rows: readonly {
    readonly row: number;
    readonly cells: readonly string[];
    readonly copied?: readonly number[];
    readonly made?: readonly number[];
  }[];
  /** What only the file shows and the text of the cells does not, such as a part of it that is damaged. */
  readonly problems: readonly SheetProblem[];
  /** Sheets of a workbook only: ranges such as `A2:A5` that are merged into one cell; left out where there are none. */
  readonly merged?: readonly string[];
  /** What is worth knowing about the file, in sentences. */
  readonly warnings: readonly string[];
  /** Sheets of a workbook only: the cells below the header that do not hold mere text, and what the workbook says of its numbers. */
  readonly typed?: { readonly cells: readonly TypedCell[]; readonly book: BookFacts };
}

/** A cell that holds a number, a day, a truth value, an error or a formula. In `rows` its text is what is stored. */
export interface TypedCell {
  readonly row: number;
  /** Counted from 0, as in `headers`. */
  readonly column: number;
  /** Such as `C12`. */
  readonly address: string;
  /** A formula has the kind of its last result. */
  readonly kind: 'text' | 'number' | 'boolean' | 'error' | 'date';
  /** What is stored: `9863`, `TRUE`, `#REF!`. */
  readonly value: string;
  /** Code of its number format. */
  readonly format: string;
  readonly formula: string | null;
}

/** What a workbook says of itself. */
export interface BookFacts {
  /** Days are counted from 1904-01-01 and not from the end of 1899. */
  readonly date1904: boolean;
  /** The program that wrote it, as it names itself. */
  readonly program: string | null;
}

/** A collation record whose sheets have their heads and the meaning of their columns. */
export interface HeadedRecord {
  /** The calendar of the titles of which the record says nothing else, as a reading file has it; left out where none does. */
  readonly calendar?: string;
  readonly sheets: readonly WrittenSheet[];
  readonly records: readonly { readonly name: string; readonly record: CollationRecord }[];
}

/** Everything that was read of a collation record. */
export interface WrittenRecord {
  readonly grids: readonly WrittenGrid[];
  readonly readings: readonly { readonly name: string; readonly reading: ReadingFile }[];
  /** What is worth knowing about the files, in sentences. */
  readonly remarks: readonly string[];
  readonly records: readonly { readonly name: string; readonly record: CollationRecord }[];
  readonly inputs: readonly { readonly role: string; readonly name: string; readonly sha256: string }[];
}

/** What keeps a record from being used, or was read otherwise than to the letter, with its place. */
export interface SheetProblem {
  readonly file: string;
  readonly sheet: string;
  readonly row: number | null;
  readonly column: string | null;
  /** What stands there, as a sentence begins with it: `"2-Jan"`, `the number 12`. Left out where the sentence is about the whole row. */
  readonly held?: string;
  /** What was probably meant. */
  readonly guess?: string;
  /** The cause, in words that are the same for every cell it touches; they follow `held`. */
  readonly says: string;
  /** The cell stands in a row above, where the same was found: it is one cell, and one problem of several rows. */
  readonly again?: true;
}
