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
import { collationRecord } from './collation-record.js';
import { programVersion } from './program.js';
import { type ResultFile, writeResults } from './results-folder.js';
import { cellTexts, readSheetFile, type SheetWish } from './sheet-file.js';
import { print, tell } from './streams.js';

/** Options of `collation check` as they come from the command line. */
export interface CheckArguments {
  readonly explained?: string;
  readonly format?: readonly string[];
  readonly out?: string;
  readonly replace?: boolean;
  readonly quiet?: boolean;
}

const FORMS = ['text', 'json', 'xlsx'] as const;
type Form = (typeof FORMS)[number];
const FILES: Readonly<Record<Form, string>> = {
  text: 'record-check.txt',
  json: 'record-check.json',
  xlsx: 'record-check.xlsx',
};

/** Checks the record in these files by its own regularity; gives 1 where something is to be mended or explained, else 0. Throws UserMistake. */
export async function collationCheckCommand(paths: readonly string[], options: CheckArguments): Promise<number> {
  const { out, quiet = false } = options;
  const forms = chosenForms(options.format, out !== undefined);
  const { record, side, warnings, inputs } = await collationRecord(paths);
  const { explanations, input } = await explainedBeside(paths, options.explained);
  const check = checkRecord(record, side, {
    tool: { name: 'reeltally', version: programVersion() },
    inputs: [...inputs, ...input],
    explained: explanations,
  });
  if (!quiet) {
    for (const warning of warnings) tell(`reeltally: ${warning}\n`);
    for (const { item } of explanations)
      if (!check.items.some(({ id }) => id === item)) tell(`reeltally: the explained item ${item} is not found any more.\n`);
  }
  if (out === undefined) for (const form of forms) await print(await writtenAs(form, check));
  else {
    const files: ResultFile[] = [];
    for (const form of forms) files.push({ name: FILES[form], content: await writtenAs(form, check) });
    await writeResults(out, files, options.replace ?? false, new Set(Object.values(FILES)));
    if (!quiet) tell(`Written to ${out}: ${files.map(({ name }) => name).join(', ')}.\n`);
  }
  return check.items.some(({ explained }) => explained === null) ? 1 : 0;
}

async function writtenAs(form: Form, check: RecordCheck): Promise<string | Uint8Array> {
  if (form === 'json') return `${JSON.stringify(check, null, 2)}\n`;
  if (form === 'text') return checkText(check);
  // The packages that write workbooks take time to load, so they come in only where they are needed.
  const { writeTables } = await import('../report/xlsx/tables.js');
  return writeTables([checkTable(check)]);
}

function chosenForms(wishes: readonly string[] | undefined, toFolder: boolean): readonly Form[] {
  if (wishes === undefined) return toFolder ? FORMS : ['text'];
  const names = wishes.flatMap((wish) => wish.split(',')).filter((name) => name !== '');
  const unknown = names.find((name) => !FORMS.some((form) => form === name));
  if (unknown !== undefined || names.length === 0)
    throw new UserMistake(`--format: a check is written as ${FORMS.join(', ')}${unknown === undefined ? '' : `, and not as ${unknown}`}.`);
  const chosen = FORMS.filter((form) => names.includes(form));
  if (!toFolder && chosen.includes('xlsx') && process.stdout.isTTY)
    throw new UserMistake('A workbook cannot be shown in a terminal. Give a folder for it with --out, or lead the output into a file.');
  if (!toFolder && chosen.length > 1)
    throw new UserMistake('Only one format can be printed at a time. Give --out with a folder for several.');
  return chosen;
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
