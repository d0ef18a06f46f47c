import { access } from 'node:fs/promises';
import { join } from 'node:path';
import { UserMistake } from '../../read/mistake.js';
import { headKey } from '../../read/sheet-heads.js';
import { type KeptRuling, RULINGS_FILE } from '../../report/rulings-sheet.js';
import { cellTexts, readSheetFile } from './sheet-file.js';

const COLUMNS = ['id', 'frames', 'says', 'decision', 'note', 'by', 'on'] as const;

/** What somebody wrote into the rulings of a folder of results, so that writing the folder again loses none of it. Throws UserMistake where the file is there and cannot be read. */
export async function keptRulings(folder: string): Promise<readonly KeptRuling[]> {
  const path = join(folder, RULINGS_FILE);
  try {
    await access(path);
  } catch {
    return [];
  }
  const { sheet } = await readSheetFile(path, {
    what: "the library's rulings",
    fits: (heads) => heads.includes('id') && heads.includes('decision'),
    needs: 'id and decision',
    largest: 64 * 1024 * 1024,
  }).catch((error: unknown) => {
    if (error instanceof UserMistake)
      throw new UserMistake(
        `${error.message}\nThe rulings in it would be lost by writing the results again. Mend the file or move it away.`,
      );
    throw error;
  });
  const columns = sheet.headers.map(headKey);
  const cell = cellTexts(sheet);
  return sheet.rows.flatMap(({ row }): readonly KeptRuling[] => {
    const [id, frames, says, decision, note, by, on] = COLUMNS.map((column) => cell(row, columns.indexOf(column)));
    const filled = [decision, note, by, on].some((text) => text !== '');
    return filled
      ? [{ id: id ?? '', frames: frames ?? '', says: says ?? '', decision: decision ?? '', note: note ?? '', by: by ?? '', on: on ?? '' }]
      : [];
  });
}
