import { createHash } from 'node:crypto';
import { basename } from 'node:path';
import type { SampleQuestion, SavedAnswers, SavedDraw, SavedWorksheet } from '../model/sample.js';
import type { WrittenSheet } from '../model/written-sheet.js';
import { readJsonFile } from '../read/json.js';
import { UserMistake } from '../read/mistake.js';
import { readRegularFile } from '../read/regular-file.js';
import { readCsv } from '../read/sheet-csv.js';
import { cell } from '../report/sheet.js';
import { questionHead } from '../report/worksheet/questions.js';
import { questions } from '../sampling/judge.js';
import { drawCode } from '../sampling/worksheet.js';

const LARGEST = 64 * 1024 * 1024;
const YES: ReadonlySet<string> = new Set(['yes', 'y']);
const NO: ReadonlySet<string> = new Set(['no', 'n']);

/** Reads a worksheet that was filled in: the file that the page saved, or the sheet. Throws UserMistake. */
export async function readAnsweredWorksheet(
  path: string,
  draw: SavedDraw,
  by: string | undefined,
): Promise<{ readonly sheet: SavedWorksheet; readonly sha256: string }> {
  if (!/\.(csv|tsv|txt)$/i.test(path)) {
    const { value, sha256 } = await readJsonFile(path, 'worksheet');
    return { sheet: by === undefined ? value : { ...value, by }, sha256 };
  }
  const bytes = await readRegularFile(path, LARGEST);
  const sheet = answersOf(readCsv(bytes, basename(path)), path, draw, by ?? '');
  return { sheet, sha256: createHash('sha256').update(bytes).digest('hex') };
}

/** The answers in the rows of a sheet that belongs to this draw. */
function answersOf({ headers, rows }: WrittenSheet, path: string, draw: SavedDraw, by: string): SavedWorksheet {
  const columns = headers.map(key);
  const asked = questions[draw.unit];
  const missing = ['draw', 'number', 'unit', ...asked.map(questionHead)].find((name) => !columns.includes(key(name)));
  if (missing !== undefined)
    throw new UserMistake(`${path}: there is no column "${missing}"; a worksheet keeps the columns with which it was written.`);
  const names = new Map([...draw.drawn, ...draw.extras].map(({ number, id }) => [number, id] as const));
  const code = drawCode(draw);
  const answered = rows.map(({ row, cells }): SavedAnswers => {
    const value = (name: string): string => (cells[columns.indexOf(key(name))] ?? '').trim();
    const where = `${path}, row ${String(row)}`;
    if (unguarded(value('draw')).toLowerCase() !== code)
      throw new UserMistake(
        `${where}, column draw: "${value('draw')}" stands here, and this draw is ${code}: the row belongs to another draw. Bring the worksheet that was written with this draw.`,
      );
    const number = Number(value('number'));
    if (!Number.isSafeInteger(number) || number < 1)
      throw new UserMistake(`${where}, column number: "${value('number')}" is no number of a unit. Put the number back.`);
    const id = names.get(number);
    return {
      number,
      // a cell holds a name cut and guarded; unchanged it stands for the name itself
      id: id !== undefined && unguarded(cell(id)).trim() === unguarded(value('unit')) ? id : unguarded(value('unit')),
      answers: asked.map((question) => ({ question, answer: answerIn(value(questionHead(question)), where, question) })),
      note: unguarded(value('note')),
    };
  });
  return { format: 'reeltally/worksheet/1', seed: draw.seed, listSha256: draw.listSha256, by, rows: answered };
}

function answerIn(text: string, where: string, question: SampleQuestion): 'yes' | 'no' | null {
  const word = unguarded(text).toLowerCase();
  if (word === '') return null;
  if (YES.has(word)) return 'yes';
  if (NO.has(word)) return 'no';
  throw new UserMistake(`${where}, column ${questionHead(question)}: "${text}" is no answer. Write yes or no.`);
}

const key = (head: string): string => head.toLowerCase().replace(/[\s_-]/g, '');

/** Takes off the mark that our sheets put before a cell which a spreadsheet would change. */
const unguarded = (text: string): string => (text.startsWith("'") ? text.slice(1) : text);
