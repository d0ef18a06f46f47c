import { describe, expect, it } from 'vitest';
import { changedSince } from '../../src/collation/changed.js';
import { settledRecord } from '../../src/collation/settled.js';
import { totalsInWords } from '../../src/collation/totals.js';
import type { AbsentEntry, CollationRecord, FrameEntry, ReelEntry } from '../../src/model/collation-record.js';
import type { Side } from '../../src/model/film.js';

const page = (frame: string, facts: Partial<FrameEntry> = {}): FrameEntry => ({ frame, date: '1879-08-23', page: frame, ...facts });
const blank = (frame: string): FrameEntry => ({ frame, kind: 'blank' });
const record = (
  frames: readonly FrameEntry[],
  facts: Partial<ReelEntry> = {},
  titles: CollationRecord['titles'] = [{ id: 'sn99089156' }],
): CollationRecord => ({
  format: 'reeltally/collation-record/2',
  titles,
  reels: [{ number: '55901', ...facts, frames }],
});
const PAGES = ['1', '2', '3', '4'].map((frame) => page(frame));
/** What is said of one reel that was PAGES. */
const said = (frames: readonly FrameEntry[], before: readonly FrameEntry[] = PAGES): readonly string[] =>
  changedSince(record(before), record(frames));

describe('what was changed in a record since it was sent', () => {
  it('is nothing where defaults were written out, zeros put in front, or notes made', () => {
    expect(said(PAGES)).toEqual([]);
    expect(
      said(
        PAGES.map((one) => ({
          ...one,
          frame: `00${one.frame}`,
          kind: 'page' as const,
          deliver: true,
          edition: 1,
          title: 'sn99089156',
          note: 'x',
        })),
      ),
    ).toEqual([]);
    expect(said([...PAGES.slice(0, 3), { ...blank('4'), order: 9 }], [...PAGES.slice(0, 3), blank('4')])).toEqual([]);
  });

  it('is told by the facts of frames, those that share one together', () => {
    expect(said(PAGES.map((one) => ({ ...one, date: '1879-08-30' })))).toEqual([
      'Reel 55901, frames 1 to 4: the date was 1879-08-23 and is now 1879-08-30.',
    ]);
    expect(said([page('1'), page('2', { page: '2a' }), ...PAGES.slice(2)])).toEqual(['Reel 55901, frame 2: the page was 2 and is now 2a.']);
    expect(said([page('1', { section: 'A' }), page('2'), page('3', { section: 'A' }), page('4')])).toEqual([
      'Reel 55901, frames 1 and 3: the section is given now: A.',
    ]);
    expect(said(PAGES, [page('1', { section: 'A' }), ...PAGES.slice(1)])).toEqual([
      'Reel 55901, frame 1: the section A is no longer given.',
    ]);
    expect(
      said([page('1', { condition: ['torn', 'stained'] }), ...PAGES.slice(1)], [page('1', { condition: ['torn'] }), ...PAGES.slice(1)]),
    ).toEqual(['Reel 55901, frame 1: the condition was torn and is now torn; stained.']);
    expect(said([page('1', { deliver: false }), ...PAGES.slice(1)])).toEqual([
      'Reel 55901, frame 1: held back now, to be delivered before.',
    ]);
    expect(said(PAGES, [page('1', { deliver: false }), ...PAGES.slice(1)])).toEqual([
      'Reel 55901, frame 1: to be delivered now, held back before.',
    ]);
    expect(said([page('1'), page('2'), page('3A'), page('4')], [page('1'), page('2'), page('3B', { page: '3A' }), page('4')])).toEqual([
      'Reel 55901, frame 3A has another number than before.',
    ]);
  });

  it('is a frame that was added or taken out, and that those behind it have other numbers', () => {
    const shifted = [blank('1'), ...PAGES.map((one, at) => ({ ...one, frame: String(at + 2) }))];
    expect(said(shifted)).toEqual(['Reel 55901, frame 1 was added (blank).', 'Reel 55901, frames 2 to 5 have another number than before.']);
    expect(said(PAGES, shifted).toSorted()).toEqual([
      'Reel 55901, frame 1 was taken out (blank).',
      'Reel 55901, frames 1 to 4 have another number than before.',
    ]);
    expect(said([...PAGES, page('5')])).toEqual(['Reel 55901, frame 5 was added (page).']);
  });

  it('is each of several frames that show the same', () => {
    const before = [page('1'), blank('2'), blank('3'), page('4')];
    const after = [page('1'), { frame: '2', kind: 'target' as const }, page('3', { page: '4' })];
    expect(said(after, before)).toEqual([
      'Reel 55901, frame 2 was added (target).',
      'Reel 55901, frames 2 to 3 were taken out (blank).',
      'Reel 55901, frame 3 has another number than before.',
    ]);
    expect(said(before, after)).toEqual([
      'Reel 55901, frames 2 to 3 were added (blank).',
      'Reel 55901, frame 2 was taken out (target).',
      'Reel 55901, frame 4 has another number than before.',
    ]);
  });

  it('is told of reels, titles and what is not on the film', () => {
    const lost = (facts: Partial<AbsentEntry>): AbsentEntry => ({ date: '1879-08-26', ...facts });
    const absent = (before: readonly AbsentEntry[], after: readonly AbsentEntry[]): readonly string[] =>
      changedSince(record(PAGES, { absent: [...before] }), record(PAGES, { absent: [...after] }));
    expect(absent([], [lost({})])).toEqual(['Reel 55901, the issue of 1879-08-26 (not on the film) was added.']);
    expect(absent([lost({ page: '3' })], [])).toEqual(['Reel 55901, page 3 of 1879-08-26 (not on the film) was taken out.']);
    expect(absent([lost({})], [lost({ published: 'no' })])).toEqual([
      'Reel 55901, the issue of 1879-08-26 (not on the film): the published was unknown and is now no.',
    ]);
    expect(
      absent([lost({}), lost({ date: '1879-08-28' })], [lost({ date: '1879-08-28', edition: 1 }), lost({ published: 'unknown' })]),
    ).toEqual([]);
    expect(changedSince(record(PAGES), record(PAGES, { number: '055901' }))).toEqual([
      'Reel 055901: the number was 55901 and is now 055901.',
    ]);
    expect(changedSince(record(PAGES), record(PAGES, { number: '7' }))).toEqual(['Reel 7 was added.', 'Reel 55901 was taken out.']);
    const titles = [{ id: 'sn99089156', name: 'The Lantern' }, { id: 'sn99018200' }];
    const named = PAGES.map((one) => ({ ...one, title: 'sn99089156' }));
    expect(changedSince(record(named), record(named, {}, titles))).toEqual([
      'Title sn99089156: the name is given now: The Lantern.',
      'Title sn99018200 was added.',
    ]);
    expect(changedSince(record(named, {}, titles), record(named))).toEqual([
      'Title sn99089156: the name The Lantern is no longer given.',
      'Title sn99018200 was taken out.',
    ]);
  });
});

describe('a record with its defaults', () => {
  it('says each of them, and puts absences in an order of their own', () => {
    const [reel] = settledRecord(
      record([page('01'), blank('2'), page('3', { deliver: false, order: 4, supplement: false }), page('x')], {
        absent: [{ date: '1879-08-30', order: 10 }, { date: '1879-08-30', order: 9 }, { date: '1879-08-26' }],
      }),
    ).reels;
    const issue = { edition: 1, title: 'sn99089156' };
    expect(reel?.frames).toEqual([
      { ...page('1', { page: '01' }), kind: 'page', deliver: true, ...issue },
      { frame: '2', kind: 'blank', deliver: false },
      { ...page('3'), kind: 'page', deliver: false, ...issue },
      { ...page('x'), kind: 'page', deliver: true, ...issue },
    ]);
    expect(reel?.absent?.map(({ date, order, published }) => [date, order, published])).toEqual([
      ['1879-08-26', undefined, 'unknown'],
      ['1879-08-30', 9, 'unknown'],
      ['1879-08-30', 10, 'unknown'],
    ]);
    expect(settledRecord(record([page('1')], {}, [])).reels[0]?.frames[0]).not.toHaveProperty('title');
    expect(settledRecord(record([page('1')])).reels[0]).not.toHaveProperty('absent');
  });
});

describe('what a record amounts to', () => {
  const side = (days: readonly (string | null)[], absences: readonly object[], frames: readonly boolean[]): Side =>
    ({
      reels: [{ frames: frames.map((deliver) => ({ deliver })) }],
      issues: [
        ...days.map((day) => ({ present: true, date: day === null ? null : { day } })),
        { present: false, date: { day: '1800-01-01' } },
      ],
      absences,
    }) as unknown as Side;

  it('is said in one line', () => {
    const issue = { page: null, order: null };
    expect(
      totalsInWords(
        side(['1879-08-30', '1879-08-23', null], [issue, issue, { page: '1', order: null }, { page: null, order: 2 }], [true, true, false]),
      ),
    ).toBe('1 reel, 3 frames: 2 to deliver, 1 held back. 3 issues from 1879-08-23 to 1879-08-30. Not on the film: 2 issues and 2 pages.');
    expect(totalsInWords(side(['1879-08-23'], [], [true]))).toBe(
      '1 reel, 1 frame: 1 to deliver, 0 held back. 1 issue of 1879-08-23. Not on the film: nothing is recorded.',
    );
    expect(totalsInWords(side([], [issue], []))).toBe('1 reel, 0 frames: 0 to deliver, 0 held back. 0 issues. Not on the film: 1 issue.');
  });
});
