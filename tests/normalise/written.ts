import type { ReadingFile } from '../../src/model/reading.js';
import type { WrittenGrid } from '../../src/model/written-grid.js';
import type { WrittenSheet } from '../../src/model/written-sheet.js';
import { problemInWords } from '../../src/normalise/by-cause.js';
import type { NormalisedRecord } from '../../src/normalise/record.js';
import { readCsv, readCsvBook } from '../../src/read/sheet-csv.js';
import { understoodRecord } from '../../src/reading/index.js';

/** A sheet as a coordinator types it: cells parted by `|`, spaces around them free, the first row with the column names. */
export function sheetOf(file: string, text: string): WrittenSheet {
  return readCsv(bytesOf(text), file);
}

/** The same sheet as a grid of cells, with the reading file of that place. */
export function gridsOf(file: string, text: string, reading: number | null = null): readonly WrittenGrid[] {
  const { sheets, date1904, program } = readCsvBook(bytesOf(text), file);
  return sheets.map((sheet) => ({ file, sheet, book: { date1904, program }, reading }));
}

function bytesOf(text: string): Buffer {
  const rows = text
    .split('\n')
    .filter((line) => line.trim() !== '')
    .map((line) =>
      line
        .split('|')
        .map((cell) => `"${cell.trim().replaceAll('"', '""')}"`)
        .join(','),
    );
  return Buffer.from(rows.join('\r\n'));
}

/** The record of such sheets, read by such a reading file. */
export function recordOfSheets(
  sheets: Readonly<Record<string, string>>,
  reading: Omit<ReadingFile, 'format'> | null = null,
): NormalisedRecord {
  const grids = Object.entries(sheets).flatMap(([file, text]) => gridsOf(file, text, reading === null ? null : 0));
  const readings = reading === null ? [] : [{ name: 'own.reading.json', reading: { format: 'reeltally/reading/1' as const, ...reading } }];
  return understoodRecord({ grids, readings, remarks: [], records: [], inputs: [] });
}

/** Problems as `row column: sentence`. */
export function problemsOf({ problems }: Pick<NormalisedRecord, 'problems'>): readonly string[] {
  return problems.map(
    (problem) => `${problem.row === null ? '' : `${String(problem.row)} `}${problem.column ?? ''}: ${problemInWords(problem)}`,
  );
}
