import { describe, expect, it } from 'vitest';
import type { OpenQuestion, ReadingFile } from '../../src/model/reading.js';
import type { WrittenGrid } from '../../src/model/written-grid.js';
import { readWorkbook } from '../../src/read/workbook/index.js';
import { type Asked, NO_READING, questionsAhead, settledReading, withAnswers } from '../../src/reading/propose/index.js';
import { gridsOf } from '../normalise/written.js';
import { AMBIGUOUS } from './ambiguous-sheets.js';
import { NOTED } from './as-coordinators-write.js';
import { WORKBOOK } from './as-people-make-it.js';
import { writtenBook } from './workbook-writers.js';

/** Numbers from 0 to 1 that are the same in every run. */
function numbers(seed: number): () => number {
  let state = seed;
  return () => {
    state = (state * 1_103_515_245 + 12_345) % 2_147_483_648;
    return state / 2_147_483_648;
  };
}

/** Answers that a person may give: what is proposed, another likely one, one of few choices; and what nobody proposes. */
function answersOf(question: Asked): readonly string[] {
  const { about, choices, proposed, likely, sure } = question;
  const few = about === 'columns' || about === 'sheets' ? likely : choices;
  const others = sure === null ? few : [];
  const [first, ...more] = [...(proposed === null ? [] : [proposed]), ...others.filter((one) => one !== proposed)];
  return first === undefined ? [about === 'titles' ? 'sn90000001' : about === 'year' ? '1899' : '14'] : [first, ...more];
}

/** What is still open once everything is answered one time. */
function openAfter(grids: readonly WrittenGrid[], start: ReadingFile, draw: () => number): readonly string[] {
  const open = questionsAhead(grids, start).map((question): OpenQuestion => {
    const answers = answersOf(question);
    return { ...question, answer: answers[Math.floor(draw() * answers.length)] ?? null };
  });
  const { reading } = withAnswers(grids, start, open);
  return questionsAhead(grids, reading).map(
    ({ asks }) => `${asks} after ${open.map(({ of, answer }) => `${of} = ${answer ?? ''}`).join('; ')}`,
  );
}

const TRIALS = Array.from({ length: 12 }, (_, at) => at + 1);

describe('a workbook is read in two steps: all is asked at once, answered once, and nothing is open', () => {
  it.each([...Object.entries(NOTED), ...Object.entries(AMBIGUOUS)])('%s', (file, text) => {
    const grids = gridsOf(file, text);
    for (const start of [NO_READING, settledReading(grids, NO_READING)]) {
      expect(openAfter(grids, start, () => 0)).toEqual([]);
      for (const trial of TRIALS) expect(openAfter(grids, start, numbers(trial))).toEqual([]);
    }
  });

  it('a workbook with all that people put around their data', async () => {
    const { sheets, date1904, program } = readWorkbook(Buffer.from(await writtenBook(WORKBOOK)), 'film.xlsx');
    const grids = sheets.map((sheet): WrittenGrid => ({ file: 'film.xlsx', sheet, book: { date1904, program }, reading: null }));
    for (const trial of TRIALS.slice(0, 5)) expect(openAfter(grids, NO_READING, numbers(trial))).toEqual([]);
  });
});
