import { describe, expect, it } from 'vitest';
import type { AbsentEntry, FrameEntry } from '../../src/model/collation-record.js';
import type { Issue, Side } from '../../src/model/film.js';
import { absenceIs, differencesOf, FOUR, frameIs, issueIs, line, linesOf, page, reelIs, TITLE } from './small.js';

const day = (text: string): Issue['date'] => ({ text, day: text, uncertain: false });

describe('a fact of an issue', () => {
  const facts: Partial<FrameEntry> = { datePrinted: '1902-08-05', editionLabel: 'Late', volume: '7', issueNumber: '12' };
  const frames = FOUR.map((frame) => ({ ...frame, ...facts }));
  it.each<[string, Partial<Issue>, string | null]>([
    ['title', { title: 'sn99000418' }, `title other: ${TITLE} / sn99000418`],
    ['no title', { title: null }, `title missing: ${TITLE} / -`],
    ['date', { date: day('1902-08-09') }, 'date other: 1902-08-06 / 1902-08-09'],
    ['the same day in other words', { date: { text: '6 Aug. 1902', day: '1902-08-06', uncertain: false } }, null],
    ['two days', { date: { ...day('1902-08-06')!, second: '1902-08-07' } }, 'date other: 1902-08-06 / 1902-08-06'],
    ['no date', { date: null }, 'date missing: 1902-08-06 / -'],
    ['edition', { edition: 2 }, 'edition other: 1 / 2'],
    ['no edition', { edition: null }, 'edition missing: 1 / -'],
    ['printed date', { datePrinted: day('1902-08-01') }, 'datePrinted other: 1902-08-05 / 1902-08-01'],
    ['edition label', { editionLabel: 'Early' }, 'editionLabel other: Late / Early'],
    ['edition label in capitals', { editionLabel: 'LATE' }, null],
    ['volume', { volume: '8' }, 'volume other: 7 / 8'],
    ['issue number', { issueNumber: null }, 'issueNumber missing: 12 / -'],
  ])('is told once for the issue, with all its pages: %s', (_, given, expected) => {
    const found = differencesOf({ frames, change: issueIs(0, given) });
    expect(found.map(line)).toEqual(expected === null ? [] : [expected]);
    for (const { pairs, recordIssue, returnIssue } of found) {
      expect(pairs).toEqual([0, 1, 2, 3].map((pair) => ({ alignment: 0, pair })));
      expect([recordIssue, returnIssue]).toEqual([0, 0]);
    }
  });

  it('is the date of a combined issue, with its first day or with both, and with no other second day', () => {
    const combined = FOUR.map((frame) => ({ ...frame, combinedWith: '1902-08-07' }));
    const both = (second: string) => issueIs(0, { date: { ...day('1902-08-06')!, second } });
    expect(linesOf({ frames: combined })).toEqual([]);
    expect(linesOf({ frames: combined, change: both('1902-08-07') })).toEqual([]);
    expect(linesOf({ frames: combined, change: both('1902-08-08') })).toHaveLength(1);
  });

  it('is not missed where the description of the document could not be read', () => {
    expect(linesOf({ frames, change: issueIs(0, { issueNumber: null, undescribed: true }) })).toEqual([]);
    expect(linesOf({ frames, change: issueIs(0, { issueNumber: '13', undescribed: true }) })).toEqual(['issueNumber other: 12 / 13']);
  });

  it('is no printed date that repeats the date of the document, even a wrong one; another printed date is told', () => {
    const both = issueIs(0, { date: day('1902-08-09'), datePrinted: day('1902-08-09') });
    expect(linesOf({ change: both })).toEqual(['date other: 1902-08-06 / 1902-08-09']);
    expect(linesOf({ frames, change: both })).toEqual([
      'date other: 1902-08-06 / 1902-08-09',
      'datePrinted other: 1902-08-05 / 1902-08-09',
    ]);
    const other = issueIs(0, { date: day('1902-08-09'), datePrinted: day('1902-08-01') });
    expect(linesOf({ change: other })).toEqual(['date other: 1902-08-06 / 1902-08-09', 'datePrinted other: 1902-08-06 / 1902-08-01']);
  });

  it('is told of each document that pages of the issue came in', () => {
    const change = (side: Side): Side => {
      const split = frameIs(3, { issue: 1 })({ ...side, issues: [...side.issues, { ...side.issues[0]!, date: day('1902-08-09') }] });
      return frameIs(2, { issue: 1 })(split);
    };
    const [date, document] = differencesOf({ change });
    expect([date, document].map((one) => [one?.field, one?.recordIssue, one?.returnIssue, one?.pairs.map(({ pair }) => pair)])).toEqual([
      ['date', 0, 1, [2, 3]],
      ['extra-document', 0, 1, [2, 3]],
    ]);
  });
});

describe('pages of an issue in a further document', () => {
  /** The last pages lie in a document of their own. */
  const split =
    (from: number, more: Partial<Issue> = {}) =>
    (side: Side): Side => ({
      ...side,
      issues: [...side.issues, { ...side.issues[0]!, ...more }],
      reels: [
        {
          ...side.reels[0]!,
          frames: side.reels[0]!.frames.map((frame, at) => (at < from ? frame : { ...frame, issue: side.issues.length })),
        },
      ],
    });
  const extra = (small: Parameters<typeof differencesOf>[0]): unknown[] =>
    differencesOf(small).flatMap(({ field, returnIssue, pairs }) =>
      field === 'extra-document' ? [[returnIssue, pairs.map(({ pair }) => pair)]] : [],
    );

  it('are an extra document: the smaller one where both name the issue, the other one where one names it', () => {
    expect(extra({ change: split(3) })).toEqual([[1, [3]]]);
    expect(extra({ change: split(1) })).toEqual([[0, [0]]]);
    expect(extra({ change: split(1, { date: day('1902-08-09') }) })).toEqual([[1, [1, 2, 3]]]);
    expect(extra({ change: split(1, { title: 'sn99000418' }) })).toEqual([[1, [1, 2, 3]]]);
    expect(extra({ change: split(1, { edition: 2 }) })).toEqual([[1, [1, 2, 3]]]);
  });

  it('of a later edition, are those in the document that calls it the first', () => {
    const frames = FOUR.map((frame) => ({ ...frame, edition: 2 }));
    expect(extra({ frames, change: split(1, { edition: 1 }) })).toEqual([[1, [1, 2, 3]]]);
  });

  it('are none where the other document holds pages of two issues and nothing tells whose it is: it is looked at by its own facts', () => {
    const two = [...FOUR, page('5', { date: '1902-08-07', page: '1', order: 1 })];
    const wrong = day('1902-08-19');
    const change = (side: Side): Side => {
      const joined = frameIs(4, { issue: 0 })(frameIs(3, { issue: 1 })(side));
      return issueIs(0, { date: wrong })(issueIs(1, { date: wrong })(joined));
    };
    expect(extra({ frames: two, change })).toEqual([]);
  });

  it('are none where the document holds an issue of its own, or the layout has one document for each reel', () => {
    const two = [...FOUR, page('5', { date: '1902-08-07', page: '1', order: 1 })];
    const change = (side: Side): Side => frameIs(3, { issue: 1 })(side);
    expect(extra({ frames: two, change })).toEqual([]);
    const onTwoReels = (side: Side): Side => ({ ...split(3)(side), documentsPerReel: true });
    expect(extra({ change: onTwoReels })).toEqual([[1, [3]]]);
  });

  it('do not count where they were to be held back', () => {
    const frames = FOUR.map((frame, at) => (at === 3 ? { ...frame, deliver: false } : frame));
    const change = (side: Side): Side => {
      const [first] = side.reels[0]!.frames;
      const more = { ...first!, frame: { text: '4', exposure: 4, half: '' }, page: '4', pageKey: '4', order: 4, issue: 1 };
      return reelIs({ frames: [...side.reels[0]!.frames, more] })({ ...side, issues: [...side.issues, side.issues[0]!] });
    };
    const found = differencesOf({
      frames,
      change,
      paired: (alignment) => ({
        ...alignment,
        pairs: alignment.pairs.map((pair, at) => (at === 3 ? { ...pair, returned: { reel: 0, frame: 3 } } : pair)),
      }),
    });
    expect(found.map(({ field }) => field)).toEqual(['delivered']);
  });
});

describe('a document without pages', () => {
  const empty =
    (more: Partial<Issue>) =>
    (side: Side): Side => ({ ...side, issues: [...side.issues, { ...side.issues[0]!, ...more }] });
  it.each<[string, Partial<Issue>, readonly string[]]>([
    ['of another day', { date: day('1902-08-09') }, ['empty-document surplus: - / -']],
    ['of another title', { title: 'sn99000418' }, ['empty-document surplus: - / -']],
    ['of another edition', { edition: 2 }, ['empty-document surplus: - / -']],
    ['without a date', { date: null }, ['empty-document surplus: - / -']],
    ['of an issue that the record has', {}, []],
    ['of an issue that the record has, its edition not named', { edition: null }, []],
    ['that says that the issue is not there', { date: day('1902-08-09'), present: false }, []],
  ])('%s', (_, more, expected) => {
    expect(linesOf({ change: empty(more) })).toEqual(expected);
    expect(differencesOf({ change: empty(more) }).map(({ returnIssue }) => returnIssue)).toEqual(expected.map(() => 1));
  });

  it('is one of a combined issue under its second day', () => {
    const frames = FOUR.map((frame) => ({ ...frame, combinedWith: '1902-08-07' }));
    expect(linesOf({ frames, change: empty({ date: day('1902-08-07') }) })).toEqual([]);
    expect(linesOf({ frames, change: empty({ date: day('1902-08-08') }) })).toEqual(['empty-document surplus: - / -']);
  });
});

describe('what is not on the film', () => {
  const absent: AbsentEntry[] = [
    { date: '1902-08-06', page: '5', order: 5, published: 'yes' },
    { date: '1902-08-07', published: 'yes' },
  ];
  const policies = { absentPages: 'stated', absentIssues: 'stated' } as const;
  const without =
    (at: number) =>
    (side: Side): Side => ({ ...side, absences: side.absences.filter((_, index) => index !== at) });

  it('agrees where both state it', () => {
    expect(linesOf({ absent, policies })).toEqual([]);
  });

  it('is missed where it must be stated, with the issue it belongs to', () => {
    const found = [0, 1].map((at) => differencesOf({ absent, policies, change: without(at) }));
    expect(found.map((list) => list.map(({ field, form, absence, recordIssue }) => [field, form, absence, recordIssue]))).toEqual([
      [['absence-missing', 'missing', 0, 0]],
      [['absence-missing', 'missing', 1, 1]],
    ]);
    const may = { absentPages: 'either', absentIssues: 'either' } as const;
    expect([0, 1].map((at) => linesOf({ absent, policies: may, change: without(at) }))).toEqual([[], []]);
  });

  it('must not be stated where the agreement says so', () => {
    const found = differencesOf({ absent, policies: { absentPages: 'omitted', absentIssues: 'stated' } });
    expect(found.map(({ field, form, absence, otherAbsence, returnIssue }) => [field, form, absence, otherAbsence, returnIssue])).toEqual([
      ['absence-extra', 'surplus', 0, 0, 0],
    ]);
  });

  it.each<[string, number, Parameters<typeof absenceIs>[1], readonly string[]]>([
    ['another page', 0, { page: '6', order: 6 }, ['absence-missing 0', 'absence-extra 0']],
    ['the same place under another label', 0, { page: '6' }, []],
    ['the same label at another place', 0, { order: 6 }, []],
    ['the same label in small letters and no place', 0, { page: '5', order: null }, []],
    ['the same place and no label', 0, { page: null }, []],
    ['a page of another section', 0, { section: 'B', order: null }, ['absence-missing 0', 'absence-extra 0']],
    [
      'another day',
      1,
      { date: { text: '1902-08-09', day: '1902-08-09', uncertain: false }, issue: null },
      ['absence-missing 1', 'absence-extra 1'],
    ],
    ['another edition', 1, { edition: 2, issue: null }, ['absence-missing 1', 'absence-extra 1']],
    ['another title', 1, { title: 'sn99000418', issue: null }, ['absence-missing 1', 'absence-extra 1']],
    ['no edition', 1, { edition: null }, []],
    ['not published', 1, { published: 'no' }, ['absence-published 1']],
    ['not published, in words that are not agreed', 1, { published: 'no', unreadWords: true }, []],
  ])('is told where the return states %s', (_, at, more, expected) => {
    const found = differencesOf({ absent, policies, change: absenceIs(at, more) });
    expect(found.map(({ field, absence }) => `${field} ${String(absence)}`)).toEqual(expected);
  });

  it('is not called published or not where the record does not know', () => {
    const unknown = absent.map((entry) => ({ ...entry, published: 'unknown' as const }));
    expect(linesOf({ absent: unknown, policies, change: absenceIs(1, { published: 'no' }) })).toEqual([]);
  });

  it('is known by the issue that the pages of its document belong to, whatever that document is dated', () => {
    const wrong = day('1902-08-09');
    const change = (side: Side): Side => issueIs(0, { date: wrong })(absenceIs(0, { date: wrong })(side));
    expect(linesOf({ absent, policies, change })).toEqual(['date other: 1902-08-06 / 1902-08-09']);
  });

  it('of an issue without a certain day is known by its words', () => {
    const unsure: AbsentEntry[] = [{ date: '1902-08-XX', published: 'yes' }];
    expect(linesOf({ absent: unsure, policies })).toEqual([]);
    const other = absenceIs(0, { date: { text: '1902-09-XX', day: null, uncertain: true }, issue: null });
    expect(linesOf({ absent: unsure, policies, change: other })).toEqual([
      'absence-missing missing: - / -',
      'absence-extra surplus: - / -',
    ]);
  });

  it('of a combined issue may be stated under its second day as well, and not of other days', () => {
    const combined: AbsentEntry[] = [{ date: '1902-08-07', combinedWith: '1902-08-08', published: 'yes' }];
    const also =
      (text: string) =>
      (side: Side): Side => ({ ...side, absences: [...side.absences, { ...side.absences[0]!, date: day(text), issue: null }] });
    expect(linesOf({ absent: combined, policies, change: also('1902-08-08') })).toEqual([]);
    expect(linesOf({ absent: combined, policies, change: also('1902-08-09') })).toEqual(['absence-extra surplus: - / -']);
  });

  it('stated twice is one too many', () => {
    const change = (side: Side): Side => ({ ...side, absences: [...side.absences, side.absences[0]!] });
    expect(differencesOf({ absent, policies, change }).map(({ field, absence }) => [field, absence])).toEqual([['absence-extra', 2]]);
  });

  it('is called present where its document holds no page and says nothing, whatever the agreement asks for', () => {
    const called =
      (more: Partial<Issue>) =>
      (side: Side): Side => ({
        ...without(1)(side),
        issues: side.issues.map((issue, at) => (at === 1 ? { ...issue, present: true, ...more } : issue)),
      });
    const may = { absentPages: 'stated', absentIssues: 'either' } as const;
    expect(linesOf({ absent, policies: may, change: called({}) })).toEqual(['absence-missing missing: - / present, without pages']);
    expect(linesOf({ absent, policies: may, change: called({ edition: null }) })).toEqual([
      'absence-missing missing: - / present, without pages',
    ]);
    expect(linesOf({ absent, policies: may, change: called({ present: false }) })).toEqual([]);
    const withPage = (side: Side): Side => frameIs(3, { issue: 1 })(called({})(side));
    expect(linesOf({ absent, policies: may, change: withPage })).not.toContain('absence-missing missing: - / present, without pages');
  });
});

describe('a fact that the library looked for and its own profile found nowhere', () => {
  const absent: AbsentEntry[] = [{ date: '1902-08-07', published: 'yes' }];
  const policies = { absentIssues: 'stated' } as const;
  const unfound =
    (field: 'date' | 'volume' | 'edition' | 'title') =>
    (side: Side): Side => ({
      ...side,
      issues: side.issues.map((issue, at) => (at === 0 ? { ...issue, [field]: null } : issue)),
      absences: [],
      unfound: [{ field, whereRecorded: false, unchecked: { what: field, why: '', frames: null, places: [], count: 1, required: false } }],
    });

  it.each(['date', 'edition', 'title'] as const)(
    'is missed on no page, and without it (%s) nobody can tell which issue is said to be absent',
    (field) => {
      expect(linesOf({ absent, policies, change: unfound(field) })).toEqual([]);
      const known = (side: Side): Side => ({ ...unfound(field)(side), unfound: [] });
      expect(linesOf({ absent, policies, change: known })).toHaveLength(2);
    },
  );

  it('is missed nowhere, and what is absent is all the same, where the issue is known without it', () => {
    const frames = FOUR.map((frame) => ({ ...frame, volume: '7' }));
    expect(linesOf({ frames, absent, policies, change: unfound('volume') })).toEqual(['absence-missing missing: - / -']);
  });

  it('is told where it stands and is another', () => {
    const frames = FOUR.map((frame) => ({ ...frame, volume: '7' }));
    const change = (side: Side): Side => issueIs(0, { volume: '8' })({ ...unfound('volume')(side), absences: side.absences });
    expect(linesOf({ frames, absent, policies, change })).toEqual(['volume other: 7 / 8']);
  });
});
