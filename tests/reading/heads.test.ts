import { describe, expect, it } from 'vitest';
import type { ReadingFile } from '../../src/model/reading.js';
import type { BookCell, WrittenGrid } from '../../src/model/written-grid.js';
import { understoodRecord } from '../../src/reading/index.js';
import { isAnswer, NO_READING, questionsOf, settledReading, withAnswer } from '../../src/reading/propose/index.js';
import { gridsOf, problemsOf, recordOfSheets } from '../normalise/written.js';

/** Reads a sheet with all that is unmistakable; `answers` are those of a person, in the order of the questions. */
function readBy(text: string, answers: readonly string[] = [], file = 'reel-14.csv') {
  const grids = gridsOf(file, text);
  let reading: ReadingFile = settledReading(grids, NO_READING);
  const open = questionsOf(grids, reading);
  for (const answer of answers) {
    const [question] = questionsOf(grids, reading);
    expect([question?.asks, question === undefined ? false : isAnswer(question, answer)]).toEqual([expect.any(String), true]);
    if (question !== undefined) reading = settledReading(grids, withAnswer(reading, question, answer));
  }
  expect(questionsOf(grids, reading).map(({ asks }) => asks)).toEqual([]);
  const { record, problems, warnings } = recordOfSheets({ [file]: text }, reading);
  expect(problemsOf({ problems })).toEqual([]);
  const frames = record.reels.flatMap((reel) => reel.frames);
  return { reading, open, record, warnings: warnings.join('\n'), frames, absent: record.reels.flatMap((reel) => reel.absent ?? []) };
}

/** What is proposed for the columns of a sheet, `?` behind what is asked. */
function columnsOf(text: string): Readonly<Record<string, string>> {
  const grids = gridsOf('reel-14.csv', text);
  const settled = settledReading(grids, NO_READING);
  const sure = Object.entries(settled.columns ?? {}).map(([head, { is }]) => [head, is] as const);
  const open = questionsOf(grids, settled).flatMap(({ about, of, proposed }) =>
    about === 'columns' ? [[of, `${proposed ?? ''}?`] as const] : [],
  );
  return Object.fromEntries([...sure, ...open]);
}

const named = (grid: WrittenGrid, name: string): WrittenGrid => ({ ...grid, sheet: { ...grid.sheet, name } });

const ISSUES = ' | x1 | 1901-01-24 | 1-4\n';

describe('frames from the first to the last', () => {
  it.each([
    ['English, in one cell', 'Frames | Title | Date | Pages\n 3-6 | x1 | 1901-01-24 | 1-4\n 7-10 | x1 | 1901-01-25 | 1-4'],
    ['with words', 'Exposures | Title | Date | Pages\n fr. 3 to 6 | x1 | 1901-01-24 | 1-4\n fr. 7 to 10 | x1 | 1901-01-25 | 1-4'],
    [
      'German, in two columns',
      'Aufn. von | Aufn. bis | Titel | Datum | Seiten\n 3 | 6 | x1 | 1901-01-24 | 1-4\n 7 | 10 | x1 | 1901-01-25 | 1-4',
    ],
    ['French, in two columns', 'Vues de | à | Titre | Date | Pages\n 3 | 6 | x1 | 1901-01-24 | 1-4\n 7 | 10 | x1 | 1901-01-25 | 1-4'],
    [
      'below a common head',
      'Frames | | Title | Date | Pages\n from | to | | |\n 3 | 6 | x1 | 1901-01-24 | 1-4\n 7 | 10 | x1 | 1901-01-25 | 1-4',
    ],
  ])('%s', (_, text) => {
    const { frames, warnings } = readBy(text);
    expect(frames.map(({ frame }) => Number(frame))).toEqual([3, 4, 5, 6, 7, 8, 9, 10]);
    expect(warnings).not.toContain('range');
  });

  it.each([
    ['Exp. from', 'Exp. to'],
    ['First frame', 'Last frame'],
    ['Start image', 'End image'],
    ['Erstes Bild', 'Letztes Bild'],
    ['Bild-Anfang', 'Bild-Ende'],
    ['Première vue', 'Dernière vue'],
    ['Vue de début', 'Vue de fin'],
  ])('%s and %s', (first, last) => {
    const text = `${first} | ${last} | Title | Date | Pages\n 3 | 6 | x1 | 1901-01-24 | 1-4\n 7 | 10 | x1 | 1901-01-25 | 1-4`;
    expect(columnsOf(text)[last]).toBe('last frame');
    expect(readBy(text).frames[0]?.frame).toBe('3');
  });

  it('that do not go with the pages are told', () => {
    const { warnings } = readBy(
      'Frames | Title | Date | Pages\n 3-6 | x1 | 1901-01-24 | 1-4\n 7-9 | x1 | 1901-01-25 | 1-4\n 11-15 | x1 | 1901-01-26 | 1-4',
    );
    expect(warnings).toContain(
      '2 cells, such as the range 7-9 beside the pages 1-4 (row 3) and the range 11-15 beside the pages 1-4 (row 4): each does not hold as many frames',
    );
  });

  it('beside no pages are pages where a person says so, and nothing else is assumed', () => {
    const text = 'Frames | Title | Date\n 3-6 | x1 | 1901-01-24\n 7-8 | x1 | 1901-01-25';
    const { open, frames, warnings } = readBy(text, ['a page each']);
    expect(open.map(({ about, proposed }) => [about, proposed])).toEqual([['noPages', null]]);
    expect(frames.map(({ frame, page }) => `${frame}:${page ?? ''}`)).toEqual(['3:1', '4:2', '5:3', '6:4', '7:1', '8:2']);
    expect(warnings).toContain('has no pages beside it and is read as a page for each frame');
  });

  it('that nobody gives are counted, and that is said', () => {
    const { reading } = readBy('Titel | Datum | Seiten\n x1 | 1901-01-24 | 1-4');
    expect(reading.frames).toBe('counted');
  });
});

describe('the meaning of a head', () => {
  it.each([
    [
      'by what stands below: a day or a weekday',
      'First frame | Title | Issue date | Day | Pages\n 1 | x1 | 1901-01-24 | Thu | 1-4',
      { Day: 'weekday printed', 'Issue date': 'date' },
    ],
    [
      'a day of a month',
      'Frame | Year | Month | Day | Page | Title\n 1 | 1901 | Jan. | 24 | 1 | x1\n 2 | | | 25 | 1 | x1',
      { Day: 'date', Month: 'month' },
    ],
    ['days below "Published"', 'First frame | Title | Published | Pages\n 1 | x1 | 24 Jan 1901 | 1-4', { Published: 'date' }],
    [
      'yes and no below "Erschienen"',
      `Title | Datum | Pages | Erschienen\n x1 | 1901-01-24 | 1-4 |\n x1 | 1901-01-31 | | nein`,
      { Erschienen: 'published' },
    ],
    [
      'a number that another column leaves over',
      `Frame | Title | Date | Page | Number\n 1${ISSUES.replace('1-4\n', '1 | 12')}`,
      { Number: 'issue number' },
    ],
    [
      'a number that may be two things',
      'Number | Title | Date | Pages\n 12 | x1 | 1901-01-24 | 1-4\n 13 | x1 | 1901-01-25 | 1-4',
      { Number: 'issue number?' },
    ],
    ['a year or a volume', 'Frame | Titel | Année | Date | Page\n 1 | x1 | 1901 | 24 janv. | 1', { Année: 'year' }],
    ['a volume or a year', 'Frame | Titel | Année | Date | Page\n 1 | x1 | 4e | 24 janv. 1901 | 1', { Année: 'volume' }],
    [
      'numbers that stay the same below "Frames"',
      'Frames | Title | Date | Pages\n 4 | x1 | 1901-01-24 | 1-4\n 4 | x1 | 1901-01-25 | 1-4',
      { Frames: 'note?' },
    ],
    [
      'a name below "Masthead"',
      'Frame | Title | Date | Page | Masthead\n 1 | x1 | 1901-01-24 | 1 | The Evening Lantern',
      { Masthead: 'title printed' },
    ],
    [
      'a day below "Masthead"',
      'Frame | Title | Date | Page | Masthead\n 1 | x1 | 1901-01-24 | 1 | 1901-01-23',
      { Masthead: 'date printed' },
    ],
    [
      'numbers of issues below "Ausgabe"',
      'Bild | Titel | Datum | Seite | Ausgabe\n 1 | x1 | 1901-01-24 | 1 | 112\n 2 | x1 | 1901-01-25 | 1 | 113',
      { Ausgabe: 'issue number' },
    ],
    [
      'editions without a head',
      'Frame | Title | Date | | Page\n 1 | x1 | 1901-01-24 | Morning | 1\n 2 | x1 | 1901-01-24 | Evening | 1',
      { 'column 4': 'edition?' },
    ],
    ['a word of it alone', 'Frame | Title | Date | Page | Issue seen\n 1 | x1 | 1901-01-24 | 1 | 112', { 'Issue seen': 'issue number?' }],
    [
      'days below a head of no meaning',
      'Frame | Title | Date | Page | Checked\n 1 | x1 | 1901-01-24 | 1 | 3 May 2024',
      { Checked: 'note?' },
    ],
    ['nothing that speaks', 'Frame | Title | Date | Page | Shelf\n 1 | x1 | 1901-01-24 | 1 | B 12', { Shelf: 'note' }],
    [
      'how it is filled in',
      'Bildnr. | Titel | Datum (TT.MM.JJJJ) | Blatt | Lieferung ja/nein | Dublette von | Was\n 1 | x1 | 24.1.1901 | 1 | ja | | Seite\n 2 | x1 | 24.1.1901 | 1 | nein | 1 | Seite',
      {
        'Bildnr.': 'frame',
        'Datum (TT.MM.JJJJ)': 'date',
        Blatt: 'page',
        'Lieferung ja/nein': 'deliver',
        'Dublette von': 'duplicate of',
        Was: 'kind',
      },
    ],
    [
      'French heads',
      'N° de vue | Titre | Date de parution | Page cotée | Parution N°\n 1 | x1 | 1901-01-24 | 1 | 112',
      { 'N° de vue': 'frame', 'Page cotée': 'page', 'Parution N°': 'issue number' },
    ],
    [
      'one or many',
      'Frame | Title | Date | Page(s) | Vol., No. | Beilage\n 1 | x1 | 1901-01-24 | 1 | 2, 12 | ja',
      { 'Page(s)': 'page', 'Vol., No.': 'volume, issue number', Beilage: 'supplement' },
    ],
    [
      'ranges among which a word stands',
      'Frames | Title | Date | Pages\n 3-6 | x1 | 1901-01-24 | 1-4\n 7-10 | x1 | 1901-01-25 | 1-4\n not filmed | x1 | 1901-01-26 |',
      { Frames: 'first frame' },
    ],
    [
      'what is printed, and what a frame shows',
      'Image no. | Title | Date | Page | As printed | Type of image\n 1 | x1 | 1901-01-24 | 1 | 5 | page',
      { 'As printed': 'page printed', 'Type of image': 'kind' },
    ],
    ['a reel', 'Filmnr. | Frame | Title | Date | Page\n 14 | 1 | x1 | 1901-01-24 | 1', { 'Filmnr.': 'reel' }],
  ])('%s', (_, text, columns) => {
    expect(columnsOf(text)).toMatchObject(columns);
  });
});

describe('days whose year stands elsewhere', () => {
  it('in a line between the rows', () => {
    const { frames, absent, reading } = readBy(
      'First frame | Title | Date | Pages\n 1901 | | |\n 1 | x1 | 24 Jan. | 1\n 2 | x1 | Jan. 31 | 1\n 1902 | | |\n 3 | x1 | 2 Jan. | 1',
    );
    expect(frames.map(({ date }) => date)).toEqual(['1901-01-24', '1901-01-31', '1902-01-02']);
    expect(absent).toEqual([]);
    expect(reading.rows).toEqual({ '1901': 'date of the rows below', '1902': 'date of the rows below' });
  });

  it('in lines with the year and, below it, the month', () => {
    const { frames, open } = readBy(
      'First frame | Title | Date | Pages\n 1901 | | |\n January | | |\n 1 | x1 | 24 | 1\n Februar | | |\n 2 | x1 | 7 | 1',
    );
    expect(open).toEqual([]);
    expect(frames.map(({ date }) => date)).toEqual(['1901-01-24', '1901-02-07']);
  });

  it('a line that no day needs is asked about', () => {
    const text = 'First frame | Title | Date | Pages\n | | 1901 |\n 1 | x1 | 1901-01-24 | 1';
    const { open, absent } = readBy(text, ['leave out']);
    expect(open.map(({ about, proposed }) => [about, proposed])).toEqual([['rows', null]]);
    expect(absent).toEqual([]);
  });

  it('in a column, which may hold on below', () => {
    const { frames } = readBy('Bild | Jahr | Datum | Seite | Titel\n 1 | 1901 | 24.1. | 1 | x1\n 2 | | 31.1. | 1 | x1');
    expect(frames.map(({ date }) => date)).toEqual(['1901-01-24', '1901-01-31']);
  });

  it('nowhere is asked for', () => {
    const { frames, open } = readBy('Bild | Datum | Seite | Titel\n 1 | 24. Januar | 1 | x1', ['1901']);
    expect(open[0]?.asks).toBe(
      'A day is written without a year, the first "24. Januar" in sheet "reel-14", row 2, and nothing beside or above gives it. Which year is it?',
    );
    expect(frames[0]?.date).toBe('1901-01-24');
  });

  it('beside another year is a mistake', () => {
    const { problems } = recordOfSheets(
      { 'reel-14.csv': 'frame | Jahr | date | page | title\n 1 | 1902 | 24 Jan 1901 | 1 | x1' },
      { columns: { Jahr: { is: 'year' } } },
    );
    expect(problemsOf({ problems })).toEqual(['2 date: "24 Jan 1901" beside the year 1902 is of another year; correct one of the two.']);
  });
});

describe('what stands in the cell of a day beside the day', () => {
  it('a weekday is kept as it is stated', () => {
    const { frames } = readBy(
      'frame | date | page | title\n 1 | Fri. 24 Jan 1901 | 1 | x1\n 2 | Freitag, den 25. Januar 1901 | 1 | x1\n 3 | 26 janv. 1901 (samedi) | 1 | x1',
    );
    expect(frames.map(({ date, weekdayPrinted }) => [date, weekdayPrinted])).toEqual([
      ['1901-01-24', 'Fri.'],
      ['1901-01-25', 'Freitag'],
      ['1901-01-26', 'samedi'],
    ]);
  });

  it('of what is not on the film it is kept as a note', () => {
    const { absent } = readBy(
      'first frame | date | pages | title | published\n 1 | Thu 24 Jan 1901 | 1 | x1 |\n | Fri 25 Jan 1901 | | x1 | yes',
    );
    expect(absent).toMatchObject([{ date: '1901-01-25', note: 'weekday printed: Fri' }]);
  });

  it('an edition is asked for its number and kept as the label', () => {
    const { frames } = readBy(
      'frame | date | page | title\n 1 | 24 Jan 1901 (Morning) | 1 | x1\n 2 | 24 Jan 1901, evening edition | 1 | x1',
      ['1', '2'],
    );
    expect(frames.map(({ edition, editionLabel }) => [edition, editionLabel])).toEqual([
      [1, 'Morning'],
      [2, 'evening edition'],
    ]);
  });
});

it('an edition that is counted is that number and no more', () => {
  const { frames } = readBy(
    'frame | date | page | title | Ausgabe\n 1 | 1901-01-24 | 1 | x1 | 1. Ausgabe\n 2 | 1901-01-24 | 1 | x1 | zweite Ausgabe',
  );
  expect(frames.map(({ edition, editionLabel }) => [edition, editionLabel])).toEqual([
    [1, undefined],
    [2, undefined],
  ]);
});

it('the names of a title that changed its name are kept as printed', () => {
  const { frames, warnings } = readBy(
    'frame | date | page | Zeitung\n 1 | 1901-01-24 | 1 | Lantern\n 2 | 1901-01-25 | 1 | Evening Lantern',
    ['x1', 'x1'],
  );
  expect(frames.map(({ title, titlePrinted }) => [title, titlePrinted])).toEqual([
    ['x1', 'Lantern'],
    ['x1', 'Evening Lantern'],
  ]);
  expect(warnings).toContain('is one of several names of its title; it is kept as the printed title.');
});

describe('days of the Julian calendar', () => {
  it.each(['Date (Julian)', 'Datum (alter Stil)', 'Date O.S.'])('%s is asked about, and the title is dated so', (head) => {
    const { open, record, frames } = readBy(`frame | ${head} | page | title\n 1 | 28 February 1900 | 1 | x1`, ['julian-until 1918-01-31']);
    expect(open.map(({ about, proposed }) => [about, proposed])).toEqual([['calendar', null]]);
    expect(record.titles).toEqual([{ id: 'x1', calendar: 'julian-until 1918-01-31' }]);
    expect(frames[0]?.date).toBe('1900-02-28');
  });

  it('the sheet of titles comes first', () => {
    const titles = 'id | calendar\n x1 | julian-until 1917-12-31';
    const { record } = recordOfSheets(
      { 'reel-14.csv': 'frame | date | page | title\n 1 | 1901-01-24 | 1 | x1', 'titles.csv': titles },
      { dates: { calendar: 'julian-until 1918-01-31' } },
    );
    expect(record.titles).toMatchObject([{ id: 'x1', calendar: 'julian-until 1917-12-31' }]);
  });

  it('beside one of the new style it is what the paper prints, which is asked', () => {
    expect(columnsOf('frame | Date O.S. | Date N.S. | page | title\n 1 | 24 Jan 1901 | 6 Feb 1901 | 1 | x1')).toMatchObject({
      'Date O.S.': 'date printed?',
    });
  });
});

it('days with dots probably have the day first, which is asked', () => {
  const questions = questionsOf(gridsOf('reel-14.csv', 'frame | date | page | title\n 1 | 04.01.1899 | 1 | x1'), NO_READING);
  expect(questions).toMatchObject([{ about: 'order', proposed: 'day month year', sure: null }]);
});

it('every word for "as above" is shown', () => {
  const text = 'frame | date | page | title\n 1 | 1901-01-24 | 1 | x1\n 2 | wie oben | 2 | -do-\n 3 | same | 3 | «';
  const grids = gridsOf('reel-14.csv', text);
  expect(questionsOf(grids, NO_READING).find(({ about }) => about === 'ditto')?.asks).toBe(
    'Does wie oben in sheet "reel-14", row 3, -do- in sheet "reel-14", row 3, same in sheet "reel-14", row 4, « in sheet "reel-14", row 4 mean "as the cell above"?',
  );
  expect(readBy(text).frames.map(({ date, title }) => [date, title])).toEqual([
    ['1901-01-24', 'x1'],
    ['1901-01-24', 'x1'],
    ['1901-01-24', 'x1'],
  ]);
});

it.each(['Rolle 0014', 'Bobine n° 0014', 'Filmnr. 0014', 'Spule 0014'])('a line "%s" above the heads names the reel', (line) => {
  const text = `${line} | | |\n frame | title | date | page\n 1 | x1 | 1901-01-24 | 1`;
  expect(questionsOf(gridsOf('collation.csv', text), NO_READING)).toMatchObject([{ about: 'reel', sure: '0014' }]);
  const between = recordOfSheets({ 'collation.csv': `frame | title | date | page\n ${line} | | |\n 1 | x1 | 1901-01-24 | 1` });
  expect(between.record.reels.map(({ number }) => number)).toEqual(['0014']);
});

it.each(['Rolle 14', 'bobine-14', 'Film Nr. 14', 'roll 14'])('a sheet named "%s" is that of the reel', (name) => {
  const { record } = recordOfSheets({ [`${name}.csv`]: 'frame | title | date | page\n 1 | x1 | 1901-01-24 | 1' });
  expect(record.reels[0]?.number).toBe('14');
});

it('a formula without a stored result is told by file, sheet and cell', () => {
  const [grid] = gridsOf('reels.xlsx', 'frame | title | date | page\n 1 | x1 | 1901-01-24 | 1\n 2 | x1 | 1901-01-24 | 2');
  if (grid === undefined) return;
  const cells = (row: number, all: readonly BookCell[]): readonly BookCell[] =>
    all.map((cell) => (row === 3 && cell.column === 3 ? { ...cell, kind: 'number', value: '', formula: 'D2+1' } : cell));
  const sheet = { ...grid.sheet, name: 'Reel 14', rows: grid.sheet.rows.map((row) => ({ ...row, cells: cells(row.row, row.cells) })) };
  const { problems } = understoodRecord({ grids: [{ ...grid, sheet }], readings: [], remarks: [], records: [], inputs: [] });
  expect(problems).toMatchObject([
    {
      file: 'reels.xlsx',
      sheet: 'Reel 14',
      row: 3,
      held: 'the cell D3, =D2+1,',
      says: expect.stringContaining('not stored in the file') as string,
    },
  ]);
});

it('a list of reels in which nothing is written yet is no question', () => {
  const grids = [
    ...gridsOf('new.ods', 'frame | reel | title | date | page\n 1 | 7 | x1 | 1901-01-24 | 1').map((grid) => named(grid, 'frames')),
    ...gridsOf('new.ods', 'number | carrier | position | film base | polarity').map((grid) => named(grid, 'reels')),
  ];
  expect(questionsOf(grids, NO_READING)).toEqual([]);
});

describe('what is not to be delivered', () => {
  const sheet = (head: string, ...cells: readonly string[]): string =>
    `Frame | Title | Date | Page | ${head}\n${cells.map((cell, at) => ` ${String(at + 1)} | x1 | 1901-01-24 | ${String(at + 1)} | ${cell}`).join('\n')}`;

  it.each([
    ['words for it below a head that says nothing', 'Status', ['deliver', 'deliver', 'suppress'], 'deliver?'],
    ['in German', 'Vermerk', ['ja', 'nicht liefern', 'ja'], 'deliver?'],
    ['an answer to whatever', 'Checked', ['yes', 'no', 'yes'], undefined],
    ['a head for what is held back, which says the reverse', 'Held back', ['', 'x', ''], 'note?'],
    ['in German', 'zurückhalten', ['', 'x', ''], 'note?'],
    ['in French', 'À retenir', ['', 'x', ''], 'note?'],
  ])('%s is never dropped: %s', (_, head, cells, proposed) => {
    expect(columnsOf(sheet(head, ...cells))[head]).toBe(proposed ?? 'note');
  });

  it('answered, the frame is held back', () => {
    expect(readBy(sheet('Status', 'deliver', 'suppress'), ['deliver']).frames.map(({ deliver }) => deliver !== false)).toEqual([
      true,
      false,
    ]);
    expect(readBy(sheet('Held back', '', 'x'), ['deliver', 'no']).frames.map(({ deliver }) => deliver !== false)).toEqual([true, false]);
  });

  it('the number of the reel in the words of many films', () => {
    const { record } = readBy(
      'Rollen-Nr. | Aufn. | Titel | Datum | Seite\n 8 | 1 | x1 | 1901-01-24 | 1\n 8 | 2 | x1 | 1901-01-24 | 2\n 8 | 3 | x1 | 1901-01-24 | 3\n 9 | 1 | x1 | 1901-01-25 | 1',
    );
    expect(record.reels.map(({ number }) => number)).toEqual(['8', '9']);
  });
});
