import { stringify } from 'csv-stringify/sync';
import type { WrittenSheet } from '../model/written-sheet.js';
import { withGuard } from '../normalise/sheet-guard.js';

/** A sheet to be written: its name, its column heads, and the texts of its cells, null for an empty one. */
export interface Table {
  readonly name: string;
  readonly heads: readonly string[];
  readonly rows: readonly (readonly (string | null)[])[];
}

/** A table as CSV: RFC 4180 with the byte order mark that makes spreadsheet programs read UTF-8, and `'` in front of what they would change. */
export function csvOf(table: Table): string {
  return stringify([[...table.heads], ...guarded(table).map((cells) => [...cells])], {
    bom: true,
    record_delimiter: '\r\n',
    // A line feed alone is no end of a record to the writer, but is to readers.
    quoted_match: /[\r\n]/,
  });
}

/** The same table as the reader of sheets would hand it over. */
export function sheetOf(table: Table): WrittenSheet {
  const rows = guarded(table).map((cells, at) => ({ row: at + 2, cells }));
  return { file: `${table.name}.csv`, sheet: table.name, headers: table.heads, rows, problems: [], warnings: [] };
}

function guarded({ rows }: Table): readonly (readonly string[])[] {
  return rows.map((cells) => cells.map((text) => (text === null ? '' : withGuard(text))));
}
