import { describe, expect, it } from 'vitest';
import type { AbsentEntry, CollationRecord } from '../../src/model/collation-record.js';
import { sideOfRecord } from '../../src/normalise/record-side.js';
import { codes, page, recordOf, returnOf, run, TITLE } from '../support/small-reels.js';

const eight = Array.from({ length: 8 }, (_, at) => page(String(at + 1), at + 1));

describe('a wrong number at either end of a reel without targets', () => {
  it.each([
    ['the first', 0, '1', 13],
    ['the first', 0, '1', 20],
    ['the last', 7, '8', 60],
    ['the last but one', 6, '7', 30],
  ])('%s page is told alone, with its own number', (_, at, name, number) => {
    const numbers = eight.map((_frame, index) => (index === at ? number : index + 1));
    const result = run(recordOf(eight), (side) => returnOf(side, numbers));
    expect(codes(result)).toEqual(['frame-number-wrong']);
    expect(result.findings[0]).toMatchObject({ at: name, frames: { from: name, to: name }, count: 1 });
  });

  it("the first two pages under each other's numbers are two pages with wrong numbers or one exchange, and nothing else", () => {
    const result = run(recordOf(eight), (side) => returnOf(side, [2, 1, 3, 4, 5, 6, 7, 8]));
    expect(result.findings.length).toBeGreaterThan(0);
    expect(result.findings.every(({ frames }) => frames !== null && Number(frames.to) <= 2)).toBe(true);
  });
});

describe('the smallest reels', () => {
  it.each([1, 2, 3])('a reel of %i pages agrees with itself, and every other numbering is told without a fault of ours', (length) => {
    const frames = eight.slice(0, length);
    const record = recordOf(frames);
    expect(codes(run(record, (side) => returnOf(side)))).toEqual([]);
    const choices = [null, 1, 2, 3, 9, 40];
    const all = frames.reduce<(number | null)[][]>((lists) => lists.flatMap((list) => choices.map((one) => [...list, one])), [[]]);
    for (const numbers of all) {
      const right = numbers.every((number, at) => number === at + 1);
      const result = run(record, (side) => returnOf(side, numbers));
      if (numbers.every((number) => number === null)) expect(result.verdict.decision).toBe('cannot-decide');
      else expect(result.findings.length > 0, numbers.join()).toBe(!right);
    }
  });

  it('one page alone under another number is one wrong number', () => {
    const result = run(recordOf([page('1', 1)]), (side) => returnOf(side, [7]));
    expect(codes(result)).toEqual(['frame-number-wrong']);
    expect(result.findings[0]).toMatchObject({ at: '1', frames: { from: '1', to: '1' }, count: 1 });
  });

  it('a reel of which everything is held back is not in doubt: nothing was to come and nothing came', () => {
    const held = eight.map((frame) => ({ ...frame, deliver: false }));
    const nothing = run(recordOf(held), (side) => ({ ...returnOf(side), reels: [] }));
    expect(codes(nothing)).toEqual([]);
    const came = run(recordOf(held), (side) => ({
      ...returnOf(side),
      reels: [{ ...side.reels[0]!, frames: side.reels[0]!.frames.map((frame) => ({ ...frame, deliver: true })) }],
    }));
    expect(codes(came)).toEqual(['suppressed-frame-delivered']);
  });

  it('a document that holds no page, of an issue that the record does not have, is told', () => {
    const result = run(recordOf(eight), (side) => {
      const returned = returnOf(side);
      const stranger = { ...returned.issues[0]!, date: { text: '1902-08-13', day: '1902-08-13', uncertain: false } };
      return { ...returned, issues: [...returned.issues, stranger] };
    });
    expect(result.findings.map(({ code, date, cause }) => [code, date, cause])).toEqual([
      ['issue-not-in-collation', '1902-08-13', 'unclear'],
    ]);
    expect(result.verdict.decision).not.toBe('accept');
  });

  it('blanks and targets alone, and a reel without any frame, are no fault of ours', () => {
    expect(
      codes(
        run(
          recordOf([
            { frame: '1', kind: 'target' },
            { frame: '2', kind: 'blank' },
          ]),
          (side) => returnOf(side),
        ),
      ),
    ).toEqual([]);
    expect(codes(run(recordOf([]), (side) => returnOf(side)))).toEqual([]);
  });
});

describe('a reel number with and without zeros in front', () => {
  const absent: AbsentEntry[] = [
    { date: '1902-08-06', page: '9', order: 9, published: 'yes' },
    { date: '1902-08-07', published: 'yes' },
  ];
  it.each([
    ['00417', '417'],
    ['417', '00417'],
    ['00417', '00417'],
    ['0028065419A', '28065419a'],
  ])('the record says %s and the return %s: one reel, shown as it stands on the box, its absences with it', (mine, theirs) => {
    const result = run(recordOf(eight, mine, absent), (side) => ({
      ...returnOf(side, null, theirs),
      reels: [{ ...returnOf(side).reels[0]!, number: theirs.toLowerCase().replace(/^0+/, ''), text: theirs }],
      absences: side.absences,
    }));
    expect(codes(result)).toEqual([]);
    expect(result.reels.map(({ number }) => number)).toEqual([mine]);
    expect(result.reels[0]?.absent.map(({ date, page: label }) => [date, label])).toEqual([
      ['1902-08-06', '9'],
      ['1902-08-07', null],
    ]);
    expect(result.counts.reels.map(({ reel, absent: count }) => [reel, count])).toEqual([[mine, 2]]);
  });

  it('names the reel as the record does, whoever says something of it', () => {
    const result = run(recordOf(eight, '00417'), (side) => ({
      ...returnOf(side, null, '417'),
      absences: [
        {
          reel: '417',
          title: TITLE,
          date: { text: '1902-08-09', day: '1902-08-09', uncertain: false },
          edition: 1,
          section: null,
          page: null,
          order: null,
          published: 'yes',
          issue: null,
          place: {},
        },
      ],
    }));
    expect(result.findings.map(({ code, reel }) => [code, reel])).toEqual([['absence-stated-wrongly', '00417']]);
  });

  it('knows the twin of a held-back page by a reel number with zeros and a letter', () => {
    const two: CollationRecord = {
      ...recordOf([]),
      reels: [
        { number: '00417A', frames: eight.slice(0, 4) },
        { number: '418', frames: [page('1', 1, { deliver: false, duplicateOf: '00417a:001' }), page('2', 5), page('3', 6)] },
      ],
    };
    const [first, second] = sideOfRecord(two).reels;
    expect(second?.frames[0]?.duplicateOf).toEqual({ reel: first?.number, frame: '1', text: '00417a:001' });
  });
});
