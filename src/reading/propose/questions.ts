import type { ReadingFile } from '../../model/reading.js';
import type { WrittenGrid } from '../../model/written-grid.js';
import { isRecord } from '../own-sheets.js';
import { waysOf } from '../ways.js';
import { type Asked, withAnswer } from './asked.js';
import { askedOfCells } from './cells.js';
import { askedOfSheets } from './sheets.js';

/** The reading of a workbook about which nothing is said yet. */
export const NO_READING: ReadingFile = { format: 'reeltally/reading/1' };

/**
 * Everything about a workbook that is not of our form and that the reading does not say yet, sheets and heads first. What is asked of cells is
 * asked as if the proposals about sheets and heads held.
 */
export function questionsOf(all: readonly WrittenGrid[], reading: ReadingFile): readonly Asked[] {
  const grids = all.filter(isRecord);
  const ofSheets = askedOfSheets(grids, waysOf(reading));
  const supposed = ofSheets.reduce(
    (next, question) => (question.proposed === null ? next : withAnswer(next, question, question.proposed)),
    reading,
  );
  // Whether frames have numbers is known once it is known what each column is.
  const unsure = ofSheets.some(({ about, sure }) => about === 'columns' && sure === null);
  return [...ofSheets, ...askedOfCells(grids, waysOf(supposed)).filter(({ about }) => !unsure || about !== 'frames')];
}

/** The reading with every answer that is written beside an open question, and with all that is unmistakable. */
export function settledReading(grids: readonly WrittenGrid[], reading: ReadingFile): ReadingFile {
  let next = reading;
  // What a sheet holds is known once its heads are, so each round may bring new questions.
  for (let round = 0; round < 10; round += 1) {
    const sure = questionsOf(grids, next).filter((question) => question.sure !== null);
    if (sure.length === 0) break;
    for (const question of sure) next = withAnswer(next, question, question.sure ?? '');
  }
  return next;
}
