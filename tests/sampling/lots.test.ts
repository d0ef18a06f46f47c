import { describe, expect, it } from 'vitest';
import type { Findings, ResultFrame } from '../../src/model/findings.js';
import { drawSample } from '../../src/sampling/draw.js';
import { lotsOf } from '../../src/sampling/lots.js';
import { sharePlan } from '../../src/sampling/share-plan.js';

function frame(number: number, changes: Partial<ResultFrame> = {}): ResultFrame {
  const day = Math.floor((number - 1) / 4) + 1;
  return {
    frame: String(number),
    returned: String(number),
    returnedKind: 'page',
    state: 'agrees',
    kind: 'page',
    deliver: true,
    title: 'brightwater-courier',
    date: `1899-03-0${day}`,
    edition: 1,
    section: null,
    page: String(((number - 1) % 4) + 1),
    order: ((number - 1) % 4) + 1,
    condition: [],
    sourceReel: null,
    duplicateOf: null,
    files: [],
    findings: [],
    ...changes,
  };
}

function result(...reels: readonly (readonly ResultFrame[])[]): Pick<Findings, 'run' | 'reels'> {
  return {
    run: {
      at: '2026-01-01T00:00:00Z',
      received: null,
      batch: 'batch_brightwater',
      delivery: 1,
      profile: 'issue-mets',
      inputs: [],
      remarks: [],
    },
    reels: reels.map((frames, index) => ({ number: `000${index + 1}`, absent: [], frames })),
  };
}

const numbers = (from: number, to: number): readonly number[] => Array.from({ length: to - from + 1 }, (_, index) => from + index);
const plain = numbers(1, 12).map((number) => frame(number));

describe('lots of a compared return', () => {
  it('are its reels, or the batch; units are pages or whole issues, in film order', () => {
    const two = result(plain, plain);
    expect(lotsOf(two, 'page', 'reel').map(({ name, list }) => [name, list.length])).toEqual([
      ['0001', 12],
      ['0002', 12],
    ]);
    expect(lotsOf(two, 'page', 'batch').map(({ name, list }) => [name, list.length])).toEqual([['batch_brightwater', 24]]);
    expect(lotsOf(two, 'issue', 'reel')[0]?.list.map(({ id }) => id)).toEqual([
      'brightwater-courier 1899-03-01 edition 1',
      'brightwater-courier 1899-03-02 edition 1',
      'brightwater-courier 1899-03-03 edition 1',
    ]);
    // the same issue on both reels is one unit of the batch
    expect(lotsOf(two, 'issue', 'batch')[0]?.list.length).toBe(3);
  });

  it('hold only pages that came back', () => {
    const frames = [
      frame(1),
      frame(2, { returned: null, returnedKind: null, state: 'record-only' }),
      frame(3, { returnedKind: 'target', kind: 'target' }),
      frame(4, { frame: null, returned: '4', state: 'return-only', title: null, date: null }),
    ];
    expect(lotsOf(result(frames), 'page', 'reel')[0]?.list).toEqual([
      { id: '0001:1', issue: 'brightwater-courier 1899-03-01 edition 1', pages: 1 },
      { id: '0001:returned 4', issue: '0001:returned 4', pages: 1 },
    ]);
    expect(lotsOf(result([frame(1, { returnedKind: null })]), 'page', 'reel')).toEqual([]);
  });

  it('name what is worth looking at: ends, conditions, findings and their neighbours, splices', () => {
    const frames = plain.map((one) => {
      if (one.frame === '4') return { ...one, condition: ['torn'] };
      if (one.frame === '7') return { ...one, findings: ['f-1'] };
      return Number(one.frame) > 10 ? { ...one, sourceReel: '0099' } : one;
    });
    expect(lotsOf(result(frames), 'page', 'reel')[0]?.extras).toEqual([
      { id: '0001:1', group: 'ends', reason: 'first page of the reel' },
      { id: '0001:4', group: 'record', reason: 'the record says: torn' },
      { id: '0001:6', group: 'neighbours', reason: 'beside a frame that a finding names' },
      { id: '0001:7', group: 'findings', reason: 'named by a finding' },
      { id: '0001:8', group: 'neighbours', reason: 'beside a frame that a finding names' },
      { id: '0001:10', group: 'splices', reason: 'beside a splice' },
      { id: '0001:11', group: 'splices', reason: 'beside a splice' },
      { id: '0001:12', group: 'ends', reason: 'last page of the reel' },
    ]);
  });

  it('keep the pages of each unit beside the list', () => {
    const [pages, issues] = (['page', 'issue'] as const).map((unit) => lotsOf(result(plain), unit, 'reel')[0]!);
    expect(pages!.pages.map((of) => of.map(({ frame: { frame: number } }) => number))).toEqual(plain.map(({ frame: number }) => [number]));
    expect(issues!.pages.map((of) => of.map(({ frame: { frame: number } }) => Number(number)))).toEqual([
      numbers(1, 4),
      numbers(5, 8),
      numbers(9, 12),
    ]);
  });

  it('can be drawn from, whatever the vendor wrote', () => {
    const frames = [
      frame(1),
      frame(1),
      frame(1, { frame: null, returned: 'a\nb', title: 'x\r\ny' }),
      frame(2, { frame: null, returned: null }),
    ];
    for (const unit of ['page', 'issue'] as const) {
      const [lot] = lotsOf(result(frames), unit, 'reel');
      const list = lot?.list ?? [];
      const plan = sharePlan({ lot: list.length, percent: '50', atLeast: 1, accept: 0, stated: '1' });
      if ('refused' in plan) throw new Error(plan.refused.join(' '));
      expect(drawSample({ unit, plan, seed: '314159265358979323846264', list, extras: lot?.extras ?? [] })).not.toHaveProperty('refused');
    }
  });
});

describe('reasons to look', () => {
  const withReasons = (unit: 'page' | 'issue', frames: readonly ResultFrame[]): readonly string[] =>
    lotsOf(result(frames), unit, 'reel')[0]?.extras.map(({ id, reason }) => `${id}: ${reason}`) ?? [];

  it('that pages of one issue share are told once', () => {
    const torn = [1, 2, 3].map((number) => frame(number, { condition: number < 3 ? ['torn'] : [] }));
    expect(withReasons('issue', torn)).toEqual([
      'brightwater-courier 1899-03-01 edition 1: the record says: torn',
      'brightwater-courier 1899-03-01 edition 1: first page of the reel',
      'brightwater-courier 1899-03-01 edition 1: last page of the reel',
    ]);
  });

  it('are a finding, or its frame beside it; a reel of one page has one end', () => {
    const frames = [1, 2, 3, 4].map((number) => frame(number, { findings: number === 2 ? ['f-1'] : [] }));
    expect(withReasons('page', frames).filter((line) => line.includes('find'))).toEqual([
      '0001:1: beside a frame that a finding names',
      '0001:2: named by a finding',
      '0001:3: beside a frame that a finding names',
    ]);
    expect(withReasons('page', [frame(1)])).toEqual(['0001:1: first page of the reel']);
  });

  it('are a splice, on both sides of it', () => {
    const frames = [1, 2, 3, 4].map((number) => frame(number, { sourceReel: number < 3 ? 'A' : 'B' }));
    expect(withReasons('page', frames).filter((line) => line.includes('splice'))).toEqual([
      '0001:2: beside a splice',
      '0001:3: beside a splice',
    ]);
  });

  it('and names stay on one line and tell pages without any number apart', () => {
    const nameless = { frame: null, returned: null, title: null, date: null } as const;
    const list = lotsOf(result([frame(1, nameless), frame(2, { ...nameless, returned: '4\r\n5' }), frame(3, nameless)]), 'page', 'reel')[0]
      ?.list;
    expect(list?.map(({ id }) => id)).toEqual(['0001:returned without number', '0001:returned 4 5', '0001:returned without number (2)']);
    // a page without a title or a date is an issue of its own, by its name before it was told apart
    expect(
      lotsOf(result([frame(1, { title: null }), frame(2, { date: null }), frame(3, { edition: null })]), 'issue', 'reel')[0]?.list.map(
        ({ id }) => id,
      ),
    ).toEqual(['0001:1', '0001:2', 'brightwater-courier 1899-03-01 edition 1']);
  });
});
