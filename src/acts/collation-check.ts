import { WEEKDAYS } from '../calendar/civil.js';
import { checkRecord } from '../collation/check.js';
import { checkTable } from '../collation/check-table.js';
import { checkText } from '../collation/check-text.js';
import { recordStrips } from '../judge/strip.js';
import type { Side } from '../model/film.js';
import type { Findings, ResultTitle } from '../model/findings.js';
import type { RecordCheck } from '../model/record-check.js';
import { renderRecordCheck } from '../report/html/record-check.js';
import { collationRecord } from './inputs/collation-record.js';
import { explainedBeside } from './inputs/explained-items.js';
import type { ResultFile } from './outputs/results-folder.js';
import { tool } from './program-version.js';
import type { Surroundings } from './surroundings.js';

/** The forms in which a check can be written. */
export const CHECK_FORMS = ['text', 'json', 'xlsx', 'html'] as const;
/** One of these forms. */
export type CheckForm = (typeof CHECK_FORMS)[number];
const FILES: Readonly<Record<CheckForm, string>> = {
  text: 'record-check.txt',
  json: 'record-check.json',
  xlsx: 'record-check.xlsx',
  html: 'record-check.html',
};
/** Every file that a check can put into its folder. */
export const CHECK_FILES: ReadonlySet<string> = new Set(Object.values(FILES));

/** The check of a record, and the record as its film is drawn. */
export interface CheckedRecord {
  readonly check: RecordCheck;
  readonly film: Pick<Findings, 'titles' | 'reels'>;
}

/** Checks the record in these files by its own regularity; `explained` names the file of what the library has explained, else it is looked for beside the record. Throws UserMistake. */
export async function recordCheck(paths: readonly string[], explained: string | undefined, { say }: Surroundings): Promise<CheckedRecord> {
  say('Reading the record', 'progress');
  const { record, side, warnings, inputs } = await collationRecord(paths, { daySlips: true });
  say(`Checking ${side.issues.length.toLocaleString('en')} issues`, 'progress');
  const { explanations, input } = await explainedBeside(paths, explained);
  const check = checkRecord(record, side, { tool: tool(), inputs: [...inputs, ...input], explained: explanations });
  for (const warning of warnings) say(warning, 'remark');
  for (const { item } of explanations)
    if (!check.items.some(({ id }) => id === item)) say(`the explained item ${item} is not found any more.`, 'remark');
  return { check, film: { titles: check.titles.map((title) => shownTitle(title, side)), reels: recordStrips(side) } };
}

/** A title as its calendar is drawn: by the patterns of the record, else by the days that its issues show. */
function shownTitle({ id, name, days, learned }: RecordCheck['titles'][number], side: Side): ResultTitle {
  const given = side.titles.find((title) => title.id === id)?.patterns ?? [];
  return { id, name, patterns: learned ? [{ days: days.flatMap((day) => WEEKDAYS.find((known) => known === day) ?? []) }] : given };
}

/** A check in one of its forms. */
export async function checkAs(form: CheckForm, { check, film }: CheckedRecord): Promise<string | Uint8Array> {
  if (form === 'json') return `${JSON.stringify(check, null, 2)}\n`;
  if (form === 'text') return checkText(check);
  if (form === 'html') return renderRecordCheck(check, film);
  // The packages that write workbooks take time to load, so they come in only where they are needed.
  const { writeTables } = await import('../report/xlsx/tables.js');
  return writeTables([checkTable(check)]);
}

/** A check in each of these forms, for a folder. */
export async function checkFiles(checked: CheckedRecord, forms: readonly CheckForm[]): Promise<readonly ResultFile[]> {
  const files: ResultFile[] = [];
  for (const form of forms) files.push({ name: FILES[form], content: await checkAs(form, checked) });
  return files;
}
