import { describe, expect, it } from 'vitest';
import type { ReadingFile } from '../../src/model/reading.js';
import type { WrittenGrid } from '../../src/model/written-grid.js';
import { readWorkbook } from '../../src/read/workbook/index.js';
import { understoodRecord } from '../../src/reading/index.js';
import { NO_READING, questionsOf } from '../../src/reading/propose/index.js';
import { gridsOf, problemsOf, recordOfSheets } from '../normalise/written.js';
import type { Sheet } from './workbook.fods.js';
import { writtenBook } from './workbook-writers.js';

type Parts = Omit<ReadingFile, 'format'>;

const HEADS = 'first frame | title | date | pages | note';

/** What the film holds, `s` behind a page of a supplement, and what was said. */
function read(rows: readonly string[], reading: Parts) {
  const { record, problems, warnings } = recordOfSheets({ 'reel-7.csv': [HEADS, ...rows].join('\n') }, reading);
  const film = record.reels.flatMap(({ frames }) =>
    frames.map(({ frame, page, supplement }) => `${frame} ${page ?? ''}${supplement === true ? 's' : ''}`),
  );
  return { film, problems: problemsOf({ problems }), warnings: warnings.join('\n') };
}

function askedAbout(rows: readonly string[], reading: Parts = {}): readonly string[] {
  return questionsOf(gridsOf('reel-7.csv', [HEADS, ...rows].join('\n')), { ...NO_READING, ...reading }).map(
    ({ about, of, proposed }) => `${about} ${of}: ${proposed ?? ''}`,
  );
}

describe('a supplement beside the pages of an issue', () => {
  const FACT: Parts = { phrases: { 'with supplement': 'fact' } };
  const BEHIND = ['1 1', '2 2', '3 1s', '4 2s', '5 1'];

  it.each([
    ['1-2, mit Beilage 2 S.', ''],
    ['1-2 with supplement 2 pp.', ''],
    ['1-2 + 2 pp. supplement', ''],
    ['2 pp., Beilage 2 S.', ''],
    ['1-2 Beilage 2 S.', ''],
    ['1-2 und Beilage', ''],
    ['1-2', 'with 2 pp. supplement'],
    ['1-2', 'mit 2-seitiger Beilage'],
    ['1-2', 'avec supplément de 2 pages; torn'],
  ])('%s %s', (pages, note) => {
    const rows = [`1 | x1 | 1899-01-04 | ${pages} | ${note}`, '5 | x1 | 1899-01-05 | 1 |'];
    expect(askedAbout(rows).filter((one) => one.startsWith('phrases') && !one.includes('torn'))).toEqual([
      expect.stringMatching(/^phrases .*(?:supplement|beilage|supplément).*: fact$/),
    ]);
    const { film, problems, warnings } = read(rows, FACT);
    expect(problems).toEqual([]);
    expect(film).toEqual(BEHIND);
    expect(warnings).toContain('is read as a supplement with the pages 1-2, a row of its own behind the issue.');
  });

  it('has the pages that are named, in the cell or in a note', () => {
    const labelled = ['1 1', '2 2', '3 3s', '4 4s', '5 1'];
    const next = '5 | x1 | 1899-01-05 | 1 |';
    expect(read(['1 | x1 | 1899-01-04 | 1-2, pp. 3-4 supplement |', next], FACT).film).toEqual(labelled);
    expect(read(['1 | x1 | 1899-01-04 | 1-4 | pp. 3-4 are a supplement', next], FACT).film).toEqual(labelled);
    const wrong = read(['1 | x1 | 1899-01-04 | 1-4 | pp. 2-3 supplement', next], FACT);
    expect(wrong.film).toEqual(['1 1', '2 2', '3 3', '4 4', '5 1']);
    expect(wrong.warnings).toContain('names pages of a supplement that are not the last ones of the row; the note stays a note.');
  });

  it('leaves the frames that it takes out of what shows how the pages before it are meant', () => {
    const rows = ['1 | x1 | 1899-01-04 | 4, Beilage 2 S. | p. 4 missing', '6 | x1 | 1899-01-05 | 4 |'];
    const { film, problems } = read(rows, { ...FACT, loneNumbers: 'count', phrases: { ...FACT.phrases, missing: 'fact' } });
    expect(problems).toEqual([]);
    expect(film.slice(0, 6)).toEqual(['1 1', '2 2', '3 3', '4 1s', '5 2s', '6 1']);
  });

  it.each(['3', '4', '99'])('without a number of pages is refused where the next row begins at frame %s', (next) => {
    const { problems } = read(['1 | x1 | 1899-01-04 | 1-3 und Beilage |', `${next} | x1 | 1899-01-05 | 1 |`], FACT);
    expect(problems).toContainEqual(expect.stringContaining('the frames do not show how many pages it has'));
  });

  it('has a number alone in front asked about, as all such numbers are', () => {
    expect(askedAbout(['1 | x1 | 1899-01-04 | 8 + 4 pp. supplement |', '13 | x1 | 1899-01-05 | 1 |'])).toContain('loneNumbers pages: ');
    expect(askedAbout(['1 | x1 | 1899-01-04 | 8 mit Beilage 4 S. |', '13 | x1 | 1899-01-05 | 1 |'])).toContain('loneNumbers pages: ');
  });

  it('is the whole row where no other pages stand there', () => {
    expect(read(['1 | x1 | 1899-01-04 | pp. 1-2 supplement |'], FACT).film).toEqual(['1 1s', '2 2s']);
  });

  it('is no fact where the answer is that it stays a note, or where the frames have no place for it', () => {
    const note: Parts = { phrases: { 'with supplement': 'note' } };
    expect(read(['1 | x1 | 1899-01-04 | 1-2, Beilage 2 S. |'], note).film).toEqual(['1 1', '2 2']);
    expect(read(['1 | x1 | 1899-01-04 | 1-2, pp. 3-4 supplement |'], note).film).toEqual(['1 1', '2 2', '3 3', '4 4']);
    const full = read(['1 | x1 | 1899-01-04 | 1-4 | with 2 pp. supplement', '5 | x1 | 1899-01-05 | 1 |'], FACT);
    expect(full.film).toEqual(['1 1', '2 2', '3 3', '4 4', '5 1']);
    expect(full.warnings).toContain('the frames up to the next row are as many as the pages of the row; the note stays a note.');
  });
});

describe('a row that is made from another one of a workbook', () => {
  const understood = async (rows: Sheet['rows'], phrases: Parts['phrases']) => {
    const { sheets, date1904, program } = readWorkbook(Buffer.from(await writtenBook([{ name: 'reel 7', rows }])), 'film.xlsx');
    const grids = sheets.map((sheet): WrittenGrid => ({ file: 'film.xlsx', sheet, book: { date1904, program }, reading: 0 }));
    const reading: ReadingFile = { ...NO_READING, loneNumbers: 'count', ...(phrases === undefined ? {} : { phrases }) };
    return understoodRecord({ grids, readings: [{ name: 'film.reading.json', reading }], remarks: [], records: [], inputs: [] });
  };

  it('has none of the numbers of that one: neither its first frame nor its pages', async () => {
    const { record, problems } = await understood(
      [
        ['first frame', 'title', 'date', 'pages', 'note'],
        [1, 'x1', '1899-01-04', 2, 'with 2 pp. supplement'],
        [5, 'x1', '1899-01-05', 1, null],
      ],
      { 'with supplement': 'fact' },
    );
    expect(problems).toEqual([]);
    expect(record.reels[0]?.frames.map(({ frame, page, supplement }) => [frame, page, supplement])).toEqual([
      ['1', '1', undefined],
      ['2', '2', undefined],
      ['3', '1', true],
      ['4', '2', true],
      ['5', '1', undefined],
    ]);
  });

  it('has not its frame', async () => {
    const { record, problems } = await understood(
      [
        ['frame', 'title', 'date', 'page', 'note'],
        [1, 'x1', '1899-01-04', 1, null],
        [2, 'x1', '1899-01-04', 2, 'p. 3 missing'],
      ],
      { missing: 'fact' },
    );
    expect(problems).toEqual([]);
    expect(record.reels[0]?.frames).toHaveLength(2);
    expect(record.reels[0]?.absent).toMatchObject([{ page: '3', published: 'yes' }]);
  });
});

describe('two pages that are written as a range', () => {
  it('are on one frame where the frames are as many, which is told', () => {
    const { film, problems, warnings } = read(
      [
        '1 | x1 | 1899-01-04 | 1-2,3-4 |',
        '3 | x1 | 1899-01-05 | 1,2-3,4 |',
        '6 | x1 | 1899-01-06 | A6-A7 |',
        '7 | x1 | 1899-01-07 | 1-2 |',
        '9 | x1 | 1899-01-08 | 1 |',
      ],
      {},
    );
    expect(problems).toEqual([]);
    expect(film).toEqual(['1 1/2', '2 3/4', '3 1', '4 2/3', '5 4', '6 A6/7', '7 1', '8 2', '9 1']);
    expect(warnings).toContain('"1,2-3,4" is read as 1,2/3,4: the row has so many frames.');
  });

  it('are on one frame where the last frame of the row shows it', () => {
    const text = 'first frame | end | title | date | pages\n 1 | 2 | x1 | 1899-01-04 | 1-2,3-4\n 5 | 6 | x1 | 1899-01-05 | 1-2';
    const { record } = recordOfSheets({ 'reel-7.csv': text }, { columns: { end: { is: 'last frame' } } });
    expect(record.reels[0]?.frames.map(({ frame, page }) => `${frame} ${page ?? ''}`)).toEqual(['1 1/2', '2 3/4', '5 1', '6 2']);
  });

  it('are asked about where the frames do not show it and the writing is odd, or others of the sheet are openings', () => {
    const alone = ['1 | x1 | 1899-01-04 | 1-2,3-4 |'];
    const last = ['1 | x1 | 1899-01-04 | 1-2,3 |', '3 | x1 | 1899-01-05 | 1-2 |'];
    expect(askedAbout(alone)).toEqual(['spreads pages: ']);
    expect(askedAbout(last)).toEqual(['spreads pages: ']);
    expect(askedAbout(['1 | x1 | 1899-01-04 | 1-2 |'])).toEqual([]);
    expect(read(alone, { spreads: 'one frame' }).film).toEqual(['1 1/2', '2 3/4']);
    expect(read(alone, { spreads: 'a frame each' }).film).toEqual(['1 1', '2 2', '3 3', '4 4']);
    const silent = read(alone, {});
    expect([silent.film.length, silent.warnings]).toEqual([4, expect.stringContaining('may be openings of two pages on a frame each')]);
  });
});

describe('phrases that mean the same', () => {
  it('have an answer each', () => {
    const rows = [
      '1 | x1 | 1899-01-04 | 1-2 | p. 3 missing',
      '3 | x1 | 1899-01-05 | 1-2 | p. 3 lacking',
      '5 | x1 | 1899-01-06 | 1-2 | p. 1 printed as 7',
      '7 | x1 | 1899-01-07 | 1-2 | p. 1 printed as 9, p. 4 missing',
    ];
    expect(askedAbout(rows)).toEqual(['phrases missing: fact', 'phrases lacking: fact', 'phrases printed as …: fact']);
    const answered: Parts = { phrases: { missing: 'fact', lacking: 'note', 'printed as …': 'note' } };
    expect(askedAbout(rows, answered)).toEqual([]);
    const absent = (reading: Parts): readonly (string | undefined)[] =>
      recordOfSheets({ 'reel-7.csv': [HEADS, ...rows].join('\n') }, reading).record.reels[0]?.absent?.map(({ date }) => date) ?? [];
    expect(absent(answered)).toEqual(['1899-01-04', '1899-01-07']);
    // One entry may still stand for all that mean the same.
    expect(absent({ phrases: { wanting: 'fact' } })).toEqual(['1899-01-04', '1899-01-05', '1899-01-07']);
    expect(absent({ phrases: { wanting: 'fact', lacking: 'note' } })).toEqual(['1899-01-04', '1899-01-07']);
  });
});
