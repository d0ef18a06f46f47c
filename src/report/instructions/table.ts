import type { Instructions } from '../../model/instructions.js';
import { cell, sheet as sheetOf } from '../sheet.js';
import type { TextSheet } from '../xlsx/text-sheet.js';
import { sentenceOf } from './html.js';

const HEADS = ['reel', 'frames', 'title', 'date', 'edition', 'what', 'instruction'];
const WIDTHS = [12, 24, 16, 13, 9, 16, 90];

/** The instructions as rows; the first of a reel says what the reel is. */
function rowsOf({ reels }: Instructions): readonly (readonly string[])[] {
  return reels.flatMap(({ number, facts, instructions }) => [
    [number, '', '', '', '', 'reel', facts.map(({ name, text }) => `${name}: ${text}.`.replace(/\.\.$/, '.')).join(' ')],
    ...instructions.map((one) => [
      number,
      one.frames?.replace(/^frames? /, '') ?? '',
      one.title ?? '',
      one.date ?? '',
      one.edition === null ? '' : String(one.edition),
      one.kind,
      sentenceOf(one),
    ]),
  ]);
}

/** The instructions as CSV, a row for each, with the byte order mark for spreadsheet programs. */
export function instructionsCsv(instructions: Instructions): string {
  return sheetOf([HEADS, ...rowsOf(instructions).map((row) => row.map(cell))]);
}

/** The instructions as the sheet of a workbook. */
export function instructionsSheet(instructions: Instructions): TextSheet {
  return { name: 'instructions', heads: HEADS, rows: rowsOf(instructions), widths: WIDTHS };
}
