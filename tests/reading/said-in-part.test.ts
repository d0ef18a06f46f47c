import { describe, expect, it } from 'vitest';
import { checkRecord } from '../../src/collation/check.js';
import type { ReadingFile } from '../../src/model/reading.js';
import { PHRASES } from '../../src/reading/phrase-list.js';
import { statedIn } from '../../src/reading/phrases.js';
import { problemsOf, recordOfSheets } from '../normalise/written.js';

/** Every phrase taken as a fact. */
const ALL: Omit<ReadingFile, 'format'> = { phrases: Object.fromEntries(PHRASES.map(({ key }) => [key, 'fact'])) };

function read(text: string) {
  const { record, side, problems, warnings } = recordOfSheets({ 'reel-14.csv': text }, ALL);
  expect(problemsOf({ problems })).toEqual([]);
  const tool = { name: 'reeltally', version: '0' };
  const check = checkRecord(record, side, { tool, inputs: [], explained: [] });
  return { record, frames: record.reels[0]?.frames ?? [], warnings: warnings.join('\n'), items: check.items };
}

const ISSUES = 'first frame | title | date | pages | condition | note';

describe('what is said of a part is not read of the whole', () => {
  it.each([
    ['2 pages held back: 5, 6 (duplicates)', 0],
    ['last two pages, held back', 0],
    ['supplement held back', 0],
    ['held back (duplicate)', 6],
    ['the whole issue is to be held back', 6],
    ['ganze Ausgabe nicht liefern', 6],
    ['pp. 5-6 held back', 2],
  ])('in an issue sheet: "%s" holds back %i of six pages', (note, held) => {
    const { frames, warnings } = read(`${ISSUES}\n 1 | x1 | 1879-05-04 | 1-6 | | ${note}\n 7 | x1 | 1879-05-11 | 1-6 | |`);
    expect(frames.filter(({ deliver }) => deliver === false)).toHaveLength(held);
    expect(warnings.includes('it does not follow which pages of the issue are meant; the note stays a note')).toBe(held === 0);
  });

  it('damage that names its page in words is of that page, and that is said', () => {
    const { frames, warnings } = read(
      `${ISSUES}
      1 | x1 | 1879-05-04 | 1-4 | S. 3 eingerissen |
      5 | x1 | 1879-05-11 | 1-4 | p. 1 torn, stained; pp. 3-4: faded |
      9 | x1 | 1879-05-18 | 1-2 | stained |`,
    );
    expect(frames.map(({ condition }) => condition)).toEqual([
      ...[undefined, undefined, ['eingerissen'], undefined],
      ...[['torn', 'stained'], undefined, ['faded'], ['faded']],
      ...[['stained'], ['stained']],
    ]);
    expect(warnings).toContain('"S. 3 eingerissen" is read as 3: eingerissen.');
  });

  it('a printed number nearer to that of the issue is not read as that of the page', () => {
    const { frames, warnings } = read(
      'reel | frame | title | date | issue number | page | note\n 14 | 1 | x1 | 1872-03-06 | 211 | 1 | numéroté 212 par erreur\n 14 | 2 | x1 | 1872-03-06 | 211 | 2 | paginé 212\n 14 | 3 | x1 | 1872-03-06 | 211 | 3 | numéroté 5',
    );
    expect(frames.map(({ pagePrinted }) => pagePrinted)).toEqual([undefined, '212', '5']);
    expect(warnings).toContain('"numéroté 212" is nearer to the number of the issue than to that of the page');
  });
});

describe('phrases that coordinators write', () => {
  it.each([
    ['Doppelaufnahme von 6', { is: 'duplicate', of: '6' }],
    ['second exposure', { is: 'duplicate', of: null }],
    ['Wiederholungsaufnahme', { is: 'retake', of: null }],
    ['Wiederholungsaufnahme von Bild 8', { is: 'retake', of: '8' }],
    ['Seitenzahl fehlt', { is: 'page printed', label: '-' }],
    ['page number missing', { is: 'page printed', label: '-' }],
    ['fehldatiert (4.2.1885)', { is: 'day', field: 'date printed', text: '4.2.1885' }],
    ['Datum falsch gedruckt: 17.09.1879', { is: 'day', field: 'date printed', text: '17.09.1879' }],
    ['nicht vorhanden', { is: 'absent', published: 'yes' }],
  ])('"%s" states one fact', (note, fact) => {
    expect(statedIn(note).map((one) => one.fact)).toEqual([fact]);
  });
});

describe('a frame in words', () => {
  it('is a frame, or none, and that is said', () => {
    const { frames, record, warnings } = read(
      `reel | frame | title | date | page | duplicate of | deliver
      14 | fr. 1 | x1 | 1879-05-04 | 1 | |
      14 | 2 | x1 | 1879-05-04 | 1 | frame 1 | no
      14 | - | x1 | 1879-05-04 | 2 | |
      14 | n/a | x1 | 1879-05-04 | 3 | |
      14 | 3 | x1 | 1879-05-04 | 4 | |
      14 | Total | 3 | | | |`,
    );
    expect(frames.map(({ frame, duplicateOf }) => [frame, duplicateOf])).toEqual([
      ['1', undefined],
      ['2', '1'],
      ['3', undefined],
    ]);
    expect(record.reels[0]?.absent?.map(({ page }) => page)).toEqual(['2', '3']);
    expect(warnings).toContain('"fr. 1" is read as frame 1.');
    expect(warnings).toContain('says that there is no frame; the row is read as one of what is not on the film.');
    expect(warnings).toContain('is a row of totals and is not read.');
  });
});

describe('pages that were filmed again', () => {
  const frames = (pages: readonly (readonly [page: string, more: string])[]): string =>
    `reel | frame | title | date | page | retake of\n${pages.map(([page, more], at) => `14 | ${String(at + 1)} | x1 | 1879-05-04 | ${page} | ${more}`).join('\n')}`;
  const says = (pages: readonly (readonly [string, string])[]): readonly string[] => read(frames(pages)).items.map((one) => one.says);

  it('are not two issues where each lies behind its first', () => {
    const plain = ['1', '2', '2', '3', '3', '4'].map((page) => [page, ''] as const);
    expect(says(plain)).toEqual([
      'The issue of 1879-05-04 has pages 2 and 3 twice, both to be delivered, and neither is said to be a duplicate.',
    ]);
    expect(says(['1', '2', '2', '2'].map((page) => [page, ''] as const))).toEqual([
      'The issue of 1879-05-04 has page 2 more than once, each time to be delivered, and none is said to be a duplicate.',
    ]);
    expect(says(['1', '2', '1', '2'].map((page) => [page, ''] as const))).toEqual(['The issue of 1879-05-04 has its pages twice.']);
  });

  it('are told once, as a retake, where the record says that they are one', () => {
    expect(
      says([
        ['1', ''],
        ['2', ''],
        ['2', '2'],
        ['3', ''],
      ]),
    ).toEqual(['Frame 3 of reel 14 was filmed to make frame 2 good, and both are to be delivered.']);
  });

  it('a number of pages is unusual beside others than itself and none', () => {
    const rows = [4, 4, 4, 4, 4, 4, 4, 6, 0].map((pages, at) => {
      const day = new Date(Date.UTC(1899, 0, 5) + at * 604_800_000).toISOString().slice(0, 10);
      return ` ${String(at * 6 + 1)} | x1 | ${day} | ${pages === 0 ? 'x1-4' : `1-${String(pages)}`} | |`;
    });
    const item = read(`${ISSUES}\n${rows.join('\n')}`).items.find(({ code }) => code === 'page-count-unusual');
    expect(item?.evidence).toEqual(['Most issues of the title have 4 pages.']);
  });
});
