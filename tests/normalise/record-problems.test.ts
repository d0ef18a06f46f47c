import { describe, expect, it } from 'vitest';
import type { FrameEntry } from '../../src/model/collation-record.js';
import { normaliseRecord } from '../../src/normalise/record.js';
import { problemsOf, recordOfSheets } from './written.js';

/** The problems of a frame sheet with one good row and one in which some cells are other. */
function problemsWith(cells: Readonly<Record<string, string>>): readonly string[] {
  const plain: Record<string, string> = { reel: '14', frame: '2', title: 'x1', date: '1900-01-04', page: '2' };
  const row = { ...plain, ...cells };
  const good = Object.keys(row).map((column) => (column === 'frame' || column === 'page' ? '1' : (plain[column] ?? '')));
  return problemsOf(
    recordOfSheets({ 'a.csv': [Object.keys(row).join(' | '), good.join(' | '), Object.values(row).join(' | ')].join('\n') }),
  );
}

describe('a cell that cannot be used is named with its row and column', () => {
  it.each([
    [{ frame: 'twelve' }, '3 frame: "twelve" is not a frame number'],
    [{ frame: '12-13' }, '3 frame: "12-13" is not a frame number'],
    [{ frame: '0' }, '3 frame: "0" is not a frame number'],
    [{ frame: '2-Jan' }, '3 frame: "2-Jan" (1-2 or 2-1?) is probably a label that a spreadsheet program turned into a date. Write'],
    [{ kind: 'leader' }, '3 kind: "leader" is not a kind of frame; write page, blank, target, void or other'],
    [{ deliver: 'maybe' }, '3 deliver: "maybe" is neither yes nor no'],
    [{ date: '1900-02-29' }, '3 date: "1900-02-29" is a day that never was: 1900 was not a leap year'],
    [{ date: '1899-02-30' }, '3 date: "1899-02-30" is a day that never was; write the real day here'],
    [{ date: '1/4/1900' }, '3 date: "1/4/1900" looks like a date as a spreadsheet program shows it'],
    [{ date: '369' }, '3 date: "369" looks like the number by which a spreadsheet program counts days'],
    [{ date: '1599-12-31' }, '3 date: "1599-12-31" lies outside the years 1600 to 2100'],
    [{ date: 'January 1900' }, '3 date: "January 1900" looks like a date as a spreadsheet program shows it'],
    [{ date: 'unknown' }, '3 date: "unknown" is not a date; write YYYY-MM-DD, or an uncertain one'],
    [{ date: '' }, '3 date: a page that is delivered has no date'],
    [{ 'date to': '1900-01-11' }, '3 date to: a frame has one date'],
    [{ published: 'yes' }, '3 published: a frame is on the film'],
    [{ edition: 'Extra' }, '3 edition: "Extra" is not a whole number from 1 to 999'],
    [{ edition: '0' }, '3 edition: "0" is not a whole number from 1 to 999'],
    [{ order: '1.5' }, '3 order: "1.5" is not a whole number from 1 to 9999'],
    [{ order: '12.0' }, '3 order: "12.0" (12?) is a number with a decimal point that a program added'],
    [{ page: '2-Jan' }, '3 page: "2-Jan" (1-2 or 2-1?) is probably a label that a spreadsheet program turned into a date. Write'],
    [{ page: '3.00E+01' }, '3 page: "3.00E+01" is probably a label such as 3E1'],
    [{ 'page printed': '#NAME?' }, '3 page printed: "#NAME?" is what a spreadsheet program shows in place of a value'],
    [{ 'issue number': 'Feb-01' }, '3 issue number: "Feb-01" (2-1?) is probably a label that a spreadsheet program turned into a month'],
    [{ 'duplicate of': 'the one before' }, '3 duplicate of: "the one before" names no frame'],
    [{ 'retake of': '14:' }, '3 retake of: "14:" names no frame'],
    [{ supplement: 'S' }, '3 supplement: "S" is neither yes nor no'],
  ])('%j', (cells, says) => {
    const found = problemsWith(cells);
    // A date that cannot be read leaves the page without one; that is not told a second time.
    expect(found.filter((problem) => problem.startsWith('3 ')).slice(0, 1)).toEqual([expect.stringContaining(says)]);
  });

  it.each([
    { date: '1899-01-XX' },
    { date: '1899-01-04?' },
    { date: '1899' },
    { 'date printed': '1900-02-29' },
    { 'date printed': 'Thursday' },
    { page: '-' },
    { 'page printed': '-' },
    { frame: '0002B' },
    { 'duplicate of': '14:1A' },
  ])('and %j can be used', (cells) => {
    expect(problemsWith(cells)).toEqual([]);
  });

  it('once for each cell', () => {
    expect(problemsWith({ date: '1900-02-29' })).toHaveLength(1);
    expect(problemsWith({ frame: 'A', date: '1/4/1900', page: '2-Jan' })).toHaveLength(3);
  });
});

describe('a row without a frame number', () => {
  it.each([
    [{ frame: '', date: '' }, '3 frame: this row has neither a frame number nor a date'],
    [
      { frame: '', volume: '3' },
      '3 frame: this row has no frame number, so it stands for an absent page or issue, but something stands under "volume"',
    ],
    [{ frame: '', deliver: 'yes' }, 'but something stands under "deliver"'],
    [{ frame: '', published: 'perhaps' }, '3 published: "perhaps" is not an answer to whether it was published; write yes, no or unknown'],
  ])('%j', (cells, says) => {
    expect(problemsWith(cells)).toEqual([expect.stringContaining(says)]);
  });
});

describe('a row of an issue sheet that cannot be used', () => {
  const head = 'reel | first frame | title | date | date to | pages | published';
  it.each([
    ['14 | 5 | x1 | | | 1-4 |', '3 date: this row lists pages but has no date'],
    ['14 | 5 | x1 | 1900-01-11 | | |', '3 pages: this row has a first frame but no pages'],
    ['14 | | x1 | | | |', '3 pages: this row has neither pages nor a date'],
    ['14 | 5C | x1 | 1900-01-11 | | 1 |', '3 first frame: "5C" cannot begin a row'],
    ['14 | five | x1 | 1900-01-11 | | 1 |', '3 first frame: "five" is not a frame number'],
    ['14 | 5 | x1 | 1900-01-11 | | 1-4 | yes', '3 published: this row lists pages, so the issue was published'],
    ['14 | 5 | x1 | 1900-01-11 | 1900-01-18 | 1-4 |', '3 date to: this row lists pages, and an issue has one date'],
    ['14 | 5 | x1 | 1900-01-11 | | 1,,3 |', '3 pages: "" is empty: there is a comma too many'],
    ['14 | 3 | x1 | 1900-01-11 | | 1-2 |', '3 first frame: frame 3 of reel 14 (also in row 2) stands there twice'],
  ])('%s', (row, says) => {
    expect(problemsOf(recordOfSheets({ 'a.csv': [head, '14 | 1 | x1 | 1900-01-04 | | 1-4 |', row].join('\n') }))[0]).toContain(says);
  });
});

describe('a record that cannot be used as a whole', () => {
  const head = 'reel | frame | title | date | page';
  it.each([
    [
      'has no rows',
      { 'a.csv': head },
      ['1 : the sheet has column names but no rows.', ': the record holds no frame', ': the record names no title'],
    ],
    ['has nothing on film', { 'a.csv': `${head}\n 14 | | x1 | 1900-01-04 |` }, [': the record holds no frame']],
    ['names no title', { 'a.csv': `${head}\n 14 | 1 | | 1900-01-04 | 1` }, [': the record names no title']],
    [
      'has a page of no title where there are two',
      { 'a.csv': `${head}\n 14 | 1 | x1 | 1900-01-04 | 1\n 14 | 2 | x2 | 1900-01-04 | 1\n 14 | 3 | | 1900-01-11 | 1` },
      ['4 title: the record has several titles, and this page names none'],
    ],
    [
      'has a frame twice',
      { 'a.csv': `${head}\n 14 | 7 | x1 | 1900-01-04 | 1`, 'b.csv': `${head}\n 14 | 0007 | x1 | 1900-01-04 | 2` },
      ['2 frame: frame 7 of reel 14 (also in row 2 of a.csv) stands there twice'],
    ],
    [
      'says of an issue on film that it is absent',
      { 'a.csv': `${head}\n 14 | 1 | x1 | 1900-01-04 | 1\n 14 | | x1 | 1900-01-04 |` },
      ['3 date: the issue of 1900-01-04 is said to be absent'],
    ],
    [
      'says of a page on film that it is absent',
      { 'a.csv': `${head}\n 14 | 1 | x1 | 1900-01-04 | 1\n 14 | | x1 | 1900-01-04 | 1` },
      ['3 page: page 1 of 1900-01-04 is said to be absent'],
    ],
  ])('%s', (_, sheets, says) => {
    expect(problemsOf(recordOfSheets(sheets))).toEqual(says.map((sentence): unknown => expect.stringContaining(sentence)));
  });
});

describe('titles', () => {
  const frames = (title: string): string => `reel | frame | title | date | page\n 14 | 1 | ${title} | 1900-01-04 | 1`;

  it('that are not listed are named, once', () => {
    const read = recordOfSheets({ 'a.csv': `${frames('x9')}\n 14 | 2 | x9 | 1900-01-04 | 2`, 'titles.csv': 'id\n x1\n x2' });
    expect(problemsOf(read)).toEqual(['2 title: "x9" is none of the titles that the record lists (x1, x2); correct it, or add the title.']);
  });

  it('that have lost their zeros are told apart from wrong ones', () => {
    expect(problemsOf(recordOfSheets({ 'a.csv': frames('123456'), 'titles.csv': 'id\n 00123456' }))).toEqual([
      expect.stringContaining('"123456" has lost the zeros in front of 00123456'),
    ]);
  });

  it('may be written by name', () => {
    const { record, problems } = recordOfSheets({
      'a.csv': frames('tarn valley  BEACON'),
      'titles.csv': 'id | name\n x1 | Tarn Valley Beacon\n x2 | Other',
    });
    expect(problems).toEqual([]);
    expect(record.reels[0]?.frames[0]?.title).toBe('x1');
  });

  it.each([
    ['id | days\n x1 | thursday and friday', 'days: "thursday and friday" holds a word that is not a weekday'],
    ['id | days\n x1 | thu thu', 'names a weekday twice'],
    ['id | frequency\n x1 | w', 'not on which weekdays'],
    ['id | days | frequency\n x1 | thu | daily', 'is not a frequency of MARC 21 008/18; write its letter'],
    ['id | days | usual pages\n x1 | thu | four', '"four" is not a list of numbers of pages'],
    ['id | days | omitted\n x1 | thu | 13-25', '"13-25" among the omitted days is not a day'],
    ['id | days | from\n x1 | thu | 1900', 'the pattern begins or ends with "1900", which is not a day'],
    ['id | days | from | to\n x1 | thu | 1900-01-01 | 1899-01-01', 'ends on 1899-01-01, before it begins'],
    ['id | language\n x1 | English', '"english" is not a language code of three letters'],
    ['id | reading direction\n x1 | left', '"left" is not a reading direction; write ltr or rtl'],
    ['id | calendar\n x1 | julian', 'the calendar "julian" is neither gregorian nor julian-until'],
    ['id | name\n | Beacon', 'the title has no id'],
  ])('with a mistake: %s', (titles, says) => {
    expect(problemsOf(recordOfSheets({ 'a.csv': frames('x1'), 'titles.csv': titles })).join('\n')).toContain(says);
  });

  it('may change their days of issue from row to row', () => {
    const { record, problems } = recordOfSheets({
      'a.csv': frames('x1'),
      'titles.csv': 'id | name | from | to | days\n x1 | Beacon | | 1899-12-31 | Thursday\n x1 | | 1900-01-01 | | tue; thu; sat\n',
    });
    expect(problems).toEqual([]);
    expect(record.titles).toEqual([
      {
        id: 'x1',
        name: 'Beacon',
        patterns: [
          { to: '1899-12-31', days: ['thu'] },
          { from: '1900-01-01', days: ['tue', 'thu', 'sat'] },
        ],
      },
    ]);
  });
});

describe('canonical JSON', () => {
  it('is looked at for what its format cannot say', () => {
    const frames: FrameEntry[] = [
      { frame: '1', date: '1900-02-29', page: '1' },
      { frame: '01', date: '1900-03-01', page: '1' },
      { frame: '2', page: '2' },
    ];
    const { problems } = normaliseRecord({
      sheets: [],
      records: [
        {
          name: 'r.json',
          record: {
            format: 'reeltally/collation-record/2',
            titles: [
              {
                id: 'x1',
                calendar: 'julian-until 1899-02-29',
                patterns: [
                  { days: [], regularity: 'pw01fr' },
                  { days: [], regularity: 'every day' },
                ],
              },
            ],
            reels: [{ number: '3', frames, absent: [{ date: 'soon' }] }],
          },
        },
      ],
    });
    expect(problemsOf({ problems })).toEqual([
      expect.stringContaining(': title x1: the calendar "julian-until 1899-02-29"'),
      expect.stringContaining(': title x1: the regularity "every day" of its pattern 2 is not a regularity pattern of MARC 21 853 $y'),
      ': reel 3, frame 01, frame: frame 1 of reel 3 stands there twice; each frame of a reel has a number of its own.',
      expect.stringContaining(': reel 3, frame 1, date: "1900-02-29" is a day that never was'),
      expect.stringContaining(': reel 3, frame 2, date: a page that is delivered has no date'),
      expect.stringContaining(': reel 3, absence of soon, date: "soon" is not a date'),
    ]);
  });
});

describe('facts of an issue that are written in two ways', () => {
  it('are told, and the first is taken', () => {
    const { side, warnings, problems } = recordOfSheets({
      'a.csv':
        'reel | frame | title | date | page | volume\n 14 | 1 | x1 | 1900-01-04 | 1 | 3\n 14 | 2 | x1 | 1900-01-04 | 2 | 4\n 14 | 3 | x1 | 1900-01-04 | 3 | 4',
    });
    expect(problems).toEqual([]);
    expect(warnings).toEqual([
      'An issue on reel 14 has the volume twice, with two readings: that of 1900-01-04 "3" and, from frame 2 on, "4". The first is taken.',
    ]);
    expect(side.issues[0]?.volume).toBe('3');
  });

  it('are one sentence for a reel on which many are', () => {
    const row = (reel: number, frame: number, day: number, number: number): string =>
      `${reel} | ${frame} | x1 | 1900-01-0${day} | ${reel} | ${number}`;
    const days = [1, 2, 3, 4, 5];
    const rows = [...days.map((day) => row(1, day, day, 76)), ...days.map((day) => row(2, day, day, 76 + day))];
    const { warnings } = recordOfSheets({ 'a.csv': `reel | frame | title | date | page | issue number\n${rows.join('\n')}` });
    expect(warnings).toEqual([
      '5 issues on reel 2 have the issue number twice, with two readings: that of 1900-01-01 "76" and, from frame 1 on, "77"; that of 1900-01-02 "76" and, from frame 2 on, "78"; that of 1900-01-03 "76" and, from frame 3 on, "79" and 2 more. The first is taken.',
    ]);
  });
});
