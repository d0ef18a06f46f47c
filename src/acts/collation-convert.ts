import { readdir } from 'node:fs/promises';
import { basename, dirname } from 'node:path';
import { convertRecord, convertToWorkbook, RECORD_FILES, type RecordForm } from '../collation/convert.js';
import type { NormalisedRecord } from '../normalise/record.js';
import { UserMistake } from '../read/mistake.js';
import { refusal } from './inputs/refusal.js';
import { type ResultFile, refuseExisting, writeResults } from './outputs/results-folder.js';

const OURS: ReadonlySet<string> = new Set(RECORD_FILES);

/** Where a record goes: a folder, or a workbook whose name ends in .xlsx. */
export interface ConvertPlace {
  readonly form: RecordForm;
  readonly out: string;
  readonly replace: boolean;
}

/** Whether the place is one workbook. */
export const isWorkbookPlace = (out: string): boolean => /\.xlsx$/i.test(out);

/** Throws UserMistake where the place may not be written. */
export async function checkConvertPlace({ form, out, replace }: ConvertPlace): Promise<void> {
  if (isWorkbookPlace(out) && form === 'json')
    throw new UserMistake(`A workbook holds sheets: say --to frame-sheet or --to issue-sheet, or give another name than ${out} for JSON.`);
  if (isWorkbookPlace(out)) await refuseExisting(dirname(out), replace, new Set([basename(out)]));
  else await refuseExisting(out, replace, OURS);
}

/** The record as files in this form. Throws UserMistake for what the form cannot hold. */
export function convertedFiles(record: NormalisedRecord['record'], form: RecordForm): readonly ResultFile[] {
  const { files, refusals } = convertRecord(record, form);
  if (refusals.length > 0) throw new UserMistake(refusal(cannotHold(form), refusals));
  return files.map(({ name, text }) => ({ name, content: text }));
}

/** Writes the record into a folder or a workbook, whole or not at all, and gives the names of its files or sheets. Throws UserMistake. */
export async function writeConverted(record: NormalisedRecord['record'], place: ConvertPlace): Promise<readonly string[]> {
  const { form, out, replace } = place;
  if (isWorkbookPlace(out) && form !== 'json') {
    const { sheets, refusals } = convertToWorkbook(record, form);
    if (refusals.length > 0) throw new UserMistake(refusal(cannotHold(form), refusals));
    // The packages that write workbooks take time to load, so they come in only where they are needed.
    const { writeTables } = await import('../report/xlsx/tables.js');
    const name = basename(out);
    await writeResults(dirname(out), [{ name, content: await writeTables(sheets) }], replace, new Set([name]));
    return sheets.map((sheet) => sheet.name);
  }
  const files = convertedFiles(record, form);
  const written = new Set(files.map(({ name }) => name));
  await refuseOtherForms(out, written);
  // Only what is written now may be written over: the record that was read may lie in the same folder.
  await writeResults(out, files, replace, written);
  return [...written];
}

/** The same record in two forms in one folder would be read as one record with every frame twice. */
async function refuseOtherForms(folder: string, written: ReadonlySet<string>): Promise<void> {
  const present = await readdir(folder).catch((): readonly string[] => []);
  const others = present.filter((name) => OURS.has(name) && !written.has(name)).toSorted();
  if (others.length > 0)
    throw new UserMistake(
      `${folder} holds the record in another form (${others.join(', ')}), and a folder is read as one record. Give another folder with --out.`,
    );
}

function cannotHold(form: RecordForm): string {
  return `${form === 'issue-sheet' ? 'An issue sheet' : 'A frame sheet'} cannot hold this record as it is; nothing was written`;
}
