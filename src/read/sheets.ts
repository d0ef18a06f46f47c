import type { Workbook } from '../model/written-grid.js';
import type { WrittenSheet } from '../model/written-sheet.js';
import { readCsv, readCsvBook } from './sheet-csv.js';

/** True for names of workbooks, those of other spreadsheet formats too: reading them says what they are. */
export function isWorkbookName(name: string): boolean {
  return /\.(xlsx|xlsm|xltx|xls|xlsb|ods)$/i.test(name);
}

/** Reads the bytes of a workbook by the name of its file: XLSX, ODS, or a CSV file as a workbook of one sheet. Throws UserMistake. */
export async function readBook(bytes: Buffer, file: string): Promise<Workbook> {
  if (!isWorkbookName(file)) return readCsvBook(bytes, file);
  // Most runs read none, and what it takes to read one would be loaded by each.
  if (/\.ods$/i.test(file)) return (await import('./ods/index.js')).readOds(bytes, file);
  return (await import('./workbook/index.js')).readWorkbook(bytes, file);
}

/** Reads the bytes of a sheet by the name of its file: the sheets of a workbook, or the one of a CSV file. Heads are the first row that `fits`, else the first. Throws UserMistake. */
export async function readSheets(
  bytes: Buffer,
  file: string,
  fits?: (heads: readonly string[]) => boolean,
): Promise<readonly WrittenSheet[]> {
  if (!isWorkbookName(file)) return [readCsv(bytes, file, fits)];
  const { sheetsOfBook } = await import('./sheet-xlsx.js');
  return sheetsOfBook(await readBook(bytes, file), file, fits);
}
