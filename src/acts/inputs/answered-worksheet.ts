import type { SampleQuestion, SavedAnswers, SavedDraw, SavedWorksheet } from '../../model/sample.js';
import type { WrittenSheet } from '../../model/written-sheet.js';
import { readJsonFile } from '../../read/json.js';
import { UserMistake } from '../../read/mistake.js';
import { headKey } from '../../read/sheet-heads.js';
import { cell } from '../../report/sheet.js';
import { questionHead } from '../../report/worksheet/questions.js';
import { questions } from '../../sampling/judge.js';
import { drawCode } from '../../sampling/worksheet.js';
import { cellTexts, isSheetName, readSheetFile, type SheetWish, unguarded } from './sheet-file.js';

const WISH: SheetWish = {
  what: 'a worksheet',
  fits: (heads) => ['draw', 'number', 'unit'].every((needed) => heads.includes(needed)),
  needs: 'the columns with which it was written',
  largest: 64 * 1024 * 1024,
};
const YES: ReadonlySet<string> = new Set(['yes', 'y']);
const NO: ReadonlySet<string> = new Set(['no', 'n']);

/** Reads a worksheet that was filled in: the file that the page saved, or the sheet. Throws UserMistake. */
export async function readAnsweredWorksheet(
  path: string,
  draw: SavedDraw,
  by: string | undefined,
): Promise<{ readonly sheet: SavedWorksheet; readonly sha256: string }> {
  if (!isSheetName(path)) {
    const { value, sha256 } = await readJsonFile(path, 'worksheet');
    return { sheet: by === undefined ? value : { ...value, by }, sha256 };
  }
  const { sheet, sha256 } = await readSheetFile(path, WISH);
  return { sheet: answersOf(sheet, path, draw, by ?? ''), sha256 };
}

/** The answers in the rows of a sheet that belongs to this draw. */
function answersOf(sheet: WrittenSheet, path: string, draw: SavedDraw, by: string): SavedWorksheet {
  const columns = sheet.headers.map(headKey);
  const text = cellTexts(sheet);
  const asked = questions[draw.unit];
  const missing = ['draw', 'number', 'unit', ...asked.map(questionHead)].find((name) => !columns.includes(headKey(name)));
  if (missing !== undefined)
    throw new UserMistake(`${path}: there is no column "${missing}"; a worksheet keeps the columns with which it was written.`);
  const names = new Map([...draw.drawn, ...draw.extras].map(({ number, id }) => [number, id] as const));
  const code = drawCode(draw);
  const answered = sheet.rows.map(({ row }): SavedAnswers => {
    const value = (name: string): string => text(row, columns.indexOf(headKey(name)));
    const where = `${path}, row ${String(row)}`;
    if (value('draw').toLowerCase() !== code)
      throw new UserMistake(
        `${where}, column draw: "${value('draw')}" stands here, and this draw is ${code}: the row belongs to another draw. Bring the worksheet that was written with this draw.`,
      );
    const number = Number(value('number'));
    if (!Number.isSafeInteger(number) || number < 1)
      throw new UserMistake(`${where}, column number: "${value('number')}" is not a number of a unit. Put the number back.`);
    const id = names.get(number);
    return {
      number,
      // a cell holds a name cut and guarded; unchanged it stands for the name itself
      id: id !== undefined && unguarded(cell(id)).trim() === value('unit') ? id : value('unit'),
      answers: asked.map((question) => ({ question, answer: answerIn(value(questionHead(question)), where, question) })),
      note: value('note'),
    };
  });
  return { format: 'reeltally/worksheet/1', seed: draw.seed, listSha256: draw.listSha256, by, rows: answered };
}

function answerIn(text: string, where: string, question: SampleQuestion): 'yes' | 'no' | null {
  const word = text.toLowerCase();
  if (word === '') return null;
  if (YES.has(word)) return 'yes';
  if (NO.has(word)) return 'no';
  throw new UserMistake(`${where}, column ${questionHead(question)}: "${text}" is not an answer. Write yes or no.`);
}
