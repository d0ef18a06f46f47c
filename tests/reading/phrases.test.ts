import { describe, expect, it } from 'vitest';
import type { ReadingFile } from '../../src/model/reading.js';
import { PHRASES } from '../../src/reading/phrase-list.js';
import { statedIn } from '../../src/reading/phrases.js';
import { NO_READING, questionsOf, settledReading } from '../../src/reading/propose/index.js';
import { gridsOf, problemsOf, recordOfSheets } from '../normalise/written.js';

/** What coordinators write of a page, an issue or a frame, with what it states: common practice, no source. */
const STATE: readonly (readonly [note: string, fact: object])[] = [
  ['do not scan', { is: 'held back' }],
  ['not to be delivered', { is: 'held back' }],
  ['Do not deliver!', { is: 'held back' }],
  ['skip', { is: 'held back' }],
  ['nicht liefern', { is: 'held back' }],
  ['à ne pas numériser', { is: 'held back' }],
  ['printed as 5', { is: 'page printed', label: '5' }],
  ['printed as p. 5', { is: 'page printed', label: '5' }],
  ['numbered 5 in error', { is: 'page printed', label: '5' }],
  ['mispaged 5', { is: 'page printed', label: '5' }],
  ['als Seite 5 gedruckt', { is: 'page printed', label: '5' }],
  ['numérotée 5', { is: 'page printed', label: '5' }],
  ['unnumbered', { is: 'page printed', label: '-' }],
  ['unpaginiert', { is: 'page printed', label: '-' }],
  ['blank', { is: 'page printed', label: '-' }],
  ['Leerseite', { is: 'page printed', label: '-' }],
  ['2nd edition', { is: 'says', facts: [['edition', '2']] }],
  ['second ed.', { is: 'says', facts: [['edition', '2']] }],
  ['2. Ausgabe', { is: 'says', facts: [['edition', '2']] }],
  ['deuxième édition', { is: 'says', facts: [['edition', '2']] }],
  ['evening edition', { is: 'says', facts: [['edition label', 'evening edition']] }],
  ['Abendausgabe', { is: 'says', facts: [['edition label', 'Abendausgabe']] }],
  ['édition du soir', { is: 'says', facts: [['edition label', 'édition du soir']] }],
  ['Beilage', { is: 'says', facts: [['supplement', 'yes']] }],
  ['dated 1878 on paper', { is: 'day', field: 'date printed', text: '1878' }],
  ['misdated 3 May', { is: 'day', field: 'date printed', text: '3 May' }],
  ['masthead says Tuesday, 3 May 1879', { is: 'day', field: 'date printed', text: 'Tuesday, 3 May 1879' }],
  ['printed date 1879-05-03', { is: 'day', field: 'date printed', text: '1879-05-03' }],
  ['falsch datiert auf den 3. Mai', { is: 'day', field: 'date printed', text: '3. Mai' }],
  ['datée du 3 mai 1879', { is: 'day', field: 'date printed', text: '3 mai 1879' }],
  ['Kopf: falsch datiert 3. Mai', { is: 'day', field: 'date printed', text: '3. Mai' }],
  ['masthead says Tuesday', { is: 'says', facts: [['weekday printed', 'Tuesday']] }],
  ['Dienstag im Kopf', { is: 'says', facts: [['weekday printed', 'Dienstag']] }],
  ['combined with 11 May', { is: 'day', field: 'combined with', text: '11 May' }],
  ['issue wrongly numbered 23', { is: 'issue number', printed: '23' }],
  [
    'Vol. 8 no. 283',
    {
      is: 'says',
      facts: [
        ['volume', '8'],
        ['issue number', '283'],
      ],
    },
  ],
  ['Section B', { is: 'says', facts: [['section', 'B']] }],
  ['spliced from reel 12', { is: 'says', facts: [['source reel', '12']] }],
  ['title printed as "Tarn Weekly"', { is: 'says', facts: [['title printed', 'Tarn Weekly']] }],
  ['wants p. 3', { is: 'absent', published: 'yes' }],
  ['p. 4 absente', { is: 'absent', published: 'yes' }],
  ['Retake because of glare', { is: 'retake', of: null }],
  ['Skip - fingers in the picture', { is: 'held back' }],
  ['skip (see fr. 14)', { is: 'held back' }],
  ['S. 2 doppelt verfilmt', { is: 'duplicate', of: null }],
  ['upside down', { is: 'condition', text: 'upside down' }],
  ['auf dem Kopf', { is: 'condition', text: 'auf dem kopf' }],
  ['pages transposed', { is: 'condition', text: 'transposed' }],
  ['out of order', { is: 'condition', text: 'out of order' }],
  ['retake', { is: 'retake', of: null }],
  ['retake of fr. 12', { is: 'retake', of: '12' }],
  ['Neuaufnahme', { is: 'retake', of: null }],
  ['duplicate', { is: 'duplicate', of: null }],
  ['dup. of 12', { is: 'duplicate', of: '12' }],
];

describe('a note', () => {
  it.each(STATE)('"%s" states a fact', (note, fact) => {
    expect(statedIn(note).map((stated) => stated.fact)).toEqual([fact]);
  });

  it.each([
    'numbers skip from 4 to 6',
    'blank space at the foot',
    'numbered 5-8 by hand',
    'not torn',
    'nicht beschädigt',
    'dated by hand',
    'duplicate set kept at the branch',
    'see the supplement of May',
    'binding tight',
    'gutter shadow',
  ])('"%s" states none that the record has a field for', (note) => {
    expect(statedIn(note)).toEqual([]);
  });

  it('says of which page: the one that it names, and not the one that is printed', () => {
    expect(statedIn('p. 6 printed as p. 5, p. 7 blank; skip').map(({ key, pages }) => [key, pages])).toEqual([
      ['printed as', ['6']],
      ['blank', ['7']],
      ['skip', []],
    ]);
    expect(statedIn('torn, duplicate').map(({ key }) => key)).toEqual(['duplicate', 'torn']);
  });
});

const FRAMES = 'reel | frame | title | date | page | note';
const ISSUES = 'first frame | title | date | pages | note';

/** Every phrase taken as a fact. */
const ALL: Omit<ReadingFile, 'format'> = { phrases: Object.fromEntries(PHRASES.map(({ key }) => [key, 'fact'])) };

function read(text: string, reading = ALL) {
  const { record, problems, warnings } = recordOfSheets({ 'reel-14.csv': text }, reading);
  expect(problemsOf({ problems })).toEqual([]);
  return { frames: record.reels[0]?.frames ?? [], warnings: warnings.join('\n') };
}

describe('a phrase that states a fact', () => {
  it.each([
    'do not scan',
    'skip',
    'printed as 5',
    'blank',
    '2nd edition',
    'evening edition',
    'Beilage',
    'dated 1878 on paper',
    'retake',
    'duplicate',
    'wanting; p. 2 wanting',
  ])('is asked, and never taken unasked: "%s"', (note) => {
    const grids = gridsOf('reel-14.csv', `${FRAMES}\n 14 | 1 | x1 | 1899-01-04 | 1 | ${note}`);
    expect(questionsOf(grids, NO_READING).filter(({ about }) => about === 'phrases')).toMatchObject([{ proposed: 'fact', sure: null }]);
    expect(settledReading(grids, NO_READING).phrases).toBeUndefined();
  });

  it('is not asked where a column says it, or nothing can take it', () => {
    const sheet = `${FRAMES} | page printed | edition | deliver\n 14 | 1 | x1 | 1899-01-04 | 6 | printed as 5 | 5 | |\n 14 | 2 | x1 | 1899-01-04 | 7 | 2nd edition | | 2 |\n 14 | 3 | x1 | 1899-01-04 | 8 | skip | | | no\n 14 | 4 | x1 | 1899-01-04 | 9 | numbered 9 | | |`;
    expect(questionsOf(gridsOf('reel-14.csv', sheet), NO_READING)).toEqual([]);
    const issues = `${ISSUES}\n 1 | x1 | 1899-01-04 | 1-4 | printed as 5; retake; blank`;
    expect(questionsOf(gridsOf('reel-14.csv', issues), NO_READING)).toEqual([]);
  });

  it('in a frame sheet: held back, what is printed, the date on the paper', () => {
    const { frames, warnings } = read(
      `${FRAMES}
      14 | 1 | x1 | 1879-05-04 | 1 | misdated 3 May; p. 2 not to be delivered
      14 | 2 | x1 | 1879-05-04 | 2 |
      14 | 3 | x1 | 1879-05-04 | 3 | printed as 5
      14 | 4 | x1 | 1879-05-04 | 4 | blank
      14 | 5 | x1 | 1879-05-11 | 1 | dated 1878 on paper
      14 | 6 | x1 | 1879-05-11 | 2 | dated 11 May 1879`,
    );
    expect(frames.map(({ deliver, pagePrinted, datePrinted }) => [deliver, pagePrinted, datePrinted])).toEqual([
      [undefined, undefined, '1879-05-03'],
      [false, undefined, undefined],
      [undefined, '5', undefined],
      [undefined, '-', undefined],
      [undefined, undefined, '1878-05-11'],
      [undefined, undefined, undefined],
    ]);
    expect(warnings).toContain('"misdated 3 May" (row 2)');
    expect(warnings).toContain('is read as YYYY-MM-DD; what it leaves out is taken from the date of the row.');
  });

  it('in a frame sheet: an edition that is said beside one page is that of its issue, and that is said', () => {
    const { frames, warnings } = read(
      `${FRAMES}
      14 | 1 | x1 | 1879-05-04 | 1 |
      14 | 2 | x1 | 1879-05-04 | 2 |
      14 | 3 | x1 | 1879-05-04 | 1 | evening edition
      14 | 4 | x1 | 1879-05-04 | 2 | 2nd edition
      14 | 5 | x1 | 1879-05-11 | 1 |`,
    );
    expect(frames.map(({ edition, editionLabel }) => [edition, editionLabel])).toEqual([
      [undefined, undefined],
      [undefined, undefined],
      [2, 'evening edition'],
      [2, undefined],
      [undefined, undefined],
    ]);
    expect(warnings).toContain('"2nd edition" is said beside one page and read of all pages of that issue.');
  });

  it('in a frame sheet: a retake or duplicate of the one other frame that shows the page; where there is none, that is said', () => {
    const { frames, warnings } = read(
      `${FRAMES}
      14 | 1 | x1 | 1879-05-04 | 1 |
      14 | 2 | x1 | 1879-05-04 | 2 |
      14 | 3 | x1 | 1879-05-04 | 2 | retake
      14 | 4 | x1 | 1879-05-04 | 1 | duplicate
      14 | 5 | x1 | 1879-05-04 | 3 | retake
      14 | 6 | x1 | 1879-05-11 | 1 | duplicate
      14 | 7 | x1 | 1879-05-11 | 1 |`,
    );
    expect(frames.map(({ retakeOf, duplicateOf, deliver }) => [retakeOf, duplicateOf, deliver])).toEqual([
      [undefined, undefined, undefined],
      [undefined, undefined, undefined],
      ['2', undefined, undefined],
      [undefined, '1', false],
      [undefined, undefined, undefined],
      [undefined, '7', false],
      [undefined, undefined, undefined],
    ]);
    expect(warnings).toContain('"retake" (frame 2) (row 4)');
    expect(warnings).toContain('row 6: "retake" does not say of which frame');
  });

  it('in an issue sheet: among the pages, and that is said', () => {
    const { frames, warnings } = read(
      `${ISSUES}
      1 | x1 | 1879-05-04 | 1-4 | p. 2 not to be delivered; p. 3 printed as 5
      5 | x1 | 1879-05-11 | 1-2 | do not scan
      7 | x1 | 1879-05-18 | 1-2 | 2nd edition, misdated 11 May
      9 | x1 | 1879-05-25 | 1-2 | p. 7 blank
      11 | x1 | 1879-06-01 | 1-2 | p. 1 filmed twice
      14 | x1 | 1879-06-08 | 1-2 |`,
    );
    expect(
      frames.map(({ page, deliver, pagePrinted, edition, datePrinted }) => [page, deliver, pagePrinted, edition, datePrinted]),
    ).toEqual([
      ['1', true, undefined, undefined, undefined],
      ['2', false, undefined, undefined, undefined],
      ['3', true, '5', undefined, undefined],
      ['4', true, undefined, undefined, undefined],
      ['1', false, undefined, undefined, undefined],
      ['2', false, undefined, undefined, undefined],
      ['1', true, undefined, 2, '1879-05-11'],
      ['2', true, undefined, 2, '1879-05-11'],
      ['1', true, undefined, undefined, undefined],
      ['2', true, undefined, undefined, undefined],
      ['1', true, undefined, undefined, undefined],
      ...Array.from({ length: 3 }, (_, at) => [at % 2 === 0 ? '2' : '1', true, undefined, undefined, undefined]),
    ]);
    expect(warnings).toContain(
      'row 6: "filmed twice" says that page 1 was filmed twice, but not where the second frame lies; the note stays a note.',
    );
    expect(warnings).toContain('"1-4" is read as 1,x2,3-4, as the note says of page 2.');
    expect(warnings).toContain(
      'row 5: "blank" is said of page 7, which the row does not list as a page on the film; the note stays a note.',
    );
  });
});

describe('what is printed beside what is right', () => {
  it('a number in the note is the printed one, and that in the column the right one', () => {
    const { frames, warnings } = read(
      'reel | frame | title | date | issue number | page | note\n 14 | 1 | x1 | 1879-05-04 | 283 | 1 | issue wrongly numbered 238\n 14 | 2 | x1 | 1879-05-11 | | 1 | combined with 12 May; vol. 8 no. 284',
    );
    expect(frames).toMatchObject([
      { issueNumber: '238', issueNumberIntended: '283' },
      { combinedWith: '1879-05-12', volume: '8', issueNumber: '284' },
    ]);
    expect(warnings).toContain('"issue wrongly numbered 238" says the printed number; the one in the column is read as the right one.');
  });

  it('a section is no field of an issue sheet, and is not asked there', () => {
    const text = `${ISSUES}\n 1 | x1 | 1879-05-04 | 1-4 | Section B`;
    expect(questionsOf(gridsOf('reel-14.csv', text), NO_READING)).toEqual([]);
    expect(read(text).frames[0]).toMatchObject({ note: 'Section B' });
  });
});

describe('what a note alone says', () => {
  const known = (words: Readonly<Record<string, string>>) => ({ ...NO_READING, words: { note: words } });

  it('is asked by each note, so that another word beside it does not ask again', () => {
    const columns = { 'Seen by': { is: 'note' } };
    const sheet = (second: string) =>
      gridsOf('reel-14.csv', `${FRAMES} | Seen by\n 14 | 1 | | | | crew at lunch | AP\n 14 | 2 | x1 | 1899-01-04 | 1 | | ${second}`);
    const [question] = questionsOf(sheet('AP'), { ...NO_READING, columns });
    expect(question).toMatchObject({ about: 'words', of: 'crew at lunch', field: 'note' });
    const other = gridsOf('reel-14.csv', `${FRAMES} | Seen by\n 14 | 1 | | | | crew at lunch | BR, 4 May`);
    expect(questionsOf(other, { ...known({ 'crew at lunch': 'void' }), columns, titles: { '': 'x1' } })).toEqual([]);
    const { frames } = read(`${FRAMES} | Seen by\n 14 | 1 | | | | crew at lunch | BR`, {
      words: { note: { 'crew at lunch': 'void' } },
      titles: { '': 'x1' },
      columns,
    });
    expect(frames).toMatchObject([{ kind: 'void' }]);
  });

  it('is not asked page by page where the column of the pages is not understood: the column is', () => {
    const rows = Array.from({ length: 8 }, (_, at) => `${String(at + 1)} | x1 | 1899-01-04 | ${String((at % 4) + 1)}`);
    const grids = gridsOf('reel-14.csv', `frame | title | date | Xyz\n${rows.join('\n')}`);
    expect(questionsOf(grids, NO_READING)).toMatchObject([{ about: 'columns', of: 'Xyz', proposed: 'page', sure: null }]);
    expect(questionsOf(grids, { ...NO_READING, columns: { Xyz: { is: 'note' } } })).toEqual([]);
    const lists = gridsOf('reel-14.csv', 'first frame | title | date | Xyz\n 1 | x1 | 1899-01-04 | 1-4\n 5 | x1 | 1899-01-11 | 1-3,5');
    expect(questionsOf(lists, NO_READING)).toMatchObject([{ about: 'columns', of: 'Xyz', proposed: 'pages', sure: null }]);
  });
});
