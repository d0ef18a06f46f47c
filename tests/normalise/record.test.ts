import { describe, expect, it } from 'vitest';
import type { CollationRecord } from '../../src/model/collation-record.js';
import { normaliseRecord } from '../../src/normalise/record.js';
import { problemsOf, recordOfSheets, sheetOf } from './written.js';

// The Tarn Valley and its papers are invented.
const TITLES = `
  id         | name                | language | days            | omitted     | usual pages | frequency
  tv00000001 | Tarn Valley Beacon  | eng      | thu             | 12-25       | 4 8         | w
  tv00000002 | Der Talbote         | ger      | mon, wed, fri   |             | 4           | i`;

const FRAMES = `
  Reel | Frame | Kind   | Deliver  | Title      | Date       | Date printed | Edition | Page | Page printed | Section | Order | Duplicate of | Condition     | Published | Note
  14   | 1     | target |          |            |            |              |         |      |              |         |       |              |               |           | START
  14   | 2     |        |          | tv00000001 | 1900-01-04 | 1899-01-04   |         | 1    | 6            |         |       |              |               |           | old year printed
  14   | 3     | page   | yes      | tv00000001 | 1900-01-04 |              | 1       | 2    |              |         |       |              | torn; creased |           |
  14   | 4     | page   | suppress | tv00000001 | 1900-01-04 |              | 1       | 2    |              |         |       | 3            |               |           |
  14   | 5A    |        | deliver  | tv00000001 | 1900-01-04 |              |         | 4    | -            |         |       |              |               |           |
  14   | 5B    | blank  |          |            |            |              |         |      |              |         |       |              |               |           |
  14   |       |        |          | tv00000001 | 1900-01-04 |              |         | 3    |              |         |       |              |               | yes       |
  14   |       |        |          | tv00000002 | 1900-01-05 |              |         |      |              |         |       |              |               | unknown   | strike?`;

describe('a frame sheet', () => {
  const { record, side, problems, warnings } = recordOfSheets({ 'frames.csv': FRAMES, 'titles.csv': TITLES });

  it('is read without a word', () => {
    expect(problems).toEqual([]);
    expect(warnings).toEqual([]);
  });

  it('becomes a record in canonical form', () => {
    const [reel] = record.reels;
    expect(record.titles.map(({ id }) => id)).toEqual(['tv00000001', 'tv00000002']);
    expect(record.titles[0]?.patterns).toEqual([{ days: ['thu'], omitted: ['12-25'], usualPages: [4, 8], frequency: 'w' }]);
    expect(reel?.frames).toHaveLength(6);
    expect(reel?.frames[1]).toEqual({
      frame: '2',
      title: 'tv00000001',
      date: '1900-01-04',
      datePrinted: '1899-01-04',
      page: '1',
      pagePrinted: '6',
      order: 1,
      note: 'old year printed',
    });
    expect(reel?.frames[2]).toMatchObject({ deliver: true, edition: 1, order: 2, condition: ['torn', 'creased'] });
    expect(reel?.frames[3]).toMatchObject({ deliver: false, duplicateOf: '3' });
    expect(reel?.frames[3]).not.toHaveProperty('order');
    expect(reel?.absent).toEqual([
      { title: 'tv00000001', date: '1900-01-04', page: '3', order: 3, published: 'yes' },
      { title: 'tv00000002', date: '1900-01-05', published: 'unknown', note: 'strike?' },
    ]);
  });

  it('becomes a side with the defaults filled in', () => {
    const [reel] = side.reels;
    expect(reel?.frames.map(({ kind, deliver, issue }) => [kind, deliver, issue])).toEqual([
      ['target', false, null],
      ['page', true, 0],
      ['page', true, 0],
      ['page', false, 0],
      ['page', true, 0],
      ['blank', false, null],
    ]);
    expect(reel?.frames[4]).toMatchObject({ frame: { exposure: 5, half: 'A' }, pageKey: '4', pagePrintedKey: '-', order: 4 });
    expect(reel?.frames[3]?.duplicateOf).toEqual({ reel: null, frame: '3', text: '3' });
    expect(reel?.frames[2]?.place).toEqual({ sheet: 'frames.csv', row: 4 });
    expect(side.issues.map(({ title, date, edition, present }) => [title, date?.day, edition, present])).toEqual([
      ['tv00000001', '1900-01-04', 1, true],
      ['tv00000002', '1900-01-05', 1, false],
    ]);
    expect(side.issues[0]?.datePrinted).toEqual({ text: '1899-01-04', day: '1899-01-04', uncertain: false });
    expect(side.absences.map(({ page, published, issue }) => [page, published, issue])).toEqual([
      ['3', 'yes', 0],
      [null, 'unknown', 1],
    ]);
  });
});

const ISSUES = `
  reel | first frame | title      | date       | date printed | edition | edition label | volume | issue number | pages                   | published | note
  14   |             |            |            |              |         |               |        |              | t,t,_                   |           |
  14   | 4           | tv00000001 | 1900-01-04 | 1899-01-04   |         |               | 3      | 12           | 1(6),2,x2,[3],4(-)      |           | old year printed
  14   |             | tv00000001 | 1900-01-11 |              | 1       |               | 3      | 13           | 1,@9A,A1-A2,v           |           |
  14   |             | tv00000001 | 1900-01-11 |              | 2       | Extra         |        |              | x1=4,2                  |           |
  14   |             | tv00000001 | 1900-01-18 |              |         |               |        |              |                         | no        | holiday`;

describe('an issue sheet', () => {
  const { record, side, problems, warnings } = recordOfSheets({ 'issues.csv': ISSUES, 'titles.csv': TITLES });

  it('is read without a word', () => {
    expect(problemsOf({ problems })).toEqual([]);
    expect(warnings).toEqual([]);
  });

  it('becomes frames whose numbers run on from row to row', () => {
    const seen = record.reels[0]?.frames.map(({ frame, kind, deliver, page }) =>
      `${frame} ${kind!} ${deliver === true ? 'yes' : 'no'} ${page ?? ''}`.trim(),
    );
    expect(seen).toEqual([
      '1 target no',
      '2 target no',
      '3 blank no',
      '4 page yes 1',
      '5 page yes 2',
      '6 page no 2',
      '7 page yes 4',
      '8 page yes 1',
      '9A page yes A1',
      '9B page yes A2',
      '10A void no',
      '10B page no 1',
      '11A page yes 2',
    ]);
  });

  const twice = (pages: string) =>
    recordOfSheets({
      'issues.csv': `reel | first frame | title | date | pages\n14 | 1 | tv00000001 | 1900-01-04 | ${pages}`,
      'titles.csv': TITLES,
    });

  it('delivers both copies of a page that is marked so, the second with the next order', () => {
    const { record: read, side: sides, problems: wrong, warnings: said } = twice('1-3,d3,x3,4');
    expect([wrong, said]).toEqual([[], []]);
    const frames = read.reels[0]?.frames.map(({ frame, page, order, deliver, duplicateOf }) => [frame, page, order, deliver, duplicateOf]);
    expect(frames).toEqual([
      ['1', '1', 1, true, undefined],
      ['2', '2', 2, true, undefined],
      ['3', '3', 3, true, undefined],
      ['4', '3', 4, true, '3'],
      ['5', '3', undefined, false, '3'],
      ['6', '4', 5, true, undefined],
    ]);
    expect(sides.reels[0]?.frames[3]?.duplicateOf).toEqual({ reel: null, frame: '3', text: '3' });
  });

  it('takes the frame that a duplicate names, and asks for it where none or several may be meant', () => {
    expect(twice('1-2,1,d1=3').record.reels[0]?.frames[3]).toMatchObject({ page: '1', deliver: true, duplicateOf: '3' });
    for (const pages of ['1-2,d3', '1-2,1,d1'])
      expect(problemsOf(twice(pages))).toEqual([
        expect.stringContaining('not one other frame alone shows that page of the issue; name the frame'),
      ]);
  });

  it('holds what the row says of its issue', () => {
    const [, , , first, second, held, fourth] = record.reels[0]!.frames;
    expect(first).toEqual({
      frame: '4',
      kind: 'page',
      deliver: true,
      title: 'tv00000001',
      date: '1900-01-04',
      datePrinted: '1899-01-04',
      volume: '3',
      issueNumber: '12',
      page: '1',
      pagePrinted: '6',
      order: 1,
      note: 'old year printed',
    });
    expect(second).toMatchObject({ page: '2', order: 2 });
    expect(second).not.toHaveProperty('note');
    // A held-back page with the label of a delivered one is its duplicate.
    expect(held).toMatchObject({ duplicateOf: '5' });
    expect(fourth).toMatchObject({ pagePrinted: '-', order: 4 });
    expect(record.reels[0]?.frames[11]).toMatchObject({ edition: 2, editionLabel: 'Extra', duplicateOf: '4' });
    expect(record.reels[0]?.frames[8]).toMatchObject({ section: 'A', page: 'A1', order: 2 });
    expect(side.reels[0]?.frames[8]).toMatchObject({ section: 'A', pageKey: '1' });
  });

  it('holds absent pages and issues', () => {
    expect(record.reels[0]?.absent).toEqual([
      { title: 'tv00000001', date: '1900-01-04', page: '3', published: 'yes', order: 3 },
      { title: 'tv00000001', date: '1900-01-18', published: 'no', note: 'holiday' },
    ]);
  });

  it('begins in the middle of a split exposure where the first frame says so', () => {
    const read = recordOfSheets({
      'reel-7.csv': 'first frame | date | pages | title\n 12A | 1900-01-04 | 1-3 | x1\n @ | 1900-01-11 | 1 | x1'.replace('@', ''),
    });
    expect(read.record.reels[0]?.frames.map(({ frame }) => frame)).toEqual(['12A', '12B', '13A', '13B']);
    expect(read.record.reels[0]?.number).toBe('7');
    expect(read.warnings).toEqual(['reel-7.csv: there is no reel number in the sheet; "7" is taken for it, from the name of the sheet.']);
  });
});

describe('what a coordinator may leave out', () => {
  it('is the reel in rows below the first', () => {
    const { record } = recordOfSheets({
      'a.csv':
        'reel | frame | title | date | page\n 3 | 1 | x1 | 1900-01-04 | 1\n | 2 | x1 | 1900-01-04 | 2\n 4 | 1 | x1 | 1900-01-11 | 1\n | 2 | x1 | 1900-01-11 | 2',
    });
    expect(record.reels.map(({ number, frames }) => [number, frames.length])).toEqual([
      ['3', 2],
      ['4', 2],
    ]);
  });

  it('is the reel where the sheet of reels has only one', () => {
    const { record, warnings } = recordOfSheets({
      'frames.csv': 'frame | title | date | page\n 1 | x1 | 1900-01-04 | 1',
      'reels.csv': 'number | position | film base\n 0051701 | IIB | p',
    });
    expect(record.reels).toEqual([
      { number: '0051701', position: '2B', filmBase: 'p', frames: [{ frame: '1', title: 'x1', date: '1900-01-04', page: '1', order: 1 }] },
    ]);
    expect(warnings).toEqual(['frames.csv: there is no reel number in the sheet; "0051701" is taken for it, from the sheet of reels.']);
  });

  it('is the title where there is only one', () => {
    const { side } = recordOfSheets({
      'a.csv': 'reel | frame | date | page\n 3 | 1 | 1900-01-04 | 1',
      'titles.csv': 'id | name\n sn 99-1 | Beacon',
    });
    expect(side.issues[0]?.title).toBe('sn99000001');
    expect(side.titles[0]).toMatchObject({ id: 'sn99000001', name: 'Beacon', language: '', readingDirection: 'ltr' });
  });

  it('is the case and spelling of column heads', () => {
    const { record, problems } = recordOfSheets({
      'a.csv': 'REEL | Frame | title | DATE_PRINTED | Page-Printed | date | page\n 3 | 1 | x1 | 1899-01-04 | 6 | 1900-01-04 | 1',
    });
    expect(problems).toEqual([]);
    expect(record.reels[0]?.frames[0]).toMatchObject({ datePrinted: '1899-01-04', pagePrinted: '6' });
  });
});

describe('columns that are not ours', () => {
  const OWN = { rolle: { is: 'reel' }, BILD: { is: 'frame' }, Titel: { is: 'title' }, Datum: { is: 'date' }, Seite: { is: 'page' } };
  const sheet =
    'Rolle | Bild | Titel | Datum | Seite | Farbe | note\n 3 | 1 | x1 | 1900-01-04 | 1 | sepia | dark\n 3 | 2 | x1 | 1900-01-04 | 2 | |';

  it('are renamed by the dictionary, and the rest is kept as notes', () => {
    const { record, problems, warnings } = recordOfSheets({ 'a.csv': sheet }, { columns: OWN });
    expect(problems).toEqual([]);
    expect(warnings).toEqual(['a.csv: the column "Farbe" means nothing here and is kept as a note.']);
    expect(record.reels[0]?.frames.map(({ note }) => note)).toEqual(['dark; Farbe: sepia', undefined]);
  });

  it('make a sheet unknown where none is ours', () => {
    expect(problemsOf(recordOfSheets({ 'a.csv': sheet }))[0]).toContain(
      '1 : the columns ("Rolle", "Bild", "Titel", "Datum", "Seite", "Farbe") are those of no sheet',
    );
  });

  it('may not mean the same as another column', () => {
    expect(problemsOf(recordOfSheets({ 'a.csv': sheet }, { columns: { ...OWN, Farbe: { is: 'page' } } }))).toEqual([
      '1 : the columns "Seite" and "Farbe" (page) mean the same; keep one of them, or say in the reading file what the other is.',
    ]);
  });

  it('may bear the names of built-in properties', () => {
    const { record, problems } = recordOfSheets({
      'a.csv': 'reel | frame | title | date | page | __proto__ | constructor\n 3 | 1 | x1 | 1900-01-04 | 1 | a | b',
    });
    expect(problems).toEqual([]);
    expect(record.reels[0]?.frames[0]?.note).toBe('__proto__: a; constructor: b');
  });
});

describe('several files', () => {
  const row = (reel: string, frame: string, page: string): string => `${reel} | ${frame} | x1 | 1900-01-04 | ${page}`;
  const head = 'reel | frame | title | date | page';

  it('are brought together by reel number, in the order of their frames', () => {
    const { record, side, problems } = recordOfSheets({
      'a.csv': [head, row('0014', '3', '3'), row('14', '4', '4')].join('\n'),
      'b.csv': [head, row('014', '1', '1'), row('014', '2', '2')].join('\n'),
    });
    expect(problems).toEqual([]);
    expect(record.reels.map(({ number, frames }) => [number, frames.map(({ frame }) => frame)])).toEqual([['0014', ['1', '2', '3', '4']]]);
    expect(side.reels[0]).toMatchObject({ number: '14', text: '0014' });
    expect(side.reels[0]?.frames[0]?.place).toEqual({ sheet: 'b.csv', row: 2 });
  });

  it('make one issue of pages on two reels', () => {
    const { record, side } = recordOfSheets({
      'a.csv': [head, row('14', '811', '1'), row('14', '812', '2'), row('15', '1', '3'), row('15', '2', '4')].join('\n'),
    });
    expect(side.issues).toHaveLength(1);
    expect(record.reels.flatMap(({ frames }) => frames.map(({ order }) => order))).toEqual([1, 2, 3, 4]);
  });

  it('may be JSON and sheets', () => {
    const json: CollationRecord = {
      format: 'reeltally/collation-record/2',
      titles: [{ id: 'x1', name: ' Beacon ', patterns: [] }],
      reels: [{ number: '1', frames: [{ frame: '1', date: '1900-01-04', page: '1', condition: [' torn '], note: ' ' }], absent: [] }],
    };
    const { record, problems } = normaliseRecord({
      records: [{ name: 'a.json', record: json }],
      sheets: [sheetOf('b.csv', [head, row('2', '1', '2')].join('\n'))],
    });
    expect(problems).toEqual([]);
    expect(record).toEqual({
      format: 'reeltally/collation-record/2',
      titles: [{ id: 'x1', name: 'Beacon' }],
      reels: [
        { number: '1', frames: [{ frame: '1', date: '1900-01-04', page: '1', condition: ['torn'], order: 1 }] },
        { number: '2', frames: [{ frame: '1', title: 'x1', date: '1900-01-04', page: '2', order: 2 }] },
      ],
    });
  });
});

describe('a span of absent issues', () => {
  const head = 'reel | frame | title | date | date to | page | published';
  const page = '14 | 1 | tv00000001 | 1900-01-04 | | 1 |';

  it('stands for every expected day on which no issue is on film', () => {
    const { side, problems } = recordOfSheets({
      'titles.csv': TITLES,
      'a.csv': [head, page, '14 | | tv00000001 | 1899-12-20 | 1900-01-31 | | no', '14 | | tv00000002 | 1900-01-01 | 1900-01-07 | | '].join(
        '\n',
      ),
    });
    expect(problems).toEqual([]);
    // Thursdays of a weekly and Monday, Wednesday, Friday of the other paper.
    expect(side.absences.map(({ date, published }) => `${date!.text} ${published}`)).toEqual([
      '1899-12-21 no',
      '1899-12-28 no',
      '1900-01-11 no',
      '1900-01-18 no',
      '1900-01-25 no',
      '1900-01-01 unknown',
      '1900-01-03 unknown',
      '1900-01-05 unknown',
    ]);
    expect(side.issues.filter(({ present }) => !present)).toHaveLength(8);
  });

  it.each([
    ['14 | | tv00000001 | 1900-01-31 | 1900-01-01 | | no', 'is not a span; it ends on or after the day on which it begins'],
    ['14 | | tv00000001 | 1900-01-XX | 1900-02-01 | | no', 'both ends must be certain days'],
    ['14 | | tv00000001 | 1900-01-12 | 1900-01-16 | | no', 'nothing was to come out'],
  ])('is refused: %s', (row, says) => {
    const { problems } = recordOfSheets({ 'titles.csv': TITLES, 'a.csv': [head, page, row].join('\n') });
    expect(problems).toHaveLength(1);
    expect(problems[0]).toMatchObject({ file: 'a.csv', row: 3, column: 'date to' });
    expect(problems[0]?.says).toContain(says);
  });

  it('is refused where the title has no pattern', () => {
    const { problems } = recordOfSheets({ 'a.csv': [head, page, '14 | | tv00000001 | 1900-01-11 | 1900-01-18 | | no'].join('\n') });
    expect(problems[0]?.says).toContain('no pattern of publication');
  });
});
