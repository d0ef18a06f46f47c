import { describe, expect, it } from 'vitest';
import { isDitto } from '../../src/reading/ditto.js';
import { headMeanings } from '../../src/reading/usual-heads.js';
import { recordOfSheets } from '../normalise/written.js';

// What coordinators write: common practice, no source.
describe('heads as people write them', () => {
  it.each([
    ['Frame #', 'frames', 'frame'],
    ['Deliver?', 'frames', 'deliver'],
    ['Day', 'frames', 'date'],
    ['Numéro', 'frames', 'issue number'],
    ['Zustand', 'frames', 'condition'],
    ['État', 'frames', 'condition'],
    ['Anmerkungen', 'issues', 'note'],
    ['Vol./No.', 'issues', 'volume, issue number'],
    ['Reel #', 'issues', 'reel'],
  ] as const)('%s in a sheet of %s is %s', (head, use, field) => {
    expect(headMeanings(head, use)).toMatchObject({ whole: true, fields: expect.arrayContaining([field]) as unknown });
  });
});

describe('a mark for "as above"', () => {
  it.each(['"', '„', '»', 'do.', 'dto.', 'id.', 'idem', 'dgl.', '-"-'])('is %s', (mark) => {
    expect(isDitto(mark)).toBe(true);
  });

  it.each(['12', '-', 'Tide', 'idea'])('is not %s', (text) => {
    expect(isDitto(text)).toBe(false);
  });
});

describe('a word in place of pages', () => {
  it.each(['none', 'wanting', 'keine', '—'])('%s leaves the issue without a page, with a remark', (word) => {
    const { record, problems, warnings } = recordOfSheets({
      'r.csv': `reel | title | date | pages\n7 | tv1 | 1891-04-16 | 1-4\n7 | tv1 | 1891-04-23 | ${word}`,
    });
    expect(problems).toEqual([]);
    expect(record.reels[0]?.frames).toHaveLength(4);
    expect(record.reels[0]?.absent).toEqual([expect.objectContaining({ date: '1891-04-23' })]);
    expect(warnings).toContainEqual(expect.stringContaining(`"${word}" is read as an empty cell`));
  });
});
