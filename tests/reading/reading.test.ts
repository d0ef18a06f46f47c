import { describe, expect, it } from 'vitest';
import type { ReadingFile } from '../../src/model/reading.js';
import type { BookCell, WrittenGrid } from '../../src/model/written-grid.js';
import { byCause } from '../../src/normalise/by-cause.js';
import { isAnswer, NO_READING, questionsOf, settledReading, withAnswer } from '../../src/reading/propose/index.js';
import { gridsOf, problemsOf, recordOfSheets } from '../normalise/written.js';

type Parts = Omit<ReadingFile, 'format'>;

const HEADS = 'reel | frame | title | date | page';

/** What is asked of a sheet: about, of, proposed, and whether it is unmistakable. */
function asked(text: string, reading: Parts = {}, file = 'reel-14.csv'): readonly (readonly unknown[])[] {
  return questionsOf(gridsOf(file, text), { ...NO_READING, ...reading }).map(({ about, of, proposed, sure }) => [
    about,
    of,
    proposed,
    sure !== null,
  ]);
}

/** Frames of the first reel by a few facts. */
function frames(
  text: string,
  reading: Parts,
  ...facts: readonly (
    | 'frame'
    | 'kind'
    | 'deliver'
    | 'date'
    | 'page'
    | 'pagePrinted'
    | 'title'
    | 'volume'
    | 'issueNumber'
    | 'issueNumberIntended'
    | 'datePrinted'
    | 'condition'
    | 'duplicateOf'
    | 'note'
  )[]
) {
  const { record, problems } = recordOfSheets({ 'reel-14.csv': text }, reading);
  expect(problemsOf({ problems })).toEqual([]);
  return record.reels[0]?.frames.map((frame) => facts.map((fact) => frame[fact]));
}

describe('a sheet of our form', () => {
  it('is asked nothing', () => {
    expect(asked(`${HEADS}\n 14 | 1 | x1 | 1899-01-04 | 1\n 14 | 2 | x1 | 1899-01-XX | 3A`)).toEqual([]);
    expect(asked('first frame | title | date | pages\n 1 | x1 | 1899-01-04 | 1-8')).toEqual([]);
  });

  it('may have lines above its heads, and between its rows its heads again, a sum and the next reel', () => {
    const { record, problems, warnings } = recordOfSheets({
      'film.csv': [
        'Tarn Valley Beacon | | | ',
        'collated in spring | | |',
        'frame | title | date | page',
        'Reel 14 | | |',
        '1 | x1 | 1899-01-04 | 1',
        'Total | 1 | | 1',
        'frame | title | date | page',
        'Reel no. 15 | | |',
        '1 | x1 | 1899-01-11 | 1',
      ].join('\n'),
    });
    expect(problems).toEqual([]);
    expect(record.reels.map(({ number, frames: shots }) => [number, shots.map(({ date }) => date)])).toEqual([
      ['14', ['1899-01-04']],
      ['15', ['1899-01-11']],
    ]);
    expect(warnings).toEqual([
      'film.csv: row 3 holds the names of the columns; what stands above is not read.',
      'film.csv, 2 cells, such as "14" (row 4) and "15" (row 8): each is a line with the number of a reel; the rows below it belong to that reel.',
      'film.csv, row 6: "Total" is a row of totals and is not read.',
      'film.csv, row 7: the row repeats the names of the columns and is not read.',
    ]);
  });

  it('says of a cell with "i.e." what is printed and what is right', () => {
    const text = `frame | title | date | issue number | page
      1 | x1 | 4 January 1899 i.e. 1900 | 718 i.e. 719 | 6 [i.e. 5]
      2 | x1 | 1899-01-11 i.e. 1900-01-11 | 720 | 9 (recte 7)`;
    expect(frames(text, {}, 'date', 'datePrinted', 'issueNumber', 'issueNumberIntended', 'page', 'pagePrinted')).toEqual([
      ['1900-01-04', '1899-01-04', '718', '719', '5', '6'],
      ['1900-01-11', '1899-01-11', '720', undefined, '7', '9'],
    ]);
  });
});

describe('what is asked', () => {
  it.each<[string, string, Parts, readonly (readonly unknown[])[]]>([
    [
      'heads that people write',
      'Roll | Exposure No. | Newspaper | Issue Date | Pg.\n 14 | 1 | x1 | 1899-01-04 | 1',
      {},
      [
        ['columns', 'Roll', 'reel', true],
        ['columns', 'Exposure No.', 'frame', true],
        ['columns', 'Newspaper', 'title', true],
        ['columns', 'Issue Date', 'date', true],
        ['columns', 'Pg.', 'page', true],
      ],
    ],
    ['a head of no usual meaning', `${HEADS} | Shelf\n 14 | 1 | x1 | 1899-01-04 | 1 | B 12`, {}, [['columns', 'Shelf', 'note', true]]],
    [
      'a column whose name two have',
      'reel | frame | exposure | title | date | page\n 14 | 1 | 7 | x1 | 1899-01-04 | 1',
      {},
      [['columns', 'exposure', 'note', false]],
    ],
    [
      'days of which one shows the order',
      `${HEADS}\n 14 | 1 | x1 | 4/1/1899 | 1\n 14 | 2 | x1 | 18/1/1899 | 1`,
      {},
      [['order', 'dates', 'day month year', true]],
    ],
    [
      'days that go on in one order only',
      `${HEADS}\n 14 | 1 | x1 | 1/4/1899 | 1\n 14 | 2 | x1 | 1/7/1899 | 1\n 14 | 3 | x1 | 1/11/1899 | 1`,
      {},
      [['order', 'dates', 'month day year', false]],
    ],
    ['days that show nothing', `${HEADS}\n 14 | 1 | x1 | 4/1/1899 | 1`, {}, [['order', 'dates', null, false]]],
    ['years of two figures', `${HEADS}\n 14 | 1 | x1 | 4 Jan 99 | 1`, {}, [['century', 'dates', null, false]]],
    [
      'words for kinds',
      'frame | title | date | page | kind\n 1 | x1 | 1899-01-04 | 1 | page\n 2 | | | | bad frame\n 3 | | | | none\n 4 | x1 | 1899-01-04 | 1 | dup',
      {},
      [
        ['words', 'bad frame', 'void', true],
        ['words', 'none', null, false],
        ['words', 'dup', 'held back', false],
      ],
    ],
    [
      'an edition by name',
      `${HEADS} | edition\n 14 | 1 | x1 | 1899-01-04 | 1 | 1st\n 14 | 2 | x1 | 1899-01-04 | 1 | Extra`,
      {},
      [
        ['words', '1st', '1', true],
        ['words', 'Extra', null, false],
      ],
    ],
    ['a title without an identifier', `${HEADS}\n 14 | 1 | The Beacon | 1899-01-04 | 1`, {}, [['titles', 'The Beacon', null, false]]],
    ['a paper that nobody names', 'reel | frame | date | page\n 14 | 1 | 1899-01-04 | 1', {}, [['titles', '', null, false]]],
    [
      'a ditto mark and an empty day',
      `${HEADS}\n 14 | 1 | x1 | 1899-01-04 | 1\n 14 | 2 | " | | 2`,
      {},
      [
        ['below', 'date', 'as above', true],
        ['ditto', '"', 'as above', true],
      ],
    ],
    [
      'frames without a number',
      'reel | title | date | page\n 14 | x1 | 1899-01-04 | 1',
      {},
      [
        ['sheets', 'reel-14', 'frames', true],
        ['frames', 'reel-14', 'counted', true],
      ],
    ],
    [
      'a line between the rows',
      `${HEADS}\n 14 | 1 | x1 | 1899-01-04 | 1\n next box | | | |`,
      {},
      [['rows', 'next box', 'leave out', true]],
    ],
    [
      'a number of pages, alone',
      'first frame | title | date | pages\n 1 | x1 | 1899-01-04 | 8\n 9 | x1 | 1899-01-11 | 1-4',
      {},
      [['loneNumbers', 'pages', null, false]],
    ],
    [
      'notes that state a fact',
      `${HEADS} | note\n 14 | 1 | x1 | 1899-01-04 | 1 | torn\n 14 | 2 | x1 | 1899-01-04 | 1 | dup. of fr. 1`,
      {},
      [
        ['phrases', 'dup. of fr. …', 'fact', false],
        ['phrases', 'torn', 'fact', true],
      ],
    ],
    [
      'a note that alone says what a frame shows',
      `${HEADS} | note\n 14 | 1 | | | | Titelblatt\n 14 | 2 | | | | Start target, 300 dpi\n 14 | 3 | | | | crew at lunch\n 14 | 4 | x1 | 1899-01-04 | 1 |\n 14 | 5 | x1 | 1899-01-04 | | blank`,
      {},
      [
        ['words', 'Titelblatt', 'target', true],
        ['words', 'Start target, 300 dpi', 'target', true],
        ['words', 'crew at lunch', null, false],
        ['words', 'blank', 'blank', false],
      ],
    ],
    [
      'the same between issues',
      'first frame | title | date | pages | note\n 1 | | | | mire\n 2 | x1 | 1899-01-04 | 1-4 |\n | x1 | 1899-01-11 | | strike',
      {},
      [['words', 'mire', 'target', true]],
    ],
    [
      'pages that a note names',
      'first frame | title | date | pages | note\n 1 | x1 | 1899-01-04 | 1-2,4 | p. 3 wanting\n 4 | x1 | 1899-01-11 | 1-4 | p. 3 torn\n 8 | x1 | 1899-01-18 | 1-4 | torn',
      {},
      [
        ['phrases', 'wanting', 'fact', false],
        ['phrases', 'torn', 'fact', true],
      ],
    ],
    [
      'a column with a head that nobody uses, by what stands in it',
      'Ref | title | date | pages | JgNrX | Seen by\n 1 | x1 | 1899-01-04 | 1-4 | 8/1 | AP\n 5 | x1 | 1899-01-11 | 1-4 | 8/2 | AP',
      { sheets: { 'reel-14': { is: 'issues' } } },
      [
        ['columns', 'Ref', 'first frame', false],
        ['columns', 'JgNrX', 'volume, issue number', false],
        ['columns', 'Seen by', 'note', true],
      ],
    ],
    [
      'missing pages, where they may be a count',
      'first frame | title | date | pages | Missing pages\n 1 | x1 | 1899-01-04 | 1-3 | 1',
      {},
      [
        ['columns', 'Missing pages', 'pages wanting', false],
        ['pages', 'pages', null, false],
      ],
    ],
  ])('%s', (_, text, reading, questions) => {
    expect(asked(text, reading)).toEqual(questions);
  });

  it('a reel, where neither a column nor the name of the sheet says which', () => {
    const text = 'frame | title | date | page\n 1 | x1 | 1899-01-04 | 1';
    expect(asked(text, {}, 'collation.csv')).toEqual([['reel', 'collation', null, false]]);
    expect(asked(`Film No. 0014 of the Beacon | | |\n${text}`, {}, 'collation.csv')).toEqual([['reel', 'collation', '0014', true]]);
  });

  it('short names of titles that a sheet lists', () => {
    const titles = gridsOf(
      'titles.csv',
      'id | name\n sn90000001 | Tarn Valley Beacon\n sn90000002 | Upper Tarn Beacon\n sn90000003 | The Mercury',
    );
    const reel = gridsOf(
      'reel-14.csv',
      `${HEADS}\n 14 | 1 | Mercury | 1899-01-04 | 1\n 14 | 2 | TVB | 1899-01-04 | 1\n 14 | 3 | Beacon | 1899-01-04 | 1\n 14 | 4 | sn90000002 | 1899-01-04 | 1`,
    );
    expect(questionsOf([...reel, ...titles], NO_READING).map(({ of, proposed, sure }) => [of, proposed, sure])).toEqual([
      ['Mercury', 'sn90000003', 'sn90000003'],
      ['TVB', 'sn90000001', 'sn90000001'],
      ['Beacon', null, null],
    ]);
  });

  it('a colour, which is never taken unasked', () => {
    const [grid] = gridsOf(
      'reel-14.csv',
      `${HEADS}\n 14 | 1 | x1 | 1899-01-04 | 1\n 14 | 2 | x1 | 1899-01-04 | 2\n 14 | 3 | x1 | 1899-01-04 | 3`,
    );
    const coloured = (cell: BookCell, row: number): BookCell => (row === 3 ? { ...cell, colour: 'FFFF00' } : cell);
    const grids = [grid].flatMap((one): readonly WrittenGrid[] =>
      one === undefined
        ? []
        : [
            {
              ...one,
              reading: 0,
              sheet: {
                ...one.sheet,
                rows: one.sheet.rows.map((row) => ({ ...row, cells: row.cells.map((cell) => coloured(cell, row.row)) })),
              },
            },
          ],
    );
    const [question] = questionsOf(grids, NO_READING);
    expect(question).toMatchObject({ about: 'colours', of: 'FFFF00', proposed: null, sure: null });
    expect(question?.asks).toContain('A row is yellow (FFFF00): sheet "reel-14", row 3.');
  });
});

describe('an answer', () => {
  it('is kept in its place, and its question is not asked again', () => {
    const grids = gridsOf('reel-14.csv', 'Exp. | Paper | Date | Page | What\n 1 | Beacon | 4/1/1899 | 1 | none');
    let reading: ReadingFile = settledReading(grids, NO_READING);
    expect(reading.columns).toMatchObject({ 'Exp.': { is: 'frame' }, Paper: { is: 'title' }, What: { is: 'kind' } });
    for (const answer of ['day month year', 'sn90000001', 'not on the film']) {
      const [question] = questionsOf(grids, reading);
      expect(question).toBeDefined();
      if (question === undefined) return;
      expect([isAnswer(question, answer), isAnswer(question, '')]).toEqual([true, false]);
      reading = withAnswer(reading, question, answer);
    }
    expect(questionsOf(grids, reading)).toEqual([]);
    expect(reading).toMatchObject({
      dates: { order: 'day month year' },
      titles: { Beacon: 'sn90000001' },
      words: { kind: { none: 'not on the film' } },
    });
  });
});

describe('what a reading file says', () => {
  it('joined columns, in whatever way they are written', () => {
    const text = (cells: readonly string[]): string =>
      `frame | title | date | Vol./No. | page\n${cells.map((cell, at) => `${String(at + 1)} | x1 | 1899-01-04 | ${cell} | ${String(at + 1)}`).join('\n')}`;
    const reading = { columns: { 'Vol./No.': { is: 'volume, issue number' } } };
    expect(frames(text(['8/283', 'Vol. 8, No. 283', 'VIII:283', 'v8 n283', '8-283', '']), reading, 'volume', 'issueNumber')).toEqual([
      ['8', '283'],
      ['8', '283'],
      ['VIII', '283'],
      ['v8', 'n283'],
      ['8', '283'],
      [undefined, undefined],
    ]);
    const { problems } = recordOfSheets({ 'reel-14.csv': text(['No. 283']) }, reading);
    expect(problemsOf({ problems })).toEqual([
      '2 Vol./No.: "No. 283" does not fall into volume and issue number; write as many parts, such as 8/283.',
    ]);
  });

  it('a printed day in the order of the others, which it does not help to find, and one that never was as it stands', () => {
    const sheet = (printed: string): string => `${HEADS} | date printed\n 14 | 1 | x1 | 4.1.1899 | 1 | ${printed}`;
    const reading: Parts = { dates: { order: 'day month year' } };
    for (const [printed, read] of [
      ['5.1.1898', '1898-01-05'],
      ['31.2.1899', '31.2.1899'],
    ] as const)
      expect(frames(sheet(printed), reading, 'date', 'datePrinted')).toEqual([['1899-01-04', read]]);
    const { warnings } = recordOfSheets({ 'reel-14.csv': sheet('5.1.1898') }, reading);
    expect(warnings.filter((says) => says.includes('is a day in other words'))).toHaveLength(2);
    expect(asked(sheet('13.1.1898'))).toEqual([['order', 'dates', 'day month year', false]]);
  });

  it('what is empty below, and what a ditto mark means', () => {
    const text = `${HEADS}\n 14 | 1 | x1 | 1899-01-04 | 1\n 14 | 2 | do. | | 2`;
    expect(frames(text, { ditto: 'as above', columns: { date: { is: 'date', below: 'as above' } } }, 'title', 'date')).toEqual([
      ['x1', '1899-01-04'],
      ['x1', '1899-01-04'],
    ]);
  });

  it('a cell that holds for several rows is told once', () => {
    const reading: Parts = { ditto: 'as above', dates: { order: 'day month year' }, columns: { date: { is: 'date', below: 'as above' } } };
    const text = (day: string) => `${HEADS}\n 14 | 1 | x1 | ${day} | 1\n 14 | 2 | x1 | | 2\n 14 | 3 | x1 | do. | 3`;
    const { warnings } = recordOfSheets({ 'reel-14.csv': text('4/1/1899') }, reading);
    expect(warnings).toEqual(['reel-14.csv, row 2, column date: "4/1/1899" is a day in other words; it is read as YYYY-MM-DD.']);
    const { problems } = recordOfSheets({ 'reel-14.csv': text('soon') }, reading);
    expect(byCause(problems)).toEqual([expect.stringMatching(/^reel-14.csv, row 2, column date: "soon" /)]);
    // The same mistake in two cells is two.
    const twice = recordOfSheets({ 'reel-14.csv': text('soon').replace('do.', 'soon') }, reading);
    expect(byCause(twice.problems)).toEqual([expect.stringContaining('2 cells, such as "soon" (row 2) and "soon" (row 4)')]);
  });

  it('words, phrases, counted frames, numbers of pages', () => {
    const text =
      'reel | title | date | page | kind | note\n 14 | x1 | 1899-01-04 | 1 | page | torn\n 14 | x1 | 1899-01-04 | 1 | dup | dup. of 1\n 14 | | | | none |\n 14 | x1 | 1899-01-11 | | gone |';
    const reading: Parts = {
      sheets: { 'reel-14': { is: 'frames' } },
      frames: 'counted',
      words: { kind: { dup: 'held back', none: 'blank', gone: 'not on the film' } },
      phrases: { torn: 'fact', 'dup. of': 'fact' },
    };
    const { record, problems } = recordOfSheets({ 'reel-14.csv': text }, reading);
    expect(problemsOf({ problems })).toEqual([]);
    expect(
      record.reels[0]?.frames.map(({ frame, kind, deliver, duplicateOf, condition }) => [frame, kind, deliver, duplicateOf, condition]),
    ).toEqual([
      ['1', 'page', undefined, undefined, ['torn']],
      ['2', undefined, false, '1', undefined],
      ['3', 'blank', undefined, undefined, undefined],
    ]);
    expect(record.reels[0]?.absent).toMatchObject([{ date: '1899-01-11', published: 'yes' }]);
    const pages = recordOfSheets(
      { 'reel-15.csv': 'first frame | title | date | pages\n 1 | x1 | 1899-01-04 | 4' },
      { loneNumbers: 'count' },
    );
    expect(pages.record.reels[0]?.frames.map(({ page }) => page)).toEqual(['1', '2', '3', '4']);
  });

  it('what a note alone says of a frame', () => {
    const text = `${HEADS} | note\n 14 | 1 | | | | Titelblatt\n 14 | 2 | x1 | 1899-01-04 | 1 | Titelblatt\n 14 | | | | | new box`;
    expect(frames(text, { words: { note: { titelblatt: 'target', 'new box': 'leave out' } } }, 'frame', 'kind', 'note')).toEqual([
      ['1', 'target', 'Titelblatt'],
      ['2', undefined, 'Titelblatt'],
    ]);
    const issues = 'first frame | title | date | pages | note\n 1 | | | | mire\n 2 | x1 | 1899-01-04 | 1-2 |';
    expect(frames(issues, { words: { note: { mire: 'target' } } }, 'frame', 'kind', 'page')).toEqual([
      ['1', 'target', undefined],
      ['2', 'page', '1'],
      ['3', 'page', '2'],
    ]);
  });

  it('a kind that stands alone in its row where frames are counted is a frame', () => {
    const text = 'title | date | page | kind | note\n x1 | 1899-01-04 | 1 | |\n | | | blank |\n x1 | 1899-01-11 | 1 | |\n | | | | target';
    const reading: Parts = { sheets: { 'reel-14': { is: 'frames' } }, frames: 'counted', words: { note: { target: 'target' } } };
    expect(frames(text, reading, 'frame', 'kind')).toEqual([
      ['1', undefined],
      ['2', 'blank'],
      ['3', undefined],
      ['4', 'target'],
    ]);
  });

  describe('pages that a note names', () => {
    const absent = (text: string, reading: Parts) => {
      const { record, problems, warnings } = recordOfSheets({ 'reel-14.csv': text }, reading);
      return {
        problems: problemsOf({ problems }),
        warnings,
        absent: record.reels[0]?.absent?.map(({ date, page, published }) => [date, page, published]),
        frames: record.reels[0]?.frames.map(({ page, condition }) => [page, condition?.join()]),
      };
    };
    const WANTING: Parts = { phrases: { wanting: 'fact', 'not published': 'fact', torn: 'fact', stained: 'fact' } };

    it('in a frame sheet: damage to its page, a page that is not on the film', () => {
      const text = `${HEADS} | note\n 14 | 1 | x1 | 1899-01-04 | 1 | p. 2 torn, p. 3 wanting and p. 4 not published\n 14 | 2 | x1 | 1899-01-04 | 2 | stained`;
      expect(absent(text, WANTING)).toEqual({
        problems: [],
        warnings: [],
        absent: [
          ['1899-01-04', '3', 'yes'],
          ['1899-01-04', '4', 'no'],
        ],
        frames: [
          ['1', undefined],
          ['2', 'stained,torn'],
        ],
      });
    });

    it('in a frame sheet: which page a row without a frame number is', () => {
      const text = `${HEADS} | issue number | note\n 14 | 1 | x1 | 1899-01-04 | 1 | 12 |\n 14 | | x1 | 1899-01-04 | | 12 | pp. 2-3 wanting`;
      expect(absent(text, WANTING)).toMatchObject({
        problems: [],
        absent: [
          ['1899-01-04', '2', 'yes'],
          ['1899-01-04', '3', 'yes'],
        ],
      });
    });

    it('in an issue sheet: among the pages, and around a count of them', () => {
      const sheet = (rows: string): string => `first frame | title | date | pages | note\n${rows}`;
      const one = absent(sheet('1 | x1 | 1899-01-04 | 1-2,4 | S. 3 fehlt; p. 4 torn'), WANTING);
      expect(one).toMatchObject({
        problems: [],
        absent: [['1899-01-04', '3', 'yes']],
        frames: [
          ['1', undefined],
          ['2', undefined],
          ['4', 'torn'],
        ],
      });
      const counted: Parts = { ...WANTING, loneNumbers: 'count' };
      // The next issue begins three frames later, so that four is what was published.
      const published = absent(sheet('1 | x1 | 1899-01-04 | 4 | p. 2 wanting\n 4 | x1 | 1899-01-11 | 4 |'), counted);
      expect(published.frames?.slice(0, 3).map(([page]) => page)).toEqual(['1', '3', '4']);
      expect(published).toMatchObject({ problems: [], absent: [['1899-01-04', '2', 'yes']] });
      expect(published.warnings.join()).toContain('row 2: "4" is read as 1,3-4,[2]: so many frames lie before the next row.');
    });

    it('in a column of their own', () => {
      const text =
        'first frame | title | date | pages | Missing pages\n 1 | x1 | 1899-01-04 | 1-2,4 | p. 3\n 4 | x1 | 1899-01-11 | 1-4 | none\n 8 | x1 | 1899-01-18 | 1-4 | several';
      const read = absent(text, { columns: { 'Missing pages': { is: 'pages wanting' } } });
      expect(read).toMatchObject({ problems: [], absent: [['1899-01-04', '3', 'yes']] });
      expect(read.warnings.join()).toContain('row 4: "several" names no page that is wanting; it is kept as a note.');
    });
  });

  it('facts of frames in a row that says that it is absent are kept as a note, and that is said', () => {
    const { record, problems, warnings } = recordOfSheets({
      'reel-14.csv': `${HEADS} | issue number | published\n 14 | 1 | x1 | 1899-01-04 | 1 | 12 |\n 14 | | x1 | 1899-01-11 | | 13 | yes`,
    });
    expect(problemsOf({ problems })).toEqual([]);
    expect(record.reels[0]?.absent).toMatchObject([{ date: '1899-01-11', published: 'yes', note: 'issue number: 13' }]);
    expect(warnings.join()).toContain('"13" belongs to frames; of what is not on the film it is kept as a note.');
  });

  it('what stands in no reading file is read to the letter: a date in figures is refused, with a remedy', () => {
    const { problems } = recordOfSheets({ 'reel-14.csv': `${HEADS}\n 14 | 1 | x1 | 4/1/1899 | 1` });
    expect(problemsOf({ problems })[0]).toContain('"4/1/1899" looks like a date as a spreadsheet program shows it');
    expect(problemsOf({ problems })[0]).toContain('collation read');
  });
});
