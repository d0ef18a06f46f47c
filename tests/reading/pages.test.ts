import { describe, expect, it } from 'vitest';
import type { ReadingFile } from '../../src/model/reading.js';
import { NO_READING, questionsOf } from '../../src/reading/propose/index.js';
import { gridsOf, problemsOf, recordOfSheets } from '../normalise/written.js';

type Parts = Omit<ReadingFile, 'format'>;

const HEADS = 'reel | first frame | title | date | pages | missing | note';
const FACTS: Parts = {
  loneNumbers: 'count',
  phrases: { wanting: 'fact', 'not published': 'fact', 'with supplement': 'fact' },
  columns: { missing: { is: 'pages wanting' } },
};

/** What a sheet of issues is read as: the pages of the film in order, what is not on it, what is wrong, what was said. */
function read(rows: readonly string[], reading: Parts = FACTS) {
  const { record, problems, warnings } = recordOfSheets({ 'reel-7.csv': [HEADS, ...rows].join('\n') }, reading);
  const [reel] = record.reels;
  return {
    film: reel?.frames.map(({ frame, kind, page, pagePrinted, condition }) =>
      [frame, kind === 'page' ? page : kind, pagePrinted === undefined ? '' : `(${pagePrinted})`, ...(condition ?? [])]
        .filter((text) => text !== '')
        .join(' '),
    ),
    absent: reel?.absent?.map(({ date, page, published }) =>
      [date.slice(8), page, published].filter((text) => text !== undefined).join(' '),
    ),
    problems: problemsOf({ problems }),
    warnings,
  };
}

/** One cell: the notation that it is read as, by the remark, or the cell itself where it is read to the letter; else the problems. */
function cell(text: string, reading: Parts = FACTS): string {
  const { problems, warnings } = read([`7 | 2 | x1 | 1899-01-04 | ${text} | |`, '7 | 6 | x1 | 1899-01-11 | 1-4 | |'], reading);
  if (problems.length > 0) return problems.join();
  const said = warnings.find((one) => one.includes('row 2:'));
  return /is read as (.*)\.$/.exec(said ?? '')?.[1] ?? text;
}

function asked(rows: readonly string[], reading: Parts = FACTS) {
  return questionsOf(gridsOf('reel-7.csv', [HEADS, ...rows].join('\n')), { ...NO_READING, ...reading }).map(
    ({ about, of, field, asks }) => ({
      about,
      of,
      ...(field === undefined ? {} : { field }),
      asks,
    }),
  );
}

// What coordinators write: common practice, no source.
describe('the pages of an issue in words', () => {
  it.each([
    ['4 pp', '1-4'],
    ['4pp.', '1-4'],
    ['4 p.', '1-4'],
    ['4 Seiten', '1-4'],
    ['alle 4 Seiten', '1-4'],
    ['pp. 4', '1-4'],
    ['1 to 4', '1-4'],
    ['S. 1-4', '1-4'],
    ['S. 1 bis S. 4', '1-4'],
    ['pages 1 à 4', '1-4'],
    ['1-3 and 4', '1-3,4'],
    ['1-2; 3-4', '1-2,3-4'],
    ['1-3, 4 torn', '1-3,4'],
    ['1-4 (4 torn)', '1-4'],
    ['1-4 (torn)', '1-4'],
    ['1-4, 5 missing', '1-4,[5]'],
    ['1-5, lacks 5', '1-4,[5]'],
    ['1-4 (5 fehlt)', '1-4,[5]'],
    ['1-4, 5 und 6 fehlen', '1-4,[5],[6]'],
    ['manque 5, 6; 1-4', '1-4,[5],[6]'],
    ['1-4, 5 non paru', '1-4,[5-]'],
    ['1-5 sauf 3', '1-2,4-5,[3]'],
    ['4 (p. 3 torn)', '1-4'],
    ['4, 5 missing', '1-4,[5]'],
    ['1-3, blank', '1-3,_'],
    ['Testtafel, 1-3', 't,1-3'],
    ['1-2, 2 blanks', '1-2,_,_'],
    ['1 (recte 2), 2-4', '2(1),2-4'],
    ['3 i.e. 4', '4(3)'],
    ['1-3, 4 printed 5', '1-3,4(5)'],
    ['all', '1-4: so many frames lie before the next row'],
    ['lacks 5', '1-4,[5]: so many frames lie before the next row'],
  ])('%s', (text, notation) => {
    expect(cell(text)).toBe(notation);
  });

  it.each(['1-4', 'A1-A4', 'B-4', '12a', 'xii', '3 bis', '1,x1,2-3', '1-3,[4]', '4(5)', 't,1-3', '2/3'])(
    '%s is the notation itself',
    (text) => {
      expect(cell(text)).toBe(text);
    },
  );

  it.each([
    ['2 duplicate', 'not where the second frame lies'],
    ['1-4, page 2 twice', 'not where the second frame lies'],
    ['1-3, 4 blank', 'may be a side of the issue on which nothing is printed'],
    ['1-3, blanks', 'does not say how many such frames'],
    ['1-4 + Beilage', 'a supplement, but the frames do not show how many pages it has'],
    ['1-4, cover', 'has a cover among the pages'],
    ['Beilage 2 S., 1-4', 'has a supplement before other pages'],
    ['4 pp + 2 pp', 'adds numbers of pages'],
    ['8+4', 'adds numbers of pages'],
    ['4 pp, 1-3', 'a number of pages and a list of them'],
    ['2 pages missing', 'but not which'],
    ['1-2, missing', 'but not which'],
    ['1 3 pages', 'does not fall into pages, ranges and words'],
    ['page 4 to 1', 'runs backwards'],
    ['1-4 quire', 'it is not known what they say'],
    ['4 (quire torn)', 'it is not known what they say'],
    ['lacks 9', 'A1'],
  ])('%s is refused', (text, says) => {
    const reading = text === 'lacks 9' ? { ...FACTS, phrases: {} } : FACTS;
    expect(cell(text, reading)).toContain(says === 'A1' ? 'the reading file does not say whether they state a fact' : says);
  });

  it('damage goes to its page', () => {
    expect(read(['7 | 2 | x1 | 1899-01-04 | 1-3, 4 torn | |']).film).toEqual(['2 1', '3 2', '4 3', '5 4 torn']);
    expect(read(['7 | 2 | x1 | 1899-01-04 | 4 pp (3 stained) | |']).film).toEqual(['2 1', '3 2', '4 3 stained', '5 4']);
  });

  it('a word that nobody knows is asked about once, and means what is answered', () => {
    const rows = ['7 | 2 | x1 | 1899-01-04 | 4 quire | |', '7 | 6 | x1 | 1899-01-11 | 2 quire | |'];
    expect(asked(rows)).toEqual([
      {
        about: 'words',
        of: 'quire',
        field: 'pages',
        asks: 'In sheet "reel-7", row 2 the pages are "4 quire". What does "quire" say there?',
      },
    ]);
    expect(cell('4 quire', { ...FACTS, words: { pages: { quire: 'number of pages' } } })).toBe('1-4');
    expect(cell('2 quire', { ...FACTS, words: { pages: { quire: 'number of leaves' } } })).toBe('1-4');
    expect(cell('1-3, 4 quire', { ...FACTS, words: { pages: { quire: 'not on the film' } } })).toBe('1-3,[4]');
    expect(cell('1-4 quire', { ...FACTS, words: { pages: { quire: 'nothing' } } })).toBe('1-4');
    expect(cell('1-3 quire', { ...FACTS, words: { pages: { quire: 'target' } } })).toContain('may be a side');
    expect(read(['7 | 2 | x1 | 1899-01-04 | 1, 2 quire | |'], { ...FACTS, words: { pages: { quire: 'damage' } } }).film).toEqual([
      '2 1',
      '3 2 quire',
    ]);
  });

  it('a phrase that takes a page away is asked about', () => {
    const rows = ['7 | 2 | x1 | 1899-01-04 | 1-3, 4 fehlt | |'];
    expect(asked(rows, { ...FACTS, phrases: {} })).toMatchObject([{ about: 'phrases', of: 'fehlt' }]);
    const note = read(rows, { ...FACTS, phrases: { wanting: 'note' } });
    expect(note).toMatchObject({ problems: [], film: ['2 1', '3 2', '4 3'], absent: undefined });
  });
});

describe('an issue that is not on the film', () => {
  it.each([
    ['not filmed', 'yes'],
    ['missing', 'yes'],
    ['fehlt', 'yes'],
    ['not published', 'no'],
    ['nicht erschienen', 'no'],
  ])('%s in place of its pages', (text, published) => {
    expect(read(['7 | 2 | x1 | 1899-01-04 | 1-4 | |', `7 | | x1 | 1899-01-11 | ${text} | |`])).toMatchObject({
      problems: [],
      absent: [`11 ${published}`],
    });
    expect(asked([`7 | | x1 | 1899-01-11 | ${text} | |`], { ...FACTS, phrases: {} })).toMatchObject([{ about: 'phrases' }]);
  });

  it('beside pages: by the frames, else as the column is said to be, else asked', () => {
    const absentNote = '7 | 2 | x1 | 1899-01-04 | 1-4 | | not published';
    expect(read([absentNote, '7 | 2 | x1 | 1899-01-11 | 1-4 | |'])).toMatchObject({ problems: [], absent: ['04 no'] });
    const filmed = read([absentNote, '7 | 6 | x1 | 1899-01-11 | 1-4 | |']);
    expect(filmed.absent).toBeUndefined();
    expect(filmed.warnings.join()).toContain('"not published" is said of an issue whose pages the sheet has on the film');
    const row = '7 | | x1 | 1899-01-04 | 4 | | missing';
    expect(asked([row])).toMatchObject([{ about: 'pages', of: 'pages' }]);
    expect(read([row]).problems.join()).toContain('it cannot be told whether those are among them');
    const other = '7 | 9 | x1 | 1899-01-11 | 1 | |';
    expect(read([row, other], { ...FACTS, pages: 'published' })).toMatchObject({ problems: [], film: ['9 1'], absent: ['04 yes'] });
    expect(read([row], { ...FACTS, pages: 'filmed' }).film).toHaveLength(4);
  });
});

describe('missing pages beside the pages of an issue', () => {
  const next = '7 | 20 | x1 | 1899-01-11 | 1-4 | |';

  it.each([
    [
      'a list that has them, and no more frames than without them',
      '7 | 18 | x1 | 1899-01-04 | 1-4 | S. 2-3 |',
      ['18 1', '19 4'],
      ['04 2 yes', '04 3 yes'],
    ],
    ['the same in a note', '7 | 18 | x1 | 1899-01-04 | 1-4 | | pages 2-3 missing', ['18 1', '19 4'], ['04 2 yes', '04 3 yes']],
    ['a list that has them, and frames for all', '7 | 16 | x1 | 1899-01-04 | 1-4 | 2-3 |', ['16 1', '17 2', '18 3', '19 4'], undefined],
    ['a count with them, by the frames', '7 | 18 | x1 | 1899-01-04 | 4 | 3-4 |', ['18 1', '19 2'], ['04 3 yes', '04 4 yes']],
    [
      'a count without them, by the frames',
      '7 | 16 | x1 | 1899-01-04 | 4 | 2-3 |',
      ['16 1', '17 4', '18 5', '19 6'],
      ['04 2 yes', '04 3 yes'],
    ],
    ['a count that ends before them', '7 | 18 | x1 | 1899-01-04 | 2 | 3-4 |', ['18 1', '19 2'], ['04 3 yes', '04 4 yes']],
  ])('%s', (_, row, film, absent) => {
    const found = read([row, next]);
    expect(found.problems).toEqual([]);
    expect(found.film?.slice(0, film.length)).toEqual(film);
    expect(found.film).toHaveLength(film.length + 4);
    expect(found.absent).toEqual(absent);
  });

  it('a count by the usual number of pages of the title, where the frames do not tell', () => {
    const usual = ['01', '02', '03', '05'].map((day, at) => `7 | ${String(30 + at * 4)} | x1 | 1899-02-${day} | 4 | |`);
    const found = read([...usual, '7 | 46 | x1 | 1899-02-06 | 4 | 3-4 |']);
    expect(found).toMatchObject({ problems: [], absent: ['06 3 yes', '06 4 yes'] });
    expect(found.warnings.join()).toContain('row 6: "4" is read as 1-2,[3],[4]: so many pages are usual for the title.');
    expect(read([...usual, '7 | 46 | x1 | 1899-02-06 | 2 | 2-3 |']).film?.slice(-2)).toEqual(['46 1', '47 4']);
  });

  it('is asked where nothing tells, and then read as is answered', () => {
    for (const pages of ['1-4', '4']) {
      const row = `7 | 18 | x1 | 1899-01-04 | ${pages} | 3-4 |`;
      expect(asked([row])).toMatchObject([{ about: 'pages', of: 'pages' }]);
      expect(asked([row], { ...FACTS, pages: 'published' })).toEqual([]);
      expect(read([row]).problems.join()).toContain(`"${pages}" stands beside pages that are said to be not on the film`);
      expect(read([row], { ...FACTS, pages: 'published' })).toMatchObject({ film: ['18 1', '19 2'], absent: ['04 3 yes', '04 4 yes'] });
    }
    expect(read(['7 | 18 | x1 | 1899-01-04 | 4 | 3-4 |'], { ...FACTS, pages: 'filmed' }).film).toEqual(['18 1', '19 2', '20 5', '21 6']);
    const list = read(['7 | 18 | x1 | 1899-01-04 | 1-4 | 3 |'], { ...FACTS, pages: 'filmed' });
    expect(list.film).toHaveLength(4);
    expect(list.warnings.join()).toContain('"wanting" is said of page 3, which the sheet has on the film; the note stays a note.');
  });

  it('of three in words', () => {
    const found = read(['7 | 16 | x1 | 1899-01-04 | 8 | | S. 5, 7 u. 8 fehlen', '7 | 21 | x1 | 1899-01-11 | 1 | |']);
    expect(found).toMatchObject({ problems: [], absent: ['04 5 yes', '04 7 yes', '04 8 yes'] });
  });

  it.each(['none', 'n/a', 'komplett', 'néant'])('%s in their column is none', (text) => {
    const found = read([`7 | 16 | x1 | 1899-01-04 | 4 | ${text} |`, next]);
    expect(found).toMatchObject({ problems: [], absent: undefined });
    expect(found.warnings.join()).not.toContain('names no page');
  });

  it('a whole issue', () => {
    expect(read(['7 | | x1 | 1899-01-04 | | alle |', next])).toMatchObject({ problems: [], absent: ['04 yes'] });
  });
});

describe('the page of a frame', () => {
  const frame = (page: string) => {
    const text = `reel | frame | title | date | page\n7 | 1 | x1 | 1899-01-04 | ${page}`;
    const { record, problems, warnings } = recordOfSheets({ 'reel-7.csv': text });
    const [found] = record.reels[0]?.frames ?? [];
    return { page: [found?.page, found?.pagePrinted], problems: problemsOf({ problems }).join(), warnings: warnings.join() };
  };

  it.each([
    ['p. 3', ['3', undefined]],
    ['S. 3', ['3', undefined]],
    ['p.12a', ['12a', undefined]],
    ['Seiten 2-3', ['2-3', undefined]],
    ['[3]', ['3', '-']],
  ])('%s is its label with words, and that is said', (text, page) => {
    const found = frame(text);
    expect(found).toMatchObject({ problems: '', page });
    expect(found.warnings).toContain(`"${text}" is read as page ${page[0] ?? ''}`);
  });

  it.each(['3', 'A3', 'S1', '2-3', '2/3', '3 bis', 'xii', 'Beilage 1', '1 r°'])('%s stands as it is written', (text) => {
    expect(frame(text)).toMatchObject({ problems: '', page: [text, undefined], warnings: '' });
  });

  it.each([
    ['fehlt', 'but not which'],
    ['missing', 'but not which'],
    ['blank', 'names no page'],
    ['4 pp', 'how many pages'],
    ['all', 'how many pages'],
  ])('%s is refused', (text, says) => {
    expect(frame(text).problems).toContain(says);
  });
});

describe('a page that the frames show and a note calls missing', () => {
  it.each([
    ['3', 'page 3 missing'],
    ['3-4', 'page 4 missing'],
  ])('of the label %s: one sentence, and the frame stays', (page, note) => {
    const text = `reel | frame | title | date | page | note\n7 | 1 | x1 | 1899-01-04 | 1-2 |\n7 | 2 | x1 | 1899-01-04 | ${page} | ${note}`;
    const { record, problems, warnings } = recordOfSheets({ 'reel-7.csv': text }, { phrases: { wanting: 'fact' } });
    expect(problems).toEqual([]);
    expect(record.reels[0]?.frames).toHaveLength(2);
    expect(record.reels[0]?.absent).toBeUndefined();
    expect(warnings).toEqual([
      expect.stringContaining(`"missing" is said of page ${/\d/.exec(note)?.[0] ?? ''}, which the sheet has on the film`),
    ]);
  });
});
