import { readdir } from 'node:fs/promises';
import { basename, dirname } from 'node:path';
import { convertRecord, convertToWorkbook, RECORD_FILES, RECORD_FORMS, type RecordForm } from '../collation/convert.js';
import { totalsInWords } from '../collation/totals.js';
import { UserMistake } from '../read/mistake.js';
import { collationRecord } from './collation-record.js';
import { refuseExisting, writeResults } from './results-folder.js';
import { print, tell } from './streams.js';

/** Options of `collation convert` as they come from the command line. */
export interface ConvertArguments {
  readonly to?: string;
  readonly out?: string;
  readonly replace?: true;
  readonly quiet?: true;
}

/** So many things that a form cannot hold are told at once. */
const TOLD = 20;
const OURS: ReadonlySet<string> = new Set(RECORD_FILES);

/** Writes the collation record in these files in another form; gives 0 when that was done. Throws UserMistake. */
export async function convertCommand(paths: readonly string[], options: ConvertArguments): Promise<number> {
  const form = chosenForm(options.to);
  const { out, replace = false } = options;
  if (out === undefined && form !== 'json')
    throw new UserMistake(
      'A record in sheets is several files, for frames or issues, titles and reels: name a folder for them with --out, or one workbook whose name ends in .xlsx.',
    );
  const workbook = out !== undefined && /\.xlsx$/i.test(out);
  if (workbook && form === 'json')
    throw new UserMistake(`A workbook holds sheets: say --to frame-sheet or --to issue-sheet, or give another name than ${out} for JSON.`);
  if (workbook) await refuseExisting(dirname(out), replace, new Set([basename(out)]));
  else if (out !== undefined) await refuseExisting(out, replace, OURS);
  const { record, side, warnings } = await collationRecord(paths);
  if (options.quiet !== true) {
    for (const warning of warnings) tell(`reeltally: ${warning}\n`);
    tell(`The record: ${totalsInWords(side)}\n`);
  }
  if (workbook && form !== 'json') {
    const { sheets, refusals } = convertToWorkbook(record, form);
    if (refusals.length > 0) throw new UserMistake(refused(form, refusals));
    // The packages that write workbooks take time to load, so they come in only where they are needed.
    const { writeTables } = await import('../report/xlsx/tables.js');
    const name = basename(out);
    await writeResults(dirname(out), [{ name, content: await writeTables(sheets) }], replace, new Set([name]));
    if (options.quiet !== true) tell(`Written to ${out}: the sheets ${sheets.map((sheet) => sheet.name).join(', ')}.\n`);
    return 0;
  }
  const { files, refusals } = convertRecord(record, form);
  if (refusals.length > 0) throw new UserMistake(refused(form, refusals));
  if (out === undefined) {
    for (const { text } of files) await print(text);
    return 0;
  }
  const written = new Set(files.map(({ name }) => name));
  await refuseOtherForms(out, written);
  // Only what is written now may be written over: the record that was read may lie in the same folder.
  await writeResults(
    out,
    files.map(({ name, text }) => ({ name, content: text })),
    replace,
    written,
  );
  if (options.quiet !== true) tell(`Written to ${out}: ${[...written].join(', ')}.\n`);
  return 0;
}

function chosenForm(text: string | undefined): RecordForm {
  const form = RECORD_FORMS.find((one) => one === text);
  if (form !== undefined) return form;
  throw new UserMistake(
    `--to says into which form the record is to be written: ${RECORD_FORMS.join(', ')}${text === undefined ? '' : `; "${text}" is none of them`}.`,
  );
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

function refused(form: RecordForm, refusals: readonly string[]): string {
  const rest = refusals.length - TOLD;
  const name = form === 'issue-sheet' ? 'An issue sheet' : 'A frame sheet';
  return [
    `${name} cannot hold this record as it is; nothing was written:`,
    ...refusals.slice(0, TOLD).map((says) => `  ${says}`),
    ...(rest > 0 ? [`  and ${String(rest)} more.`] : []),
  ].join('\n');
}
