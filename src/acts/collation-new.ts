import { basename, dirname } from 'node:path';
import { blankRecord } from '../collation/blank/blank-record.js';
import type { BlankWish } from '../collation/blank/wish.js';
import { csvOf, WORKBOOK } from '../collation/table.js';
import type { BlankRecord } from '../model/blank-record.js';
import type { CollationRecord } from '../model/collation-record.js';
import type { NormalisedRecord } from '../normalise/record.js';
import { UserMistake } from '../read/mistake.js';
import { blankWish, mistakesWithout, type NewRecordWords } from './inputs/blank-wish.js';
import { collationRecord } from './inputs/collation-record.js';
import { refusal } from './inputs/refusal.js';
import { policyDigest } from './outputs/policy-digest.js';
import { type ResultFile, writeResults } from './outputs/results-folder.js';

/** What is said of a sheet that cannot hold what the old record has. */
const CANNOT_HOLD: Readonly<Record<BlankWish['per'], string>> = {
  issue: 'A row for each issue cannot hold the old record as it is; nothing was written. With --per frame there is a place for everything',
  frame: 'The new sheet cannot hold the old record as it is; nothing was written',
};

/** The forms in which a record that is to be filled in can be written. */
export const NEW_FORMS = ['xlsx', 'csv', 'html'] as const;
export type NewForm = (typeof NEW_FORMS)[number];

/** The earlier record. Throws UserMistake with what is wrong in it, and in what was asked for as well, so that both can be mended at once. */
export async function oldRecord(path: string, words: NewRecordWords): Promise<NormalisedRecord> {
  try {
    return await collationRecord([path]);
  } catch (error) {
    if (!(error instanceof UserMistake)) throw error;
    throw new UserMistake([error.message, ...mistakesWithout(words)].join('\n'));
  }
}

/** A record that is to be filled in, and what is worth knowing of it. Throws UserMistake for what was asked wrongly, or for what the sheet has no place for. */
export function newRecord(
  words: NewRecordWords,
  old: CollationRecord | null,
): { readonly blank: BlankRecord; readonly remarks: readonly string[] } {
  const { wish, remarks } = blankWish(words, old);
  const blank = blankRecord(wish);
  if ('refusals' in blank) throw new UserMistake(refusal(CANNOT_HOLD[wish.per], blank.refusals));
  return { blank, remarks };
}

/** Its files: one, or in CSV one for each sheet, of which the first has the name that is given. */
export async function newRecordFiles(blank: BlankRecord, form: NewForm, name: string): Promise<readonly ResultFile[]> {
  if (form === 'csv') {
    const stem = name.replace(/\.[^.]*$/, '');
    return blank.sheets.map((sheet, at) => ({ name: at === 0 ? name : `${stem}-${sheet.name}.csv`, content: csvOf(sheet) }));
  }
  // What writes workbooks and pages takes time to load, so it comes in only where it is needed.
  if (form === 'html') return [{ name, content: (await import('../report/blank/html.js')).blankHtml(blank, policyDigest) }];
  const { blankXlsx } = await import('../report/blank/xlsx.js');
  const sheets = blank.sheets.map((sheet) => ({ ...sheet, rows: sheet.rows.map((cells) => cells.map(WORKBOOK.written)) }));
  return [{ name, content: await blankXlsx({ ...blank, sheets }) }];
}

/** Writes it, whole or not at all, and gives the names of its files. Throws UserMistake, also where one of them is there already. */
export async function writeNewRecord(
  blank: BlankRecord,
  { form, out, replace }: { readonly form: NewForm; readonly out: string; readonly replace: boolean },
): Promise<readonly string[]> {
  const files = await newRecordFiles(blank, form, basename(out));
  const names = files.map(({ name }) => name);
  await writeResults(dirname(out), files, replace, new Set(names));
  return names;
}
