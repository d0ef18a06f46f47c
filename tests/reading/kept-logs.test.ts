import { describe, expect, it } from 'vitest';
import type { ReadingFile } from '../../src/model/reading.js';
import type { WrittenGrid } from '../../src/model/written-grid.js';
import { NO_READING, questionsAhead, questionsOf, settledReading } from '../../src/reading/propose/index.js';
import { gridsOf, problemsOf, recordOfSheets } from '../normalise/written.js';

type Parts = Omit<ReadingFile, 'format'>;

/** What is asked about columns, by their names, with what is proposed. */
function columnsAsked(grids: readonly WrittenGrid[]): Readonly<Record<string, string | null>> {
  return Object.fromEntries(
    questionsOf(grids, NO_READING).flatMap(({ about, of, proposed }) => (about === 'columns' ? [[of, proposed] as const] : [])),
  );
}

function merged(text: string, ranges: readonly string[]): readonly WrittenGrid[] {
  return gridsOf('log.csv', text).map((grid) => ({ ...grid, sheet: { ...grid.sheet, merged: ranges } }));
}

function read(text: string, parts: Parts = {}) {
  const grids = gridsOf('log.csv', text);
  const reading = settledReading(grids, { ...NO_READING, ...parts });
  const { record, warnings, problems } = recordOfSheets({ 'log.csv': text }, reading);
  return {
    frames: record.reels.flatMap((reel) => reel.frames),
    absent: record.reels.flatMap((reel) => reel.absent ?? []),
    warnings: warnings.join('\n'),
    problems: problemsOf({ problems }).join('\n'),
  };
}

describe('heads of a log', () => {
  it('below a line that is merged over all of them are called by their own names', () => {
    const grids = merged(
      'Rolle 7, Aufnahme 2a | | | \n Lfd. Nr. | Bild | Datum | Seite\n 1 | 1 | 1904-01-02 | 1\n 2 | 2 | 1904-01-02 | 2',
      ['A1:D1'],
    );
    expect(Object.keys(columnsAsked(grids))).toEqual(['Lfd. Nr.', 'Bild', 'Datum', 'Seite']);
  });

  it('below a group say what is said of the group, so that published pages are no answer to whether something was published', () => {
    const grids = merged(
      'first frame | date | title | Pages | \n | | | published | filmed\n 1 | 1904-01-02 | x1 | 4 | 4\n 5 | 1904-01-06 | x1 | 4 | 3\n 8 | 1904-01-09 | x1 | 8 | 8',
      ['A1:A2', 'B1:B2', 'C1:C2', 'D1:E1'],
    );
    expect(columnsAsked(grids)).toEqual({ 'Pages published': 'pages counted', 'Pages filmed': 'pages' });
  });

  it('show the days of the cells below, and not the numbers that the program keeps', () => {
    const [grid] = gridsOf('log.xlsx', 'frame | Day of issue | page\n 1 | 4081 | 1\n 2 | 4088 | 1');
    if (grid === undefined) throw new Error('no sheet');
    const rows = grid.sheet.rows.map((row) => ({
      ...row,
      cells: row.cells.map((cell) => (/^40/.test(cell.value) ? { ...cell, kind: 'date' as const } : cell)),
    }));
    const asks = questionsOf([{ ...grid, sheet: { ...grid.sheet, rows } }], NO_READING).map((question) => question.asks);
    expect(asks).toContain('What is the column "Day of issue"? It holds "1911-03-04", "1911-03-11".');
  });
});

describe('a mark under the pages that are missing', () => {
  const LOG =
    'first frame | date | title | pages | Missing\n 1 | 1904-01-02 | x1 | 1-4 |\n | 1904-01-06 | x1 | 1-4 | x\n 5 | 1904-01-09 | x1 | 1-4 | p. 4\n 8 | 1904-01-13 | x1 | 1-4 |';
  const WANTING: Parts = { columns: { Missing: { is: 'pages wanting' } } };

  it('is asked about, and never taken unasked', () => {
    const grids = gridsOf('log.csv', LOG);
    const asked = questionsAhead(grids, settledReading(grids, NO_READING)).filter(({ about }) => about === 'words');
    expect(asked).toMatchObject([
      {
        of: 'x',
        field: 'pages wanting',
        asks: 'Does "x" (sheet "log", row 3), under the pages that are wanting, say that all of the issue is, or some of its pages?',
        proposed: 'all',
        sure: null,
      },
    ]);
  });

  it('makes the issue one that is not on the film, where that is the answer', () => {
    const { frames, absent, problems } = read(LOG, { ...WANTING, words: { 'pages wanting': { x: 'all' } } });
    expect(problems).toBe('');
    expect(frames.map(({ frame, date }) => [frame, date]).filter(([, date]) => date === '1904-01-06')).toEqual([]);
    expect(absent.map(({ date, page, published }) => [date, page, published])).toEqual([
      ['1904-01-06', undefined, 'yes'],
      ['1904-01-09', '4', 'yes'],
    ]);
  });

  it('stays a note where some pages are, which are not told', () => {
    expect(read(LOG, { ...WANTING, words: { 'pages wanting': { x: 'some' } } }).warnings).toContain('names no page that is wanting');
  });
});

describe('a frame that is wanting', () => {
  const LOG = (kind: string): string =>
    `frame | kind | date | title | issue number | page | note\n 1 | page | 1904-01-02 | x1 | 1 | 1 |\n | ${kind} | 1904-01-06 | x1 | 2 | | numéro manquant`;

  it('is asked about in a row that says that it is a page, as all do', () => {
    const asked = questionsOf(gridsOf('log.csv', LOG('page')), NO_READING).map(({ of }) => of);
    expect(asked).toContain('manquant');
    const { absent, problems } = read(LOG('page'), { phrases: { manquant: 'fact' } });
    expect([problems, absent.map(({ date, published }) => [date, published])]).toEqual(['', [['1904-01-06', 'yes']]]);
  });

  it('is not, where the frame shows something else', () => {
    expect(questionsOf(gridsOf('log.csv', LOG('blank')), NO_READING).map(({ of }) => of)).not.toContain('manquant');
  });
});

describe('the page of a frame', () => {
  const page = (text: string) => read(`frame | date | title | page\n 1 | 1904-01-02 | x1 | ${text}\n 2 | 1904-01-02 | x1 | 9`);

  it.each(['3 [sic pour 4]', '3 [sic: 4]', '3 (sic, recte 4)', '3 sic for 4'])('%s is printed 3, and is page 4', (text) => {
    expect(page(text).frames[0]).toMatchObject({ page: '4', pagePrinted: '3' });
  });

  it.each(['3 (torn)', '[3] (lower half)'])('%s holds a remark, which is no label', (text) => {
    expect(page(text).problems).toContain(`"${text}" holds a remark beside the label of the page; write the label alone`);
  });

  it.each(['Title page', 'A3', 'Supplement 2', '[3]', '2-3'])('%s is a label', (text) => {
    expect(page(text).problems).toBe('');
  });
});

describe('frames and pages held against each other', () => {
  const PARTS: Parts = { loneNumbers: 'count', phrases: { 'filmed twice': 'fact', 'not filmed': 'fact' } };
  const log = (pages: string): string =>
    `first frame | date | title | pages | note\n 1 | 1904-01-02 | x1 | ${pages} | p. 2 filmed twice\n 6 | 1904-01-06 | x1 | 4 |`;

  it('a second exposure is not counted as a page that the issue does not have', () => {
    expect(read(log('5'), PARTS).problems).toContain(
      '"5" counts as many pages as frames lie before the next row, though "filmed twice" says that one of them shows a page again; write the pages as they were filmed, such as 1,2,x2,3,4.',
    );
    expect(read(log('4'), PARTS)).toMatchObject({ problems: '' });
    expect(read(log('5'), { ...PARTS, phrases: { 'filmed twice': 'note' } })).toMatchObject({ problems: '' });
  });

  it('the count of an issue that is not on the film is no disagreement', () => {
    const text =
      'first frame | date | title | pages | counted | note\n 1 | 1904-01-02 | x1 | 4 | 4 |\n | 1904-01-06 | x1 | | 4 | not filmed\n 5 | 1904-01-09 | x1 | 4 | 6 |';
    const { warnings } = read(text, { ...PARTS, columns: { counted: { is: 'pages counted' } } });
    expect(warnings).toContain('row 4: the count 6 beside the pages 1-4 does not agree');
    expect(warnings).not.toContain('(none)');
  });

  const LAST: Parts = {
    columns: { last: { is: 'last frame' } },
    phrases: { 'with supplement': 'fact' },
    words: { note: { Vorspann: 'target' } },
  };

  it('a supplement that was parted from its row takes its frames of the range', () => {
    const text =
      'first frame | last | date | title | pages | note\n 1 | 6 | 1904-01-02 | x1 | S. 1-4 und Beilage S. 1-2 |\n 7 | 11 | 1904-01-06 | x1 | 1-4 |';
    const { warnings } = read(text, LAST);
    expect(warnings).toContain('the range 7-11 beside the pages 1-4');
    expect(warnings).not.toContain('the range 1-6');
  });

  it('what a note alone tells of a range is so of each of its frames', () => {
    const text = 'first frame | last | date | title | pages | note\n 1 | 3 | | | | Vorspann\n 4 | 7 | 1904-01-06 | x1 | 1-4 |';
    const { frames, warnings } = read(text, LAST);
    expect(frames.slice(0, 4).map(({ frame, kind }) => [frame, kind])).toEqual([
      ['1', 'target'],
      ['2', 'target'],
      ['3', 'target'],
      ['4', 'page'],
    ]);
    expect(warnings).not.toContain('the range');
  });
});

describe('a line of sums below the rows', () => {
  const log = 'first frame | date | title | pages\n 1 | 1904-01-02 | x1 | 1-4\n 5 | 1904-01-06 | x1 | 1-4\n Issues: | | | 2';

  it('whose word ends in a colon is asked about and left out, whatever it counts', () => {
    const asks = questionsOf(gridsOf('log.csv', log), NO_READING).filter(({ about }) => about === 'rows');
    expect(asks.map(({ of, proposed }) => [of, proposed])).toEqual([['Issues:', 'leave out']]);
    const { frames, problems } = read(log, { rows: { 'Issues:': 'leave out' } });
    expect(problems).toBe('');
    expect(frames).toHaveLength(8);
  });
});
