import { stat } from 'node:fs/promises';
import { basename, dirname, join } from 'node:path';
import { isDay } from '../../calendar/civil.js';
import type { Explanation } from '../../collation/check.js';
import type { Input } from '../../model/findings.js';
import { UserMistake } from '../../read/mistake.js';
import { readingPath } from '../../read/record.js';
import { headKey } from '../../read/sheet-heads.js';
import { cellTexts, readSheetFile, type SheetWish } from './sheet-file.js';

const NEEDED = ['item', 'note', 'by', 'on'];
const WISH: SheetWish = {
  what: 'explained items',
  fits: (heads) => NEEDED.every((name) => heads.includes(name)),
  needs: 'item, note, by and on',
  largest: 16 * 1024 * 1024,
};

/** What the library has explained: the file named, or `NAME.explained.csv` beside the record. Throws UserMistake. */
export async function explainedBeside(
  paths: readonly string[],
  named?: string,
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
      throw new UserMistake(`${path}, row ${String(row)}: "${explanation.on.slice(0, 40)}" is not a day; write YYYY-MM-DD.`);
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
