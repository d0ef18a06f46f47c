import { describe, expect, it } from 'vitest';
import { NO_READING, questionsAhead, settledReading, withAnswers, withoutOpen } from '../../src/reading/propose/index.js';
import { gridsOf, problemsOf, recordOfSheets } from '../normalise/written.js';

/** Reads a sheet as somebody has it read who takes all that is proposed, and answers what nobody proposes. */
function read(text: string, answers: Readonly<Record<string, string>> = {}) {
  const grids = gridsOf('reel-14.csv', text);
  const settled = settledReading(grids, NO_READING);
  const asked = questionsAhead(grids, settled);
  const { reading } = withAnswers(
    grids,
    settled,
    asked.map((question) => ({ ...question, answer: answers[question.of] ?? question.proposed })),
  );
  expect(questionsAhead(grids, reading)).toEqual([]);
  const said = withoutOpen(reading);
  const { record, problems, warnings } = recordOfSheets({ 'reel-14.csv': text }, said);
  const frames = record.reels.flatMap((reel) => reel.frames);
  const absent = record.reels.flatMap((reel) => reel.absent ?? []);
  return {
    asked,
    said,
    frames,
    absent,
    problems: problemsOf({ problems }),
    warnings: warnings.join('\n'),
  };
}

describe('an issue number that is corrected in its cell', () => {
  it.each(['77 (statt 76)', '77 [i.e. 76]', '77 recte 76', '77, instead of 76', '77 (richtig: 76)', '77 au lieu de 76'])(
    '"%s" is what is printed and what is right, also under a head of the library',
    (cell) => {
      const { frames, problems, asked } = read(`First frame | Title | Date | Pages | Issue no.
        1 | tv1 | 1899-01-04 | 1 | ${cell}
        2 | tv1 | 1899-01-05 | 1 | ${cell}`);
      expect([asked, problems]).toEqual([[], []]);
      expect(frames[0]).toMatchObject({ issueNumber: '77', issueNumberIntended: '76' });
    },
  );
});

describe('two columns that count the pages of an issue', () => {
  const TWO = `First frame | Title | Date | Page count | Pages filmed | Held back
    1 | tv1 | 1899-01-04 | 8 | 8 |
    9 | tv1 | 1899-01-05 | 8 | 9 | p. 5
    18 | tv1 | 1899-01-06 | 8 | 8 |`;

  it('are held against each other, and a disagreement is told', () => {
    const { said, frames, warnings, problems } = read(TWO, { pages: 'count' });
    expect(problems).toEqual([]);
    expect(said.columns).toMatchObject({ 'Page count': { is: 'pages counted' }, 'Pages filmed': { is: 'pages' } });
    expect(frames).toHaveLength(25);
    expect(warnings).toContain('row 3: the count 8 beside the pages 1-4,x5,6-9 does not agree with them');
    expect(warnings).not.toMatch(/row [24]: the count/);
  });

  it('agree where what is missing makes the difference', () => {
    const { warnings, absent } = read(
      `First frame | Title | Date | Page count | Pages
      1 | tv1 | 1899-01-04 | 8 | 1-7,[8]
      8 | tv1 | 1899-01-05 | 7 | 1-7,[8]`,
    );
    expect(absent).toHaveLength(2);
    expect(warnings).not.toContain('the count');
  });

  it('are asked about with the column of what is held back, which is never taken unasked', () => {
    const { asked, frames } = read(TWO, { pages: 'count' });
    expect(asked.map(({ of, proposed }) => [of, proposed])).toEqual([
      ['Page count', 'pages counted'],
      ['Pages filmed', 'pages'],
      ['Held back', 'pages held back'],
      ['pages', 'count'],
    ]);
    expect(frames.filter(({ deliver }) => deliver === false).map(({ frame }) => frame)).toEqual(['13']);
  });
});

describe('marks instead of frame numbers', () => {
  const MARKED = `Frame | Title | Date | Page | Dup | Retake
    1 | tv1 | 1899-01-05 | 1 | |
    2 | tv1 | 1899-01-05 | 2 | |
    3 | tv1 | 1899-01-05 | 2 | D |
    4 | tv1 | 1899-01-05 | 3 | |
    5 | tv1 | 1899-01-05 | 3 | | R`;

  it('say which frame is meant by the page that both show', () => {
    const { asked, frames, problems, warnings } = read(MARKED);
    expect(warnings).not.toContain('says that there is no frame');
    expect([asked.map(({ about }) => about), problems]).toEqual([['duplicates', 'retakes'], []]);
    expect(frames.map(({ duplicateOf, retakeOf, deliver }) => [duplicateOf, retakeOf, deliver])).toEqual([
      [undefined, undefined, undefined],
      [undefined, undefined, undefined],
      ['2', undefined, false],
      [undefined, undefined, false],
      [undefined, '4', undefined],
    ]);
  });

  it('become a note where no frame can be meant, and are asked about where they are not usual', () => {
    const { asked, frames, warnings } = read(MARKED.replace('| 2 | D', '| 9 | Q'), { Q: 'yes' });
    expect(asked.find(({ of }) => of === 'Q')?.asks).toBe(
      'Does "Q" (sheet "reel-14", row 4) say that the frame repeats the other one that shows the same page?',
    );
    expect(frames[2]).toMatchObject({ page: '9', note: 'duplicate of: Q' });
    expect(warnings).toContain('it becomes a note');
  });
});

describe('kinds, frames and lines in the words of the library', () => {
  it('has a supplement, a test picture and a blank page proposed as kinds', () => {
    const { asked, frames, said } = read(`Vue | Journal | Date | Page | Type
      1 | | | | Anfangstestbild
      2 | tv1 | 1899-01-05 | 1 | page
      3 | tv1 | 1899-01-05 | S1 | Supplément
      4 | | | | Page blanche
      5 | | | | Mire de fin`);
    expect(asked.map(({ of, proposed }) => [of, proposed])).toEqual([
      ['Supplément', 'supplement'],
      ['Page blanche', 'blank'],
      ['Mire de fin', 'target'],
    ]);
    expect(said.words?.['kind']).toMatchObject({ Anfangstestbild: 'target' });
    expect(frames.map(({ kind, supplement }) => [kind, supplement])).toEqual([
      ['target', undefined],
      ['page', undefined],
      [undefined, true],
      ['blank', undefined],
      ['target', undefined],
    ]);
  });

  it('names the column of a frame number that stands twice by her own head', () => {
    const { problems } = read(
      'Bild | Zeitung | Datum | Seite\n 1 | tv1 | 1899-01-05 | 1\n 2 | tv1 | 1899-01-05 | 2\n 2 | tv1 | 1899-01-05 | 3\n 3 | tv1 | 1899-01-05 | 4\n 4 | tv1 | 1899-01-05 | 5',
    );
    expect(problems).toEqual([expect.stringMatching(/^4 Bild: frame 2 of reel 14 \(also in row 3\) stands there twice/)]);
  });

  it('reads "not filmed" instead of a frame number as what is not on the film', () => {
    const { absent, problems } = read(`Frame | Title | Date | Page
      1 | tv1 | 1899-01-05 | 1
      not filmed | tv1 | 1899-01-05 | 2
      2 | tv1 | 1899-01-05 | 3
      3 | tv1 | 1899-01-05 | 4
      not published | tv1 | 1899-01-06 |`);
    expect(problems).toEqual([]);
    expect(absent.map(({ date, page, published }) => [date, page, published])).toEqual([
      ['1899-01-05', '2', 'yes'],
      ['1899-01-06', undefined, 'no'],
    ]);
  });

  it('takes no page for the subject of a note that is only referred to', () => {
    const { frames } = read(`Frame | Title | Date | Page | Note
      1 | tv1 | 1899-01-05 | 1 |
      2 | tv1 | 1899-01-05 | 2 | printed as page 3, see also page 3
      3 | tv1 | 1899-01-05 | 3 |`);
    expect(frames.map(({ pagePrinted }) => pagePrinted)).toEqual([undefined, '3', undefined]);
  });

  it('reads ranges that blanks alone part, and says so', () => {
    const { frames, warnings } = read(
      'First frame | Title | Date | Pages\n 1 | tv1 | 1899-01-05 | A1-A2 B1-B2\n 5 | tv1 | 1899-01-06 | 1-2 5-6',
    );
    expect(frames.map(({ page }) => page)).toEqual(['A1', 'A2', 'B1', 'B2', '1', '2', '5', '6']);
    expect(warnings).toContain('"A1-A2 B1-B2" is read as A1-A2,B1-B2.');
  });

  it('shows the line above the heads where no title is named, and proposes the identifier in it', () => {
    const { asked } = read('Tarn Valley Beacon (sn90000001) | |\n Frame | Date | Page\n 1 | 1899-01-05 | 1\n 2 | 1899-01-05 | 2');
    expect(asked.map(({ asks, proposed }) => [asks, proposed])).toEqual([
      [
        'The workbook names no title. Above the heads stands "Tarn Valley Beacon (sn90000001)" (sheet "reel-14", row 1). Which identifier, such as an LCCN, has the paper?',
        'sn90000001',
      ],
    ]);
  });

  it('proposes a column of lone numbers under "missing pages" as such', () => {
    const { asked, absent } = read(
      'First frame | Title | Date | Pages | fehlende Seiten\n 1 | tv1 | 1899-01-05 | 1-2,4 | 3\n 4 | tv1 | 1899-01-06 | 1-4 |',
    );
    expect(asked.map(({ of, proposed }) => [of, proposed])).toEqual([['fehlende Seiten', 'pages wanting']]);
    expect(absent).toMatchObject([{ page: '3' }]);
  });
});
