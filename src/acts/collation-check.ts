import { checkRecord } from '../collation/check.js';
import { checkTable } from '../collation/check-table.js';
import { checkText } from '../collation/check-text.js';
import type { RecordCheck } from '../model/record-check.js';
import { collationRecord } from './inputs/collation-record.js';
import { explainedBeside } from './inputs/explained-items.js';
import type { ResultFile } from './outputs/results-folder.js';
import { tool } from './program-version.js';
import type { Surroundings } from './surroundings.js';

/** The forms in which a check can be written. */
export const CHECK_FORMS = ['text', 'json', 'xlsx'] as const;
/** One of these forms. */
export type CheckForm = (typeof CHECK_FORMS)[number];
const FILES: Readonly<Record<CheckForm, string>> = {
  text: 'record-check.txt',
  json: 'record-check.json',
  xlsx: 'record-check.xlsx',
};
/** Every file that a check can put into its folder. */
export const CHECK_FILES: ReadonlySet<string> = new Set(Object.values(FILES));

/** Checks the record in these files by its own regularity; `explained` names the file of what the library has explained, else it is looked for beside the record. Throws UserMistake. */
export async function recordCheck(paths: readonly string[], explained: string | undefined, { say }: Surroundings): Promise<RecordCheck> {
  const { record, side, warnings, inputs } = await collationRecord(paths);
  const { explanations, input } = await explainedBeside(paths, explained);
  const check = checkRecord(record, side, { tool: tool(), inputs: [...inputs, ...input], explained: explanations });
  for (const warning of warnings) say(warning, 'remark');
  for (const { item } of explanations)
    if (!check.items.some(({ id }) => id === item)) say(`the explained item ${item} is not found any more.`, 'remark');
  return check;
}

/** A check in one of its forms. */
export async function checkAs(form: CheckForm, check: RecordCheck): Promise<string | Uint8Array> {
  if (form === 'json') return `${JSON.stringify(check, null, 2)}\n`;
  if (form === 'text') return checkText(check);
  // The packages that write workbooks take time to load, so they come in only where they are needed.
  const { writeTables } = await import('../report/xlsx/tables.js');
  return writeTables([checkTable(check)]);
}

/** A check in each of these forms, for a folder. */
export async function checkFiles(check: RecordCheck, forms: readonly CheckForm[]): Promise<readonly ResultFile[]> {
  const files: ResultFile[] = [];
  for (const form of forms) files.push({ name: FILES[form], content: await checkAs(form, check) });
  return files;
}
