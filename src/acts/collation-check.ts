import { stat } from 'node:fs/promises';
import { basename, dirname, join } from 'node:path';
import { isDay } from '../calendar/civil.js';
import { checkRecord, type Explanation } from '../collation/check.js';
import { checkTable } from '../collation/check-table.js';
import { checkText } from '../collation/check-text.js';
import type { Input } from '../model/findings.js';
import type { RecordCheck } from '../model/record-check.js';
import { UserMistake } from '../read/mistake.js';
import { readingPath } from '../read/record.js';
import { headKey } from '../read/sheet-heads.js';
import { collationRecord } from './inputs/collation-record.js';
import { cellTexts, readSheetFile, type SheetWish } from './inputs/sheet-file.js';
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

const NEEDED = ['item', 'note', 'by', 'on'];
const WISH: SheetWish = {
  what: 'explained items',
  fits: (heads) => NEEDED.every((name) => heads.includes(name)),
  needs: 'item, note, by and on',
  largest: 16 * 1024 * 1024,
};

/** What the library has explained: the file named, or `NAME.explained.csv` beside the record. Throws UserMistake. */
async function explainedBeside(
  paths: readonly string[],
  named: string | undefined,
): Promise<{ readonly explanations: readonly Explanation[]; readonly input: readonly Input[] }> {
  const path = named ?? (await besideRecord(paths));
  if (path === null) return { explanations: [], input: [] };
  const { sheet, sha256 } = await readSheetFile(path, WISH);
  const columns = sheet.headers.map(headKey);
  const lacking = NEEDED.find((name) => !columns.includes(name));
  if (lacking !== undefined) throw new UserMistake(`${path}: there is no column "${lacking}"; explained items need ${NEEDED.join(', ')}.`);
  const text = cellTexts(sheet);
  const explanations = sheet.rows.flatMap(({ row }): readonly Explanation[] => {
    const cell = (name: string): string => text(row, columns.indexOf(name)).trim();
    const explanation = { item: cell('item'), note: cell('note'), by: cell('by'), on: cell('on') };
    // In our own list an item that nobody has explained yet stands with empty cells.
    if (explanation.note === '' && explanation.by === '' && explanation.on === '') return [];
    const empty = NEEDED.find((name) => cell(name) === '');
    if (empty !== undefined)
      throw new UserMistake(
        `${path}, row ${String(row)}: the cell "${empty}" is empty; who says that it is so, why and on which day stand with each item.`,
      );
    if (!isDay(explanation.on))
      throw new UserMistake(`${path}, row ${String(row)}: "${explanation.on.slice(0, 40)}" is no day; write YYYY-MM-DD.`);
    return [explanation];
  });
  return { explanations, input: [{ role: 'explained', name: basename(path), sha256 }] };
}

async function besideRecord(paths: readonly string[]): Promise<string | null> {
  const reading = await readingPath(paths);
  const path = join(dirname(reading), basename(reading).replace(/\.reading\.json$/, '.explained.csv'));
  const found = await stat(path).catch(() => null);
  return found?.isFile() === true ? path : null;
}
