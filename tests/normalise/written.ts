import type { WrittenSheet } from '../../src/model/written-sheet.js';
import { problemInWords } from '../../src/normalise/by-cause.js';
import { type NormalisedRecord, normaliseRecord } from '../../src/normalise/record.js';
import { readCsv } from '../../src/read/sheet-csv.js';

/** A sheet as a coordinator types it: cells parted by `|`, spaces around them free, the first row with the column names. */
export function sheetOf(file: string, text: string): WrittenSheet {
  const rows = text
    .split('\n')
    .filter((line) => line.trim() !== '')
    .map((line) =>
      line
        .split('|')
        .map((cell) => `"${cell.trim().replaceAll('"', '""')}"`)
        .join(','),
    );
  return readCsv(Buffer.from(rows.join('\r\n')), file);
}

/** The record of such sheets. */
export function recordOfSheets(sheets: Readonly<Record<string, string>>, columns: Readonly<Record<string, string>> = {}): NormalisedRecord {
  const written = Object.entries(sheets).map(([file, text]) => sheetOf(file, text));
  return normaliseRecord({ sheets: written, records: [], inputs: [] }, columns);
}

/** Problems as `row column: sentence`. */
export function problemsOf({ problems }: Pick<NormalisedRecord, 'problems'>): readonly string[] {
  return problems.map(
    (problem) => `${problem.row === null ? '' : `${String(problem.row)} `}${problem.column ?? ''}: ${problemInWords(problem)}`,
  );
}
