import { stringify } from 'csv-stringify/sync';
import type { WrittenSheet } from '../model/written-sheet.js';
import { withGuard } from '../normalise/sheet-guard.js';

/** A sheet to be written: its name, its column heads, and the texts of its cells, null for an empty one. */
export interface Table {
  readonly name: string;
  readonly heads: readonly string[];
  readonly rows: readonly (readonly (string | null)[])[];
}

/** What holds a table: how the text of a cell is written there, and how many characters fit in. */
export interface Carrier {
  readonly written: (text: string | null) => string;
  readonly longest: number;
}

/** CSV: a mark in front of what a spreadsheet program would change. */
export const CSV: Carrier = { written: (text) => (text === null ? '' : withGuard(text)), longest: Number.POSITIVE_INFINITY };

/** A workbook, whose cells stay text: only what looks as if it had such a mark gets one, which is taken off again. Cells end at 32,767 characters (Excel specifications and limits). */
export const WORKBOOK: Carrier = {
  written: (text) => (text === null ? '' : text.startsWith("'") ? withGuard(text) : text),
  longest: 32_767,
};

/** A table as CSV: RFC 4180 with the byte order mark that makes spreadsheet programs read UTF-8, and `'` in front of what they would change. */
export function csvOf(table: Table): string {
  return stringify([[...table.heads], ...table.rows.map((cells) => cells.map(CSV.written))], {
    bom: true,
    record_delimiter: '\r\n',
    // A line feed alone is no end of a record to the writer, but is to readers.
    quoted_match: /[\r\n]/,
  });
}

/** The same table as the reader of sheets would hand it over. */
export function sheetOf(table: Table, { written }: Carrier): WrittenSheet {
  const rows = table.rows.map((cells, at) => ({ row: at + 2, cells: cells.map(written) }));
  return { file: `${table.name}.csv`, sheet: table.name, headers: table.heads, rows, problems: [], warnings: [] };
}

/** Cells that the carrier cannot hold whole, in sentences. */
export function tooLong({ name, heads, rows }: Table, { written, longest }: Carrier): readonly string[] {
  return rows.flatMap((cells, at) =>
    cells.flatMap((text, column) => {
      const { length } = written(text);
      if (length <= longest) return [];
      return [
        `${name}, row ${at + 2}, column ${heads[column] ?? ''}: the text has ${length} characters; a cell of a workbook holds at most ${longest}.`,
      ];
    }),
  );
}
