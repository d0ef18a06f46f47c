import { describe, expect, it } from 'vitest';
import type { FrameEntry } from '../../src/model/collation-record.js';
import type { Copy, DateReading, Issue, Side } from '../../src/model/film.js';
import { codes, page, recordOf, returnOf, run } from '../support/small-reels.js';

// Common practice, no source: one slip is one line of the list, with whatever it brings with it; who may be wrong is not told to be.

const day = (text: string): DateReading => ({ text, day: text, uncertain: false });

/** Issues of two pages each, one after the other on the film. */
const issues = (dates: readonly string[], more: (at: number) => Partial<FrameEntry> = () => ({})): FrameEntry[] =>
  dates.flatMap((date, at) => [1, 2].map((label) => page(String(at * 2 + label), label, { date, ...more(at) })));

const WEEKS = ['1902-08-06', '1902-08-13', '1902-08-20', '1902-08-27', '1902-09-03'];

const withIssues = (side: Side, change: (issue: Issue, at: number) => Partial<Issue>): Side => ({
  ...returnOf(side),
  issues: side.issues.map((issue, at) => ({ ...issue, ...change(issue, at) })),
});

const copy = (fact: Copy['fact'], value: string): Copy => ({ fact, source: 'folder name', text: value, value, place: {} });

describe('a folder beside documents that do not say', () => {
  const record = recordOf(issues(WEEKS));
  const inFolders = (dates: readonly string[]) =>
    run(record, (side) => withIssues(side, (_, at) => ({ date: null, copies: [copy('date', dates[at] ?? '')] })));

  it('agrees with the record, and only the documents are wrong', () => {
    expect(codes(inFolders(WEEKS))).toEqual(['date-differs']);
  });

  it('is told once by what is done to it, and nobody is said to be wrong', () => {
    const { findings } = inFolders(['1902-08-07', '1902-08-14', '1902-08-21', '1902-08-28', '1902-09-04']);
    const told = findings.find(({ code }) => code === 'documents-disagree');
    expect(findings).toHaveLength(2);
    expect(told?.cause).toBe('unclear');
    expect(told?.says).toBe(
      'In the folder name, the dates of all 5 issues are 1 day too late (first: 1902-08-07 instead of 1902-08-06); the documents themselves give none.',
    );
    expect(told?.instruction).toBe(
      'Look at the film: where the record is right, correct the dates in the folder name to 1902-08-06, 1902-08-13, 1902-08-20, 1902-08-27, 1902-09-03, in this order.',
    );
  });

  it('is told of one issue where one is wrong', () => {
    const { findings } = inFolders(['1902-08-06', '1902-08-14', ...WEEKS.slice(2)]);
    expect(findings.map(({ says }) => says)).toContain(
      'Of The Saltreach Plowman of an unknown date, the folder name gives the date as 1902-08-14; the record has 1902-08-13, and the document itself gives none.',
    );
  });
});

describe('a folder beside documents that are wrong themselves', () => {
  it('is one day late of what is right, whatever two of the documents say', () => {
    const record = recordOf(issues(WEEKS));
    const folders = ['1902-08-07', '1902-08-14', '1902-08-21', '1902-08-28', '1902-09-04'];
    const exchanged = ['1902-08-13', '1902-08-06', ...WEEKS.slice(2)];
    const { findings } = run(record, (side) =>
      withIssues(side, (_, at) => ({ date: day(exchanged[at] ?? ''), copies: [copy('date', folders[at] ?? '')] })),
    );
    expect(findings.map(({ code, count }) => [code, count])).toEqual([
      ['date-differs', 4],
      ['documents-disagree', 5],
    ]);
  });
});

describe('labels of editions that few issues have', () => {
  it('that moved on by one issue are one finding, though the next has none on either side', () => {
    const labels = ['Early', 'Late'];
    const record = recordOf(issues(WEEKS, (at) => (labels[at] === undefined ? {} : { editionLabel: labels[at] })));
    const { findings } = run(record, (side) => withIssues(side, (_, at) => ({ editionLabel: at === 0 ? 'Late' : null })));
    expect(findings.map(({ code, count }) => [code, count])).toEqual([['edition-label-differs', 4]]);
  });
});

describe('printed dates that the record does not have', () => {
  it('are one finding, and the film must tell', () => {
    const { findings } = run(recordOf(issues(WEEKS)), (side) =>
      withIssues(side, (_, at) => (at < 2 ? { datePrinted: day(`190${String(at)}-01-01`) } : {})),
    );
    expect(findings.map(({ code, cause, count }) => [code, cause, count])).toEqual([['printed-date-differs', 'unclear', 4]]);
    expect(findings[0]?.says).toContain('the record has none');
  });
});

describe('a record that has one reading in every row', () => {
  const wanted = [1, 2, 3, 4, 5, 6, 7, 8];
  const labels = (label: (at: number) => Partial<FrameEntry>): FrameEntry[] =>
    wanted.map((number, at) => page(String(number), number, { ...label(at) }));
  const asCounted = (side: Side): Side => {
    const own = returnOf(side);
    const pages = own.reels[0]!.frames.map((frame, at) => {
      const text = at === 6 ? 'S1' : String(at + 1);
      return { ...frame, page: text, pageKey: text };
    });
    return { ...own, reels: [{ ...own.reels[0]!, frames: pages }] };
  };

  it('is one finding, also where one page is labelled otherwise', () => {
    const { findings } = run(recordOf(labels(() => ({ page: '1' }))), asCounted);
    expect(findings.map(({ code, cause }) => [code, cause])).toEqual([['page-number-differs', 'collation']]);
    expect(findings[0]?.says).toMatch(/^The record gives .* one page number, 1; the return gives them 2, 3, 4, 5, 6, S1 and 8\.$/);
  });
});

describe('the days that a reel is said to span', () => {
  const spanned = (side: Side, from: string, to: string): Side => ({
    ...side,
    reels: side.reels.map((reel) => ({ ...reel, facts: { startDate: from, endDate: to } })),
  });
  const late = WEEKS.map((date) => date.replace('1902', '1922'));

  it('go with the dates of its documents where these are told', () => {
    const { findings } = run(recordOf(issues(late)), (side) =>
      spanned(
        withIssues(side, (_, at) => ({ date: day(WEEKS[at] ?? '') })),
        '1902-08-06',
        '1902-09-03',
      ),
    );
    expect(findings.map(({ code }) => code)).toEqual(['date-differs']);
  });

  it('are told by themselves where the documents say otherwise', () => {
    const { findings } = run(recordOf(issues(WEEKS)), (side) => spanned(returnOf(side), '1922-08-06', '1922-09-03'));
    expect(findings.map(({ code, title }) => [code, title])).toEqual([['reel-facts-differ', null]]);
  });
});

describe('a page that the return states to be absent and the record does not', () => {
  const MANY = [...WEEKS, '1902-09-10', '1902-09-17', '1902-09-24', '1902-10-01', '1902-10-08'];
  /** Four pages to an issue; of the second only those that are given. */
  const record = (labels: readonly string[]) => {
    let frame = 0;
    return recordOf(
      MANY.flatMap((date, at) =>
        (at === 1 ? labels : ['1', '2', '3', '4']).map(
          (label, place): FrameEntry => ({
            frame: String((frame += 1)),
            date,
            page: label,
            order: place + 1,
          }),
        ),
      ),
    );
  };
  const stated = (labels: readonly string[], label: string, order: number | null) =>
    run(record(labels), (side) => ({
      ...returnOf(side),
      absences: [
        {
          reel: '417',
          title: side.titles[0]?.id ?? null,
          date: day('1902-08-13'),
          edition: 1,
          section: null,
          page: label,
          order,
          published: 'yes',
          issue: 1,
          place: {},
        },
      ],
    }));

  it.each<[string, string[], string, number]>([
    ['between two pages that lie on the film', ['1', '2', '4'], '3', 3],
    ['behind the last of three, where sheets have two sides', ['1', '2', '3'], '4', 4],
  ])('is no fault of the return %s', (_, labels, label, order) => {
    const { findings } = stated(labels, label, order);
    expect(findings.map(({ code, cause }) => [code, cause])).toEqual([['absence-stated-wrongly', 'collation']]);
    expect(findings[0]?.evidence).not.toEqual([]);
  });

  it('is taken back where the issue is whole without it', () => {
    const { findings } = stated(['1', '2', '3', '4'], '5', 5);
    expect(findings.map(({ code, cause, instruction }) => [code, cause, instruction])).toEqual([
      [
        'absence-stated-wrongly',
        'vendor-metadata',
        'Take back the statement that page 5 of The Saltreach Plowman of 1902-08-13 is absent.',
      ],
    ]);
  });
});
