import { describe, expect, it } from 'vitest';
import { expectedReturn } from '../../src/expect/index.js';
import { resolveAgreement } from '../../src/judge/agreement.js';
import { countsOf, NOTHING_CAME } from '../../src/judge/counts.js';
import { uncheckedOf } from '../../src/judge/index.js';
import { neverStated } from '../../src/judge/never-stated.js';
import { recordStrips, strips } from '../../src/judge/strip.js';
import type { Check } from '../../src/model/agreement.js';
import type { Alignment, Pair } from '../../src/model/alignment.js';
import type { FrameEntry } from '../../src/model/collation-record.js';
import type { Frame, Side } from '../../src/model/film.js';
import type { Finding, ResultFrame } from '../../src/model/findings.js';
import { sideOfRecord } from '../../src/normalise/record-side.js';

const page = (at: number, more: Partial<FrameEntry> = {}): FrameEntry => ({
  frame: String(at),
  date: '1902-08-06',
  page: String(at),
  order: at,
  ...more,
});
const sideOf = (frames: readonly FrameEntry[], more: object = {}): Side =>
  sideOfRecord({ format: 'reeltally/collation-record/2', titles: [{ id: 'sn99000417' }], reels: [{ number: '0417', frames, ...more }] });
const three = sideOf([page(1), page(2), page(3)]);

const pair = (at: number | null, returned: number | null, more: Partial<Pair> = {}): Pair => ({
  record: at,
  returned: returned === null ? null : { reel: 0, frame: returned },
  slot: true,
  exposure: at === null ? null : at + 1,
  how: 'order',
  ...more,
});
const paired = (pairs: readonly Pair[], more: Partial<Alignment> = {}): Alignment => ({
  recordReel: 0,
  returnReels: [0],
  by: 'number',
  numbered: true,
  pairs,
  reversals: [],
  cost: 0,
  ...more,
});
const all = paired([pair(0, 0), pair(1, 1), pair(2, 2)]);
const framesAre = (side: Side, change: (frame: Frame, at: number) => Partial<Frame>): Side => ({
  ...side,
  reels: side.reels.map((reel) => ({ ...reel, frames: reel.frames.map((frame, at) => ({ ...frame, ...change(frame, at) })) })),
});
const agreement = resolveAgreement(null, {});

describe('what was not compared', () => {
  const said = (alignments: readonly Alignment[], record = three, returned = three, by = agreement): string[] =>
    uncheckedOf(alignments, record, returned, by).map(
      ({ what, why, required, count }) => `${what}: ${why} ${String(required)} ${String(count)}`,
    );

  it('is nothing where everything met', () => {
    expect(said([all])).toEqual([]);
  });

  it('is a reel of which nothing came, unless nothing of it was to come; required where pairing is', () => {
    const none = paired([pair(0, null), pair(1, null), pair(2, null)], { returnReels: [] });
    expect(said([none])).toEqual(['reel 0417 of the record: nothing of it is in this batch true 1']);
    const lenient = resolveAgreement({ format: 'reeltally/agreement/2', required: ['date'] }, {});
    expect(said([none], three, three, lenient)).toEqual(['reel 0417 of the record: nothing of it is in this batch false 1']);
    expect(said([none], sideOf([page(1, { deliver: false })]))).toEqual([]);
    // where not one page could be read that is said, and not this
    const unread = { ...three, unfound: [{ field: 'pages' as const, whereRecorded: false, unchecked: null as never }] };
    expect(said([none], three, unread)).toEqual([]);
    const another = { ...three, unfound: [{ field: 'date' as const, whereRecorded: false, unchecked: null as never }] };
    expect(said([none], three, another)).toHaveLength(1);
  });

  it('is a reel that the record does not have, or pages of no reel', () => {
    const strange = paired([pair(null, 0)], { recordReel: null });
    expect(said([strange])).toEqual(['reel 0417 of the return: the collation record has no such reel true 1']);
    const placed = { ...three, reels: three.reels.map((reel) => ({ ...reel, place: { document: 'reel.xml' } })) };
    expect(uncheckedOf([strange], three, placed, agreement).flatMap(({ places }) => places)).toEqual([{ document: 'reel.xml' }]);
    const nothing = paired([pair(0, null)], { returnReels: [] });
    expect(uncheckedOf([nothing], placed, three, agreement).flatMap(({ places }) => places)).toEqual([{ document: 'reel.xml' }]);
    const nameless = { ...three, reels: three.reels.map((reel) => ({ ...reel, numberInferred: true as const })) };
    expect(said([strange], three, nameless)).toEqual([
      'pages for which the return gives no reel: no reel of the record holds what they show true 1',
    ]);
    expect(said([strange], three, { ...three, reels: three.reels.map((reel) => ({ ...reel, frames: [] })) })).toEqual([]);
  });

  it('is a date that the record itself calls uncertain', () => {
    expect(said([all], sideOf([page(1, { date: '1902-08-XX' }), page(2, { date: '1902-08-07' })]))).toEqual([
      'the date 1902-08-XX of sn99000417: the record itself calls it uncertain false 1',
    ]);
  });

  it('is what nobody numbered: one, some, all, or places in a volume', () => {
    const counted = (...at: readonly number[]) =>
      framesAre(three, (frame, index) => (at.includes(index) ? { frame: { ...frame.frame!, inferred: true } } : {}));
    expect(said([all], three, counted(1))).toEqual([
      'the number of 1 frame of reel 0417: the return gives none for it; counted on from those around false 1',
    ]);
    expect(said([all], three, counted(0, 2))).toEqual([
      'the numbers of 2 frames of reel 0417: the return gives none for them; counted on from those around false 2',
    ]);
    const bare = { ...all, numbered: false };
    expect(said([bare], three, counted(0, 1, 2))).toEqual([
      'frame numbers, and what is not delivered between the pages, of reel 0417: the return gives no frame numbers; they were counted on false 3',
    ]);
    const volume = sideOf([page(1), page(2), page(3)], { carrier: 'print' });
    expect(said([bare], volume)[0]).toContain('what was filmed is print');
    const six = framesAre(sideOf([1, 2, 3, 4, 5, 6].map((at) => page(at))), (frame) => ({ frame: { ...frame.frame!, inferred: true } }));
    const long = paired([0, 1, 2, 3, 4, 5].map((at) => pair(at, at)));
    expect(uncheckedOf([long], six, six, agreement).map(({ places, count }) => [places.length, count])).toEqual([[5, 6]]);
  });

  it('is the number of a reel that was known by what its pages show', () => {
    const nameless = { ...three, reels: three.reels.map((reel) => ({ ...reel, numberInferred: true as const })) };
    expect(said([all], three, nameless)).toEqual([
      'the reel number of reel 0417: the return gives none; the reel was known by what its pages show false 3',
    ]);
  });

  it('are page files of which none came, unless they are required', () => {
    const uses = (...list: NonNullable<Side['fileUses']>): Side => ({ ...three, fileUses: list });
    const none = { use: 'master', came: false, named: 3 };
    expect(said([all], three, uses(none))).toEqual([
      'page files: No image files in this copy of the batch (master), so it was not asked whether they are there. false 1',
    ]);
    expect(said([all], three, uses(none, { use: 'ocr', came: true, named: 3 }))[0]).toMatch(/^page files \(master\): /);
    expect(said([all], three, uses({ ...none, named: 0 }))).toEqual([]);
    expect(
      said([all], three, uses(none), resolveAgreement({ format: 'reeltally/agreement/2', policies: { files: 'required' } }, {})),
    ).toEqual([]);
  });

  it('is what either side brings along', () => {
    const own = { what: 'a sheet', why: 'hidden', frames: null, places: [], count: 1, required: false };
    expect(said([all], { ...three, unchecked: [own] }, { ...three, unchecked: [{ ...own, what: 'a file' }] })).toEqual([
      'a sheet: hidden false 1',
      'a file: hidden false 1',
    ]);
  });
});

describe('a required fact that the return states nowhere', () => {
  const said = (returned: Side, required?: readonly Check[], told: readonly string[] = [], record = three): string[] => {
    const by = resolveAgreement({ format: 'reeltally/agreement/2', ...(required === undefined ? {} : { required: [...required] }) }, {});
    return neverStated([all], record, expectedReturn(record, by.policies, {}), returned, by, told).map(
      ({ what, count }) => `${what} ${String(count)}`,
    );
  };
  const issuesAre = (more: Partial<Side['issues'][number]>): Side => ({
    ...three,
    issues: three.issues.map((issue) => ({ ...issue, ...more })),
  });

  it('was not checked: said once, with how many pages or documents it concerns', () => {
    expect(said(three)).toEqual([]);
    expect(said(framesAre(three, () => ({ page: null })))).toEqual(['the labels of the pages 3']);
    expect(said(framesAre(three, () => ({ order: null })))).toEqual(['the places of the pages in their issues 3']);
    expect(said(issuesAre({ title: null }))).toEqual(['the titles of the issues 1']);
    expect(said(issuesAre({ date: null }))).toEqual(['the dates of the issues 1']);
  });

  it('was checked where one page states it', () => {
    expect(said(framesAre(three, (_, at) => (at === 1 ? {} : { page: null })))).toEqual([]);
  });

  it('is no edition where all are first ones: one that is not named is the first', () => {
    expect(said(issuesAre({ edition: null }))).toEqual([]);
    const second = sideOf([page(1, { edition: 2 }), page(2, { edition: 2 }), page(3, { edition: 2 })]);
    expect(said(issuesAre({ edition: null }), undefined, [], second)).toEqual(['the editions of the issues 1']);
  });

  it('is left to the differences that tell it, and to an agreement that does not ask for it', () => {
    const bare = framesAre(three, () => ({ page: null }));
    expect(said(bare, undefined, ['page'])).toEqual([]);
    expect(said(bare, ['date'])).toEqual([]);
  });

  it('is not asked for where the record has none, nor of frames that are no pages', () => {
    const bare = framesAre(three, () => ({ order: null }));
    const record = sideOf([1, 2, 3].map((at) => ({ frame: String(at), date: '1902-08-06', page: String(at) })));
    expect(said(bare, undefined, [], record)).toEqual([]);
    expect(said(framesAre(bare, () => ({ kind: 'unmatched' })))).toEqual([]);
  });
});

describe('the strip of a reel', () => {
  const none = { ids: new Map<string, string[]>(), follows: new Map<string, string[]>(), differs: new Set<string>() };
  const states = (pairs: readonly Pair[], differs: readonly number[] = [], returned = three, record = three): string[] =>
    strips([paired(pairs)], record, returned, { ...none, differs: new Set(differs.map((at) => `0:${String(at)}`)) }, []).flatMap(
      ({ frames }) => frames.map(({ state }) => state),
    );

  it('says of each frame what came of it', () => {
    expect(states(all.pairs)).toEqual(['agrees', 'agrees', 'agrees']);
    expect(states(all.pairs, [1])).toEqual(['agrees', 'differs', 'agrees']);
    expect(states([pair(0, 0), pair(1, null), pair(2, 2)], [1])).toEqual(['agrees', 'not-delivered', 'agrees']);
    expect(states([pair(0, 0), pair(1, null, { slot: false, exposure: null }), pair(2, 2)], [1])).toEqual([
      'agrees',
      'not-delivered',
      'agrees',
    ]);
    expect(states([pair(0, 0), pair(null, 1), pair(2, 2)], [1])).toEqual(['agrees', 'return-only', 'agrees']);
    expect(states([pair(0, null), pair(1, null), pair(2, null)])).toEqual(['not-compared', 'not-compared', 'not-compared']);
  });

  it('says of what is held back whether it came all the same or left no trace', () => {
    const held = sideOf([page(1), page(2, { deliver: false }), page(3)]);
    expect(states(all.pairs, [1], three, held)).toEqual(['agrees', 'delivered-though-held-back', 'agrees']);
    const gone = [pair(0, 0), pair(1, null, { slot: false, exposure: null }), pair(2, 2)];
    expect(states(gone, [1], three, held)).toEqual(['agrees', 'record-only', 'agrees']);
    expect(states(gone, [], three, held)).toEqual(['agrees', 'not-compared', 'agrees']);
    expect(states([pair(0, 0), pair(1, null), pair(2, 2)], [], three, held)).toEqual(['agrees', 'agrees', 'agrees']);
  });

  const told = (field: string, pairs = all.pairs, record = three, returned = three): ResultFrame[] => {
    const at = { ids: new Map([['0:1', ['f']]]), follows: new Map([['0:2', ['f']]]), differs: new Set(['0:1', '0:2']) };
    return [...strips([paired(pairs)], record, returned, at, [{ id: 'f', field } as Finding])[0]!.frames];
  };

  it('says where only the number is another', () => {
    expect(told('number').map(({ state }) => state)).toEqual(['agrees', 'number-differs', 'number-differs']);
    expect(told('frame').map(({ state }) => state)).toEqual(['agrees', 'number-differs', 'number-differs']);
    expect(told('date').map(({ state }) => state)).toEqual(['agrees', 'differs', 'differs']);
    expect(told('number').map(({ findings, follows }) => [findings, follows])).toEqual([
      [[], undefined],
      [['f'], undefined],
      [[], ['f']],
    ]);
  });

  it('says of what came outside of any issue that it is not delivered, and not compared where its document cannot be read', () => {
    const loose = framesAre(three, (_, at) => (at === 1 ? { kind: 'unmatched' } : {}));
    expect(told('presence', all.pairs, three, loose).map(({ state, returnedKind }) => [state, returnedKind])).toEqual([
      ['agrees', 'page'],
      ['not-delivered', 'unmatched'],
      ['differs', 'page'],
    ]);
    expect(told('document', all.pairs, three, loose)[1]?.state).toBe('not-compared');
    const target = framesAre(three, (_, at) => (at === 1 ? { kind: 'target' } : {}));
    expect(told('presence', all.pairs, three, target).map(({ state, returnedKind }) => [state, returnedKind])[1]).toEqual([
      'differs',
      'target',
    ]);
  });

  it('shows both numbers, none that was counted on, and what the record says of the frame', () => {
    const record = sideOf([
      page(1, { section: 'B', condition: ['torn'], sourceReel: '0399', duplicateOf: '2', combinedWith: '1902-08-07' }),
      page(2),
      page(3),
    ]);
    const returned = framesAre(three, ({ frame }, at) => ({
      frame: { ...frame!, text: `000${String(at + 4)}`, ...(at === 1 ? { inferred: true } : {}) },
      files: [
        { use: 'master', href: 'a', path: 'b/a', state: 'present', digest: null, width: null, height: null },
        { use: 'ocr', href: 'c', path: null, state: 'unsafe', digest: null, width: null, height: null },
      ],
    }));
    const [reel] = strips([all], record, returned, none, []);
    expect(reel?.number).toBe('0417');
    expect(reel?.frames.map((frame) => [frame.frame, frame.returned])).toEqual([
      ['1', '0004'],
      ['2', '2'],
      ['3', '0006'],
    ]);
    expect(reel?.frames[0]).toMatchObject({
      kind: 'page',
      deliver: true,
      title: 'sn99000417',
      date: '1902-08-06',
      combinedWith: '1902-08-07',
      edition: 1,
      section: 'B',
      page: '1',
      order: 1,
      condition: ['torn'],
      sourceReel: '0399',
      duplicateOf: '2',
      files: [{ use: 'master', path: 'b/a' }],
    });
  });

  it('has the reels of the record in their order, those that only the return has last, and what is absent with its reel', () => {
    const absent = [{ date: '1902-08-07', combinedWith: '1902-08-08', published: 'yes' as const }];
    const record = sideOf([page(1)], { absent });
    const alone = paired([pair(null, 0)], { recordReel: null });
    const reels = strips([alone, paired([pair(0, 0)])], record, { ...three, reels: [{ ...three.reels[0]!, text: 'x' }] }, none, []);
    expect(reels.map(({ number, absent: gone }) => [number, gone.length])).toEqual([
      ['0417', 1],
      ['x', 0],
    ]);
    expect(reels[0]?.absent).toEqual([
      { title: 'sn99000417', date: '1902-08-07', combinedWith: '1902-08-08', edition: 1, page: null, published: 'yes' },
    ]);
    const two = { ...record, reels: [...record.reels, { ...record.reels[0]!, text: '0418', number: '418' }] };
    const turned = strips([paired([pair(0, 0)], { recordReel: 1 }), paired([pair(0, 0)])], two, three, none, []);
    expect(turned.map(({ number }) => number)).toEqual(['0417', '0418']);
    const nowhere = { ...record, absences: record.absences.map((absence) => ({ ...absence, reel: null })) };
    expect(recordStrips({ ...nowhere, reels: [...record.reels, ...record.reels] }).map(({ absent: gone }) => gone.length)).toEqual([1, 0]);
    expect(recordStrips(record)[0]?.frames.map(({ state, frame, returned }) => [state, frame, returned])).toEqual([
      ['not-compared', '1', null],
    ]);
  });

  it('is counted: frames and kinds of the record, pages that came, met and did not meet', () => {
    const record = sideOf([page(1), page(2, { deliver: false }), { frame: '3', kind: 'blank' }, page(4)], {
      absent: [{ date: '1902-08-07' }],
    });
    const returned = sideOf([page(1), page(2), page(9)]);
    const pairs = [pair(0, 0), pair(1, 1), pair(2, null), pair(3, null), pair(null, 2, { exposure: 9 })];
    const reels = strips([paired(pairs)], record, returned, none, []);
    const counted = countsOf(reels, [{} as Finding], 7, { classes: [], unpriced: [] } as never, NOTHING_CAME);
    expect(counted.reels).toEqual([
      {
        reel: '0417',
        frames: 4,
        kinds: [
          { kind: 'blank', deliver: false, count: 1 },
          { kind: 'page', deliver: true, count: 2 },
          { kind: 'page', deliver: false, count: 1 },
        ],
        absent: 1,
        returned: 3,
        matched: 1,
        unmatched: 2,
      },
    ]);
    expect(counted).toMatchObject({ pagesReturned: 3, pagesMatched: 1, pagesUnmatched: 2, differences: 7, findings: 1 });
  });
});
