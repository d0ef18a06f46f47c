import { basename } from 'node:path';
import type { Reading, SampleQuestion, SavedAnswers, SavedDraw } from '../../model/sample.js';
import type { WrittenSheet } from '../../model/written-sheet.js';
import { readJsonFile } from '../../read/json.js';
import { UserMistake } from '../../read/mistake.js';
import { headKey } from '../../read/sheet-heads.js';
import { cell } from '../../report/sheet.js';
import { questionHead } from '../../report/worksheet/questions.js';
import { questions } from '../../sampling/questions.js';
import { cellTexts, isSheetName, readSheetFile, type SheetWish, unguarded } from './sheet-file.js';

const WISH: SheetWish = {
  what: 'a worksheet',
  fits: (heads) => ['draw', 'number', 'unit'].every((needed) => heads.includes(needed)),
  needs: 'the columns with which it was written',
  largest: 64 * 1024 * 1024,
};
const YES: ReadonlySet<string> = new Set(['yes', 'y']);
const NO: ReadonlySet<string> = new Set(['no', 'n']);

/** A worksheet that was filled in, by one person or by several. */
export interface AnsweredFile {
  readonly name: string;
  readonly sha256: string;
  readonly readings: readonly Reading[];
}

/** Reads a worksheet that was filled in: the file that the page saved, or the sheet. `by` is who looked where it names nobody. Throws UserMistake. */
export async function readAnsweredWorksheet(path: string, draw: SavedDraw, by: string): Promise<AnsweredFile> {
  const name = basename(path);
  if (!isSheetName(path)) {
    const { value, sha256 } = await readJsonFile(path, 'worksheet');
    return { name, sha256, readings: [{ by: value.by.trim() || by, file: name, rows: value.rows }] };
  }
  const { sheet, sha256 } = await readSheetFile(path, WISH);
  const rows = answersOf(sheet, path, draw);
  const readers = [...new Set(rows.map((row) => row.by || by))];
  const readings = readers.map((reader) => ({
    by: reader,
    file: name,
    rows: rows.flatMap(({ by: own, ...row }) => ((own || by) === reader ? [row] : [])),
  }));
  return { name, sha256, readings };
}

/** The answers in the rows of a sheet, with who is named in each; only rows of this draw are held to its questions. */
function answersOf(sheet: WrittenSheet, path: string, draw: SavedDraw): readonly (SavedAnswers & { readonly by: string })[] {
  const columns = sheet.headers.map(headKey);
  const text = cellTexts(sheet);
  const asked = questions[draw.unit];
  const missing = ['draw', 'number', 'unit', ...asked.map(questionHead)].find((name) => !columns.includes(headKey(name)));
  if (missing !== undefined)
    throw new UserMistake(`${path}: there is no column "${missing}"; a worksheet keeps the columns with which it was written.`);
  const names = new Map([...draw.drawn, ...draw.extras].map(({ number, id }) => [number, id] as const));
  return sheet.rows.map(({ row }) => {
    const value = (name: string): string => text(row, columns.indexOf(headKey(name)));
    const where = `${path}, row ${String(row)}`;
    const number = Number(value('number'));
    if (!Number.isSafeInteger(number) || number < 1)
      throw new UserMistake(`${where}, column number: "${value('number')}" is not a number of a unit. Put the number back.`);
    const id = names.get(number);
    return {
      draw: value('draw').toLowerCase(),
      number,
      // a cell holds a name cut and guarded; unchanged it stands for the name itself
      id: id !== undefined && unguarded(cell(id)).trim() === value('unit') ? id : value('unit'),
      answers: asked.map((question) => ({ question, answer: answerIn(value(questionHead(question)), where, question) })),
      note: value('note'),
      by: columns.includes('by') ? value('by') : '',
    };
  });
}

function answerIn(text: string, where: string, question: SampleQuestion): 'yes' | 'no' | null {
  const word = text.toLowerCase();
  if (word === '') return null;
  if (YES.has(word)) return 'yes';
  if (NO.has(word)) return 'no';
  throw new UserMistake(`${where}, column ${questionHead(question)}: "${text}" is not an answer. Write yes or no.`);
}
