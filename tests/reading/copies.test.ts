import { describe, expect, it } from 'vitest';
import type { ReadingFile } from '../../src/model/reading.js';
import { NO_READING, questionsOf, settledReading } from '../../src/reading/propose/index.js';
import { gridsOf, recordOfSheets } from '../normalise/written.js';

const HEADS = 'reel | frame | title | date | page';

function delivered(text: string, reading: Omit<ReadingFile, 'format'>): readonly boolean[] {
  const { record } = recordOfSheets({ 'reel-14.csv': text }, reading);
  return (record.reels[0]?.frames ?? []).map(({ deliver }) => deliver !== false);
}

function askedAbout(text: string): readonly string[] {
  const grids = gridsOf('reel-14.csv', text);
  return questionsOf(grids, settledReading(grids, NO_READING)).map(({ about, asks }) => `${about}: ${asks}`);
}

const DUPLICATE = `${HEADS} | duplicate of
  14 | 1 | tv1 | 1899-01-04 | 1 |
  14 | 2 | tv1 | 1899-01-04 | 2 |
  14 | 3 | tv1 | 1899-01-04 | 2 | 2`;

const RETAKE = `${HEADS} | retake of
  14 | 01 | tv1 | 1899-01-04 | 1 |
  14 | 02 | tv1 | 1899-01-04 | 2 |
  | 03 | tv1 | 1899-01-04 | 2 | 2`;

describe('two frames of one page, of which no column says which is delivered', () => {
  it('are asked about, and never delivered without a word', () => {
    expect(askedAbout(DUPLICATE)).toEqual([
      'duplicates: In sheet "reel-14", row 4 a frame repeats frame 2, and nothing says whether it is delivered. Are such frames held back, or delivered beside the others?',
    ]);
    expect(askedAbout(RETAKE)).toEqual([
      expect.stringContaining('retakes: In sheet "reel-14", row 4 a frame was filmed to replace frame 2'),
    ]);
    expect(recordOfSheets({ 'reel-14.csv': DUPLICATE }).warnings.join()).toContain('nothing says which of the two is delivered; both are');
  });

  it('are read by the answer', () => {
    expect(delivered(DUPLICATE, { duplicates: 'held back' })).toEqual([true, true, false]);
    expect(delivered(DUPLICATE, { duplicates: 'delivered' })).toEqual([true, true, true]);
    expect(delivered(RETAKE, { retakes: 'the retake' })).toEqual([true, false, true]);
    expect(delivered(RETAKE, { retakes: 'both' })).toEqual([true, true, true]);
    expect(recordOfSheets({ 'reel-14.csv': RETAKE }, { retakes: 'both' }).warnings.join()).not.toContain('nothing says');
  });

  it('are asked about where a note alone says that one replaces the other', () => {
    const noted = `${HEADS} | note
      14 | 1 | tv1 | 1899-01-04 | 1 |
      14 | 2 | tv1 | 1899-01-04 | 1 | retake`;
    expect(askedAbout(noted).map((question) => question.split(':')[0])).toEqual(['phrases', 'retakes']);
    expect(delivered(noted, { phrases: { retake: 'fact' }, retakes: 'the retake' })).toEqual([false, true]);
  });

  it('are not asked about where a column says what is held back', () => {
    const told = `${HEADS} | duplicate of | deliver
      14 | 1 | tv1 | 1899-01-04 | 1 | |
      14 | 2 | tv1 | 1899-01-04 | 1 | 1 | no
      14 | 3 | tv1 | 1899-01-04 | 1 | 1 |`;
    expect(askedAbout(told)).toEqual([]);
    expect(askedAbout(told.replace('| no', '| yes'))).toEqual([expect.stringContaining('In sheet "reel-14", row 4 a frame repeats')]);
    expect(delivered(told, { duplicates: 'held back' })).toEqual([true, false, true]);
  });
});
