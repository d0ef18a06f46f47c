import type { WrittenSheet } from '../model/written-sheet.js';
import { readCsv } from './sheet-csv.js';

/** True for names of workbooks, those of other spreadsheet formats too: reading them says what they are. */
export function isWorkbookName(name: string): boolean {
  return /\.(xlsx|xlsm|xltx|xls|xlsb|ods)$/i.test(name);
}

/** Reads the bytes of a sheet by the name of its file: the sheets of a workbook, or the one of a CSV file. Throws UserMistake. */
export async function readSheets(bytes: Buffer, file: string): Promise<readonly WrittenSheet[]> {
  if (!isWorkbookName(file)) return [readCsv(bytes, file)];
  // Most runs read none, and what it takes to read one would be loaded by each.
  const { readXlsx } = await import('./sheet-xlsx.js');
  return readXlsx(bytes, file);
}
