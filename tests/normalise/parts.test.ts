import { describe, expect, it } from 'vitest';
import type { Alignment } from '../../src/model/alignment.js';
import type { DocumentProblem, Frame, Issue, Side } from '../../src/model/film.js';
import type { Findings, Repair } from '../../src/model/findings.js';
import type { Profile } from '../../src/model/profile.js';
import type { WrittenIssue, WrittenReturn } from '../../src/model/written-return.js';
import type { SheetProblem, WrittenSheet } from '../../src/model/written-sheet.js';
import { byCause } from '../../src/normalise/by-cause.js';
import { issuesApart } from '../../src/normalise/copied-down.js';
import { firstInSeries, inSeries } from '../../src/normalise/in-series.js';
import { compareLabels, normaliseLccn, reelNumber, spreadLabel } from '../../src/normalise/labels.js';
import { pagesCell } from '../../src/normalise/pages-cell.js';
import { withoutReplaced } from '../../src/normalise/replaced.js';
import { countOn, isInferredReel } from '../../src/normalise/return-counted.js';
import { nothingRead, withoutPages } from '../../src/normalise/return-unread.js';
import type { Complaints } from '../../src/normalise/sheet-row.js';
import { tidyRecord } from '../../src/normalise/tidy-record.js';
import { checkWeekdays, realDay } from '../../src/normalise/weekday-column.js';
import { PROFILES } from '../../src/profiles/index.js';

const profile: Profile = PROFILES[0]!;

describe('documents of several folders', () => {
  /** An issue as its document gives it: name and folder, day and edition, frames of reel 1. */
  const issue = (
    document: string,
    folder: number,
    date: string,
    frames: readonly string[],
    facts: Record<string, string> = {},
    reel = '1',
  ): WrittenIssue =>
    ({
      facts: { titleId: 'sn99089156', date, ...facts },
      pages: frames.map((frame) => ({ facts: { frame, reel }, place: { document, element: `page-${frame}` } })),
      copies: [],
      reelFolder: null,
      folder,
      place: { document },
    }) as unknown as WrittenIssue;
  const written = (...issues: readonly WrittenIssue[]): WrittenReturn =>
    ({ issues, problems: issues.map(({ place }) => ({ place })), remarks: [] }) as unknown as WrittenReturn;
  const step = (facts: Partial<Repair>): Repair =>
    ({ do: 'set', document: 'old.xml', element: null, field: null, to: null, ...facts }) as unknown as Repair;
  const before = (repair: readonly Repair[], run: Partial<Findings['run']> = {}): Findings =>
    ({ run, findings: [{ repair }] }) as unknown as Findings;
  const by = (earlier: Findings | null, ...issues: readonly WrittenIssue[]): string => {
    const { replaced } = withoutReplaced(written(...issues), profile, earlier);
    return replaced.map((one) => `${one.document} ← ${one.by.join(' ')}`).join('; ');
  };
  const old = issue('old.xml', 0, '1879-08-23', ['1', '2']);

  it('stand for themselves in one folder, and where the later one brings other frames', () => {
    const same = written(old, issue('new.xml', 0, '1879-08-23', ['1', '2']));
    expect(withoutReplaced(same, profile, null)).toEqual({ written: same, replaced: [] });
    expect(by(null, old, issue('new.xml', 1, '1879-08-23', ['1']))).toBe('');
    expect(by(null, old, issue('new.xml', 1, '1879-08-23', ['1', '2'], {}, '2'))).toBe('');
    expect(by(null, issue('old.xml', 1, '1879-08-23', ['1', '2']), issue('new.xml', 0, '1879-08-30', ['5']))).toBe('');
    expect(by(null, issue('old.xml', 0, '1879-08-23', []), issue('new.xml', 1, '1879-08-23', ['1']))).toBe('');
  });

  it('are replaced where every frame came again, by one document or several, and it is said', () => {
    expect(by(null, old, issue('new.xml', 1, '1879-08-23', ['1', '2', '3']))).toBe('old.xml ← new.xml');
    expect(
      by(null, old, issue('a.xml', 1, '1879-08-23', ['1']), issue('b.xml', 2, '1879-08-30', ['2']), issue('c.xml', 1, '1879-08-30', ['7'])),
    ).toBe('old.xml ← a.xml b.xml');
    const made = withoutReplaced(written(old, issue('new.xml', 1, '1879-08-23', ['1', '2'])), profile, null).written;
    expect([made.issues.length, made.problems.length, made.remarks]).toEqual([
      1,
      1,
      ['"old.xml" of an earlier folder was left out: "new.xml" of a later one takes its place under another name.'],
    ]);
    const two = withoutReplaced(
      written(old, issue('a.xml', 1, '1879-08-23', ['1']), issue('b.xml', 1, '1879-08-23', ['2'])),
      profile,
      null,
    ).written;
    expect(two.remarks).toEqual([
      '"old.xml" of an earlier folder was left out: "a.xml", "b.xml" of a later one take its place under another name.',
    ]);
  });

  it('with an earlier result are replaced only as the same issue', () => {
    expect(by(before([]), old, issue('new.xml', 1, '1879-08-23', ['1', '2']))).toBe('old.xml ← new.xml');
    for (const [date, facts] of [
      ['1879-08-30', {}],
      ['1879-08-23', { edition: '2' }],
      ['1879-08-23', { titleId: 'sn99018200' }],
    ] as const)
      expect(by(before([]), old, issue('new.xml', 1, date, ['1', '2'], facts))).toBe('');
    // without a day nothing is the same issue
    expect(by(before([]), issue('old.xml', 0, '', ['1']), issue('new.xml', 1, '', ['1']))).toBe('');
    // an edition that is not written is the first
    expect(by(before([]), old, issue('new.xml', 1, '1879-08-23', ['1', '2'], { edition: '1' }))).toBe('old.xml ← new.xml');
  });

  it('are replaced by what was asked for, whatever frames it has', () => {
    const renamed = [step({ field: 'date', to: '1879-08-30' })];
    expect(by(before(renamed), old, issue('new.xml', 1, '1879-08-30', ['9']))).toBe('old.xml ← new.xml');
    expect(by(before(renamed), old, issue('new.xml', 1, '1879-09-06', ['9']))).toBe('');
    expect(by(before([...renamed, step({ field: 'date', to: '1879-09-06' })]), old, issue('new.xml', 1, '1879-09-06', ['9']))).toBe(
      'old.xml ← new.xml',
    );
    expect(by(before([step({ field: 'date', to: '1879-08-30', element: 'page-1' })]), old, issue('new.xml', 1, '1879-08-30', ['9']))).toBe(
      '',
    );
    expect(
      by(before([step({ field: 'date', to: '1879-08-30', document: 'other.xml' })]), old, issue('new.xml', 1, '1879-08-30', ['9'])),
    ).toBe('');
    expect(by(before([step({ field: 'edition', to: '2' })]), old, issue('new.xml', 1, '1879-08-23', ['9'], { edition: '2' }))).toBe(
      'old.xml ← new.xml',
    );
    expect(
      by(before([step({ field: 'title', to: 'sn99018200' })]), old, issue('new.xml', 1, '1879-08-23', ['9'], { titleId: 'sn99018200' })),
    ).toBe('old.xml ← new.xml');
    expect(by(before([], { replaced: [{ document: 'old.xml', by: ['gone.xml'] }] }), old, issue('new.xml', 1, '1879-09-06', ['9']))).toBe(
      'old.xml ← gone.xml',
    );
  });

  it('are replaced by the document to which all their pages were given', () => {
    const merge = step({ do: 'merge', to: 'new.xml' });
    const move = (page: string, to = 'new.xml'): Repair => step({ do: 'move', element: `page-${page}`, to });
    const newer = issue('new.xml', 1, '1879-08-30', ['9']);
    expect(by(before([merge]), old, newer)).toBe('old.xml ← new.xml');
    expect(by(before([move('1'), move('2')]), old, newer)).toBe('old.xml ← new.xml');
    expect(by(before([move('1')]), old, newer)).toBe('');
    expect(by(before([move('1'), step({ do: 'remove', element: 'page-2' })]), old, newer)).toBe('old.xml ← new.xml');
    expect(by(before([move('1'), move('2', 'other.xml')]), old, newer)).toBe('old.xml ← new.xml');
    expect(by(before([{ ...merge, field: 'page' }]), old, newer)).toBe('');
    expect(by(before([step({ do: 'remove', element: 'page-1' }), step({ do: 'remove', element: 'page-2' })]), old, newer)).toBe('');
  });
});

describe('frames that nobody numbered', () => {
  const dated = (day: string | null, edition: number | null = 1): Issue =>
    ({ date: day === null ? null : { text: day, day, uncertain: false }, edition }) as unknown as Issue;
  const frames = (...issues: readonly (number | null)[]): Frame[] =>
    issues.map((issue, at) => ({ frame: null, issue, page: String(at) }) as unknown as Frame);
  const counting = { facts: { page: { frame: { sources: [{ in: 'count' }] } }, reel: {} } } as unknown as Profile;
  const counted = (list: Frame[], issues: readonly Issue[], by: Profile = counting): readonly string[] => {
    const draft = { frames: list };
    countOn(draft, issues, by);
    return draft.frames.map(
      ({ page, frame }) => `${page ?? ''}:${frame === null ? '-' : `${frame.text}${frame.inferred === true ? '?' : ''}`}`,
    );
  };

  it('are counted by day and edition, then as they came; an issue without a day comes last', () => {
    const issues = [dated('1879-08-30'), dated('1879-08-23', 2), dated('1879-08-23'), dated(null), dated('1879-08-23', null)];
    expect(counted(frames(0, 1, 2, 3, 2, 4), issues)).toEqual(['2:1?', '4:2?', '5:3?', '1:4?', '0:5?', '3:6?']);
  });

  it('keep the numbers that some of them have, and are none where the profile counts nothing', () => {
    const some = frames(0, 0);
    some[1] = { ...some[1]!, frame: { text: '7', exposure: 7, half: '' } };
    expect(counted(some, [dated('1879-08-23')])).toEqual(['0:-', '1:7']);
    expect(
      counted(frames(0), [dated('1879-08-23')], { facts: { page: { frame: { sources: ['@ORDER'] } } } } as unknown as Profile),
    ).toEqual(['0:-']);
    // in a volume of print a number is a place and no more
    expect(
      counted([some[1], frames(0)[0]!], [dated('1879-08-23')], { carrier: 'print', facts: { page: {} } } as unknown as Profile),
    ).toEqual(['1:7?', '0:-']);
  });

  it('lie on a reel that nobody named where there is no number, or the profile itself gives it', () => {
    const reel = (facts: object): Profile => ({ facts: { page: {}, reel: {}, ...facts } }) as unknown as Profile;
    const constant = { reel: { sources: ['@X', { in: 'constant', text: '1' }] } };
    expect(isInferredReel({ number: '1', text: '1' }, reel({ page: constant }))).toBe(true);
    expect(isInferredReel({ number: '1', text: '1' }, reel({ reel: constant }))).toBe(true);
    expect(isInferredReel({ number: '2', text: '2' }, reel({ page: constant }))).toBe(false);
    expect(isInferredReel({ number: '', text: '' }, reel({}))).toBe(true);
    expect(isInferredReel({ number: '', text: '' }, reel({ page: { reel: { sources: [] } } }))).toBe(true);
    expect(isInferredReel({ number: '', text: '' }, reel({ page: { reel: { sources: ['@X'] } } }))).toBe(false);
    expect(isInferredReel({ number: '3', text: '3' }, reel({}))).toBe(false);
  });
});

describe('a day that was copied down too far', () => {
  /** Pages of the record, `issue page order`, and the document of each by title, day and edition. */
  function apart(
    record: readonly string[],
    documents: readonly (readonly [title: string | null, date: string | null, edition: number])[],
    came: readonly (number | null)[],
  ): readonly string[] {
    const issueOf = (title: string | null, date: string | null, edition: number): Issue =>
      ({
        title,
        date: date === null ? null : { text: date, day: date, uncertain: false },
        edition,
        volume: 'V',
        place: {},
        copies: [],
      }) as unknown as Issue;
    const mine = record.map((text) => {
      const [issue = '0', page = '1', order = '', volume = ''] = text.split(' ');
      return {
        issue: Number(issue),
        deliver: true,
        section: null,
        pageKey: page,
        order: order === '' || order === '-' ? null : Number(order),
        place: {},
        ...(volume === '' ? {} : { ofIssue: { volume } }),
      } as unknown as Frame;
    });
    const side = (issues: readonly Issue[], frames: readonly Frame[]): Side =>
      ({ issues, reels: [{ frames }], absences: [] }) as unknown as Side;
    const returned = side(
      documents.map((one) => issueOf(...one)),
      came.map((document) => ({ issue: document }) as unknown as Frame),
    );
    const pairs = came.map((document, at) => ({ record: at, returned: document === null ? null : { reel: 0, frame: at } }));
    const made = issuesApart(
      side([issueOf('t', '1879-08-23', 1), issueOf('t', '1879-09-06', 1)], mine),
      [{ recordReel: 0, pairs: pairs.toReversed() }] as unknown as Alignment[],
      returned,
    );
    return made.reels[0]!.frames.map(({ issue, order }) => `${String(issue)} ${String(order)} ${String(made.issues[issue ?? -1]?.volume)}`);
  }
  const day = (date: string, edition = 1): readonly [string, string, number] => ['t', date, edition];

  it('makes one issue of two, which are told apart by the documents in which their pages came', () => {
    expect(apart(['0 1 1', '0 2 2', '0 1 3', '0 2 4'], [day('1879-08-23'), day('1879-08-30')], [0, 0, 1, 1])).toEqual([
      '0 1 null',
      '0 2 null',
      '2 1 null',
      '2 2 null',
    ]);
    // each says of itself what its own rows said
    expect(apart(['0 1 1 4', '0 2 2', '0 1 3 5', '0 2 4'], [day('1879-08-23'), day('1879-08-30')], [0, 0, 1, 1])).toEqual([
      '0 1 4',
      '0 2 4',
      '2 1 5',
      '2 2 5',
    ]);
    // places that were counted anew already stay
    expect(apart(['0 1 1', '0 2 2', '0 1 1', '0 2 -'], [day('1879-08-23'), day('1879-08-30')], [0, 0, 1, 1])).toEqual([
      '0 1 null',
      '0 2 null',
      '2 1 null',
      '2 null null',
    ]);
  });

  it('is not told where one document holds the pages, comes twice, or holds others too', () => {
    const whole = ['0 1 V', '0 2 V', '0 3 V', '0 4 V'];
    const pages = ['0 1 1', '0 2 2', '0 3 3', '0 4 4'];
    expect(apart(pages, [day('1879-08-23')], [0, 0, 0, 0])).toEqual(whole);
    expect(apart(pages, [day('1879-08-23'), day('1879-08-30')], [0, 1, 0, 0]).every((text) => text.startsWith('0 '))).toBe(true);
    expect(apart(['0 1 1', '0 2 2', '0 3 3', '1 1 1'], [day('1879-08-23'), day('1879-08-30')], [0, 0, 1, 1])).toEqual([
      '0 1 V',
      '0 2 V',
      '0 3 V',
      '1 1 V',
    ]);
    expect(apart(pages, [day('1879-08-23'), day('1879-08-30')], [0, 0, null, null])).toEqual(['0 1 V', '0 2 V', '0 3 V', '0 4 V']);
  });

  it('is not told by documents that do not say what they are, or say the same', () => {
    const pages = ['0 1 1', '0 2 2', '0 1 3', '0 2 4'];
    const stays = (...documents: readonly (readonly [title: string | null, date: string | null, edition: number])[]): boolean =>
      apart(pages, documents, [0, 0, 1, 1]).every((text) => text.startsWith('0 '));
    expect(stays(day('1879-08-23'), [null, '1879-08-30', 1])).toBe(true);
    expect(stays(day('1879-08-23'), ['t', null, 1])).toBe(true);
    expect(stays(day('1879-08-23'), day('1879-08-23'))).toBe(true);
    expect(stays(day('1879-08-23'), ['u', '1879-08-23', 1])).toBe(false);
  });

  it('is told by editions only where the labels of the record begin anew', () => {
    const editions = [day('1879-08-23', 1), day('1879-08-23', 2)];
    expect(apart(['0 1 1', '0 2 2', '0 1 3', '0 2 4'], editions, [0, 0, 1, 1])[2]).toMatch(/^2 /);
    expect(apart(['0 1 1', '0 2 2', '0 3 3', '0 4 4'], editions, [0, 0, 1, 1])[2]).toMatch(/^0 /);
    expect(apart(['0 1 1', '0 2 2', '0 2 3', '0 3 4'], editions, [0, 0, 1, 1])[2]).toMatch(/^2 /);
  });
});

describe('where a library’s own profile finds nothing', () => {
  const own = { ...profile, name: 'own', own: true } as Profile;
  const issueWith = (pages: number, present?: string): WrittenIssue =>
    ({
      facts: present === undefined ? {} : { present },
      pages: Array.from({ length: pages }),
      place: { document: 'a.xml' },
    }) as unknown as WrittenIssue;
  const of = (facts: Partial<WrittenReturn>, by: Profile = own) =>
    nothingRead({ issues: [], problems: [], ...facts } as unknown as WrittenReturn, by);

  it('nothing is asked of a built-in one, nor where one page was read, nor where no issue is there', () => {
    expect(of({ issues: [issueWith(0)] }, profile)).toBeNull();
    expect(of({ issues: [issueWith(0), issueWith(1)] })).toBeNull();
    expect(of({})).toBeNull();
  });

  it('it is asked whether the profile or the documents are wrong', () => {
    expect(of({ issues: [issueWith(0)] })?.unchecked).toMatchObject({ what: 'the pages', count: 1, required: true });
    expect(of({ issues: [issueWith(0)] })?.unchecked.why).toMatch(
      /and found none for any of 1 issue\. Either "divisions" or "pagesOfIssue" of the profile is wrong/,
    );
    expect(
      of({
        issues: [issueWith(0), issueWith(0)],
        problems: [{ code: 'page-not-delivered', says: 'Nothing names it.' }] as unknown as DocumentProblem[],
      })?.unchecked.why,
    ).toContain('for any of 2 issues. Nothing names it. Either');
    const many = Array.from({ length: 101 }, () => issueWith(0));
    expect(of({ issues: many })?.unchecked).toMatchObject({ count: 101, places: expect.objectContaining({ length: 100 }) as unknown });
  });

  it('the divisions that are there are named, eight sorts of them at most', () => {
    const document = (...types: readonly string[]) =>
      ({ document: 'a.xml', types }) as unknown as NonNullable<WrittenReturn['undivided']>[number];
    expect(of({ undivided: [document('a', 'b'), document('b')] })?.unchecked.why).toMatch(
      /and 2 documents have none; the divisions there are of the type "a", "b"\. /,
    );
    expect(of({ undivided: [document()] })?.unchecked.why).toMatch(
      /and the one document has none; the divisions there are of the type of nothing at all\./,
    );
    expect(of({ undivided: [document(...'a b c d e f g h i'.split(' '))] })?.unchecked.why).toContain('"g", "h". ');
    const rule = (map?: string) =>
      ({ ...own, divisions: { ...own.divisions, issue: { types: ['x', 'y'], ...(map === undefined ? {} : { map }) } } }) as Profile;
    expect(of({ undivided: [document('a')] }, rule())?.unchecked.why).toContain('of the type "x" or "y", and');
    expect(of({ undivided: [document('a')] }, rule('logical'))?.unchecked.why).toContain(
      'of the type "x" or "y" in a structMap of the TYPE "logical", and',
    );
  });

  it('what only says again that no page was read is left out, and files that no page names wait', () => {
    const problem = (code: string, field: string | null): DocumentProblem =>
      ({ code, field, returned: 'x.jp2', place: {} }) as unknown as DocumentProblem;
    const list = [
      problem('page-not-delivered', null),
      problem('file-not-listed', 'file'),
      problem('file-not-listed', null),
      problem('file-missing', 'file'),
    ];
    const { problems, unchecked } = withoutPages(list);
    expect(problems).toEqual([list[2], list[3]]);
    expect(unchecked.map(({ what }) => what)).toEqual(['files that no page names: x.jp2']);
  });
});

describe('problems of a record by their cause', () => {
  const problem = (facts: Partial<SheetProblem>): SheetProblem => ({
    file: 'a.csv',
    sheet: 'a',
    row: 1,
    column: 'date',
    held: '"x"',
    says: 'is no day.',
    ...facts,
  });

  it('name the place of one, and the number of several with three that look different', () => {
    expect(byCause([problem({})])).toEqual([expect.stringMatching(/^a\.csv, row 1, column date: "x" is no day\.$/)]);
    expect(byCause([problem({ row: null, column: null, guess: '"y"' })])).toEqual(['a.csv: "x" ("y"?) is no day.']);
    const many = ['"x"', '"x"', '"y"', '"z"', '"w"'].map((held, at) => problem({ held, row: at + 1 }));
    expect(byCause(many)).toEqual(['a.csv, column date, 5 cells, such as "x" (row 1), "y" (row 3) and "z" (row 4): each is no day.']);
    expect(byCause(many.slice(0, 3))).toEqual([
      'a.csv, column date, 3 cells, such as "x" (row 1), "y" (row 3) and "x" (row 2): each is no day.',
    ]);
  });

  it('are of one cause only with the same column and sentence; cells that hold for rows below count once', () => {
    expect(byCause([problem({}), problem({ column: 'page' }), problem({ says: 'is empty.' })])).toHaveLength(3);
    expect(byCause([problem({}), problem({ row: 2, again: true }), problem({ row: 3, again: true })])).toEqual([
      expect.stringMatching(/^a\.csv, row 1, column date: "x"/),
    ]);
    expect(byCause([problem({ row: 2, again: true }), problem({ row: 3, again: true })])).toEqual([
      expect.stringMatching(/^a\.csv, row 2,/),
    ]);
  });

  it('name rows, places, sheets and files as there are several of them', () => {
    const whole: SheetProblem = { file: 'a.csv', sheet: 'a', row: 1, column: null, says: 'it has no date.' };
    expect(byCause([whole, { ...whole, row: 2 }])).toEqual(['a.csv, 2 rows, such as row 1 and row 2: it has no date.']);
    expect(byCause([problem({ sheet: 'one' }), problem({ sheet: 'two', row: 2 })])[0]).toMatch(
      /^a\.csv, 2 sheets, column date, 2 cells, such as "x" \(row 1 of .*one.*\) and "x" \(row 2 of .*two.*\)/,
    );
    expect(byCause([problem({}), problem({ file: 'b.csv', sheet: 'b', row: 2 })])[0]).toMatch(/^2 files, column date, 2 cells/);
    expect(byCause([problem({ sheet: 'one' }), problem({ sheet: 'two' }), problem({ file: 'b.csv', sheet: 'one' })])[0]).toMatch(
      /^2 files, 3 sheets, column date/,
    );
  });
});

describe('small words and labels', () => {
  it('in a series, with a last one or a rest', () => {
    expect([inSeries([]), inSeries(['a']), inSeries(['a', 'b']), inSeries(['a', 'b', 'c'], 'or')]).toEqual([
      '',
      'a',
      'a and b',
      'a, b or c',
    ]);
    expect([firstInSeries(['a', 'b', 'c'], 3), firstInSeries(['a', 'b', 'c'], 2), firstInSeries(['a', 'b'], 3)]).toEqual([
      'a, b and c',
      'a, b and 1 more',
      'a and b',
    ]);
  });

  it('of pages as ranges: only numbers of one sort that follow each other', () => {
    const item = (text: string, sort: string, prefix: string, number: number) => ({ text, run: { sort, prefix, number } });
    expect(pagesCell([item('1', 'p', '', 1), item('2', 'p', '', 2), item('3', 'p', '', 3)])).toBe('1-3');
    expect(pagesCell([item('1', 'p', '', 1), item('2', 'p', '', 2), item('4', 'p', '', 4)])).toBe('1-2,4');
    expect(pagesCell([item('A1', 'p', 'A', 1), item('B2', 'p', 'B', 2)])).toBe('A1,B2');
    expect(pagesCell([item('1', 'p', '', 1), item('x2', 'x', '', 2)])).toBe('1,x2');
    expect(pagesCell([item('[A1?]', 'q', 'A', 1), item('[A2?]', 'q', 'A', 2), { text: '-', run: null }, { text: '-', run: null }])).toBe(
      '[A1-A2?],-,-',
    );
    expect(pagesCell([])).toBe('');
  });

  it('of labels as a reader sorts them, and runs of pages on one image', () => {
    expect(['10', '2', 'B1', 'A2', 'A10', '2A', '002'].toSorted(compareLabels)).toEqual(['2', '002', '2A', '10', 'A2', 'A10', 'B1']);
    expect(spreadLabel('2-3')).toEqual({ letters: '', first: 2, last: 3 });
    expect(spreadLabel('A2/A3')).toEqual({ letters: 'A', first: 2, last: 3 });
    expect([spreadLabel('3-2'), spreadLabel('2-2'), spreadLabel('A2-B3'), spreadLabel('1-5'), spreadLabel('12')]).toEqual([
      null,
      null,
      null,
      null,
      null,
    ]);
    expect(spreadLabel('1-4')).toMatchObject({ first: 1, last: 4 });
  });

  it('that are no LCCN, and reels without zeros in front', () => {
    for (const text of ['n78-8903510', 'abcd78890351', 'abc2001000002', '7889035', '788903511', 'n78890351x', 'n78-', '78-a'])
      expect(normaliseLccn(text)).toBeNull();
    expect([reelNumber('0051701008A'), reelNumber(' 0 '), reelNumber('000'), reelNumber('')]).toEqual(['51701008a', '0', '0', null]);
  });

  it('of weekdays beside a day, by the calendar of its title', () => {
    const sheet = (...rows: readonly string[]): WrittenSheet =>
      ({
        file: 'a.csv',
        sheet: '',
        headers: ['title', 'date', ' Weekday of date '],
        rows: rows.map((text, at) => ({ row: at + 2, cells: text.split('|') })),
      }) as unknown as WrittenSheet;
    const told = (...rows: readonly string[]): readonly (string | undefined)[] => {
      const complaints = { problems: [], remarks: [] } as unknown as Complaints;
      checkWeekdays(sheet(...rows), [{ id: 'a' }, { id: 'b', calendar: 'julian-until 1918-01-31' }], complaints);
      return complaints.remarks.map(({ row, held }) => `${String(row)} ${held ?? ''}`);
    };
    // 23 August 1879 was a Saturday; the day that a Julian paper called so was a Thursday, 4 September
    expect(told('a|1879-08-23|Saturday', 'a|1879-08-23|', 'a||Sunday', 'b|1879-08-23|Thursday')).toEqual([]);
    expect(told('a|1879-08-23|Sunday', 'b|1879-08-23|Saturday')).toEqual([
      '2 "Sunday" beside 1879-08-23, a Saturday,',
      '3 "Saturday" beside 1879-08-23, a Thursday,',
    ]);
    expect([
      realDay('1879-08-23', undefined, [{ id: 'b', calendar: 'julian-until 1918-01-31' }]),
      realDay('1879-08-23', undefined, [{ id: 'a' }, { id: 'b', calendar: 'julian-until 1918-01-31' }]),
    ]).toEqual(['1879-09-04', '1879-08-23']);
  });

  it('of a record, without white space and empty texts, and without a new object where there is none', () => {
    const record = (facts: object) =>
      ({
        format: 'reeltally/collation-record/1',
        titles: [{ id: 'a' }],
        reels: [{ number: '1', frames: [facts], absent: [] }],
      }) as unknown as Parameters<typeof tidyRecord>[0];
    const frameOf = (facts: object): unknown => tidyRecord(record(facts)).reels[0]?.frames[0];
    expect(frameOf({ frame: ' 1 ', note: ' ', condition: [' torn ', ''], order: 2 })).toEqual({
      frame: '1',
      condition: ['torn'],
      order: 2,
    });
    expect(frameOf({ frame: '1', condition: [] })).toEqual({ frame: '1' });
    expect(frameOf({ frame: '1', condition: ['torn', ' stained'] })).toEqual({ frame: '1', condition: ['torn', 'stained'] });
    const tidy = { frame: '1', condition: ['torn'] };
    expect(frameOf(tidy)).toBe(tidy);
    expect(tidyRecord(record(tidy)).reels[0]).not.toHaveProperty('absent');
    expect(tidyRecord({ ...record(tidy), reels: [{ number: ' 1', frames: [] }] }).reels[0]).toEqual({ number: '1', frames: [] });
  });
});
