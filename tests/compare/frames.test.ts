import { describe, expect, it } from 'vitest';
import type { FrameEntry } from '../../src/model/collation-record.js';
import { differencesOf, FOUR, frameIs, linesOf, numbered, page, pairIs, reelIs } from './small.js';

describe('a return that is right', () => {
  it('has no difference', () => {
    expect(linesOf({})).toEqual([]);
  });
});

describe('a fact of a page', () => {
  it.each([
    ['number', { frame: numbered(9) }, 'number other: 2 / 9'],
    ['half', { frame: numbered(2, 'A') }, 'number other: 2 / 2A'],
    ['label', { page: '22', pageKey: '22' }, 'page other: 2 / 22'],
    ['label in other words', { page: 'p. 2', pageKey: '2' }, null],
    ['place', { order: 7 }, 'order other: 2 / 7'],
    ['section', { section: 'B' }, 'section surplus: - / B'],
    ['no label', { page: null, pageKey: null }, 'page missing: 2 / -'],
    ['no place', { order: null }, 'order missing: 2 / -'],
    ['no number', { frame: null }, 'number missing: 2 / -'],
  ])('is told where it is other, surplus or missing: %s', (_, given, expected) => {
    const found = differencesOf({ change: frameIs(1, given) });
    expect(linesOf({ change: frameIs(1, given) })).toEqual(expected === null ? [] : [expected]);
    for (const { pairs, ref, recordIssue, returnIssue } of found)
      expect([pairs, ref, recordIssue, returnIssue]).toEqual([[{ alignment: 0, pair: 1 }], { reel: 0, frame: 1 }, 0, 0]);
  });

  it('is not missed on a page of which the description could not be read, and is told there where it is other', () => {
    expect(linesOf({ change: frameIs(1, { page: null, pageKey: null, order: null, undescribed: true }) })).toEqual([]);
    expect(linesOf({ change: frameIs(1, { order: 9, undescribed: true }) })).toEqual(['order other: 2 / 9']);
  });

  it('is a section that the record has and the return has not', () => {
    const frames = [page('1', { section: 'B' }), page('2')];
    expect(linesOf({ frames, change: frameIs(0, { section: null }) })).toEqual(['section missing: B / -']);
  });

  it('is not compared where nobody wrote it', () => {
    expect(linesOf({ change: frameIs(1, { frame: { ...numbered(9), inferred: true } }) })).toEqual([]);
    expect(linesOf({ change: reelIs({ number: '500', text: '500', numberInferred: true }) })).toEqual([]);
  });
});

describe('the number of the reel', () => {
  it('is told of every page where it is another, and not where one of its forms is right', () => {
    expect(linesOf({ change: reelIs({ number: '500', text: '0500' }) })).toEqual(Array(4).fill('reel other: 0417 / 0500'));
    expect(linesOf({ change: reelIs({ number: '417x', text: '417x', alsoKnownAs: ['417'] }) })).toEqual([]);
    expect(linesOf({ change: reelIs({ number: '500x', text: '500x', alsoKnownAs: ['500'] }) })).toEqual(
      Array(4).fill('reel other: 0417 / 500x'),
    );
  });

  it('is missing where none is given, and nothing where a page gives none and stands under another', () => {
    expect(linesOf({ change: reelIs({ number: '', text: '' }) })).toEqual(Array(4).fill('reel missing: 0417 / -'));
    const change = frameIs(1, { reelInferred: true });
    expect(linesOf({ change: (side) => reelIs({ number: '500', text: '500' })(change(side)) })).toEqual([
      'reel other: 0417 / 500',
      'reel missing: 0417 / -',
      'reel other: 0417 / 500',
      'reel other: 0417 / 500',
    ]);
  });

  it('is told in the form that is another reel of the record', () => {
    const found = differencesOf({
      record: (side) => ({ ...side, reels: [...side.reels, { ...side.reels[0]!, number: '500', text: '500', frames: [] }] }),
      change: reelIs({ number: '500x', text: '500x', alsoKnownAs: ['500'] }),
    });
    expect(found.map(({ given }) => given?.key)).toEqual(['500', '500', '500', '500']);
  });
});

describe('a frame without a partner', () => {
  const none = { returned: null };
  it('is not delivered where its number is left free', () => {
    expect(linesOf({ paired: pairIs(1, none) })).toEqual(['not-delivered missing: - / -']);
  });

  it('is not scanned where the numbers leave no place for it', () => {
    expect(linesOf({ paired: pairIs(1, { ...none, slot: false, exposure: null }) })).toEqual(['not-scanned missing: 2 / -']);
  });

  it('is compared all the same where it came out of its numbered place', () => {
    const change = frameIs(1, { order: 9 });
    expect(linesOf({ change, paired: pairIs(1, { slot: false, exposure: null, how: 'moved' }) })).toEqual(['order other: 2 / 9']);
  });

  it('is looked for no further where a reel has no numbers, where only a page with a place of its own can be missed', () => {
    const paired = pairIs(1, { ...none, slot: false, exposure: null });
    expect(linesOf({ paired: (alignment) => ({ ...paired(alignment), numbered: false }) })).toEqual([]);
    const placed = pairIs(1, { ...none, slot: true, exposure: null });
    expect(linesOf({ paired: (alignment) => ({ ...placed(alignment), numbered: false }) })).toContain('not-delivered missing: - / -');
  });

  it('at the end of a reel is told where it is a page, and leaves no trace where it is a blank', () => {
    const blank: FrameEntry = { frame: '5', kind: 'blank' };
    const gone = { ...none, slot: false, exposure: null };
    expect(linesOf({ paired: pairIs(3, gone) })).toEqual(['not-scanned missing: 4 / -']);
    expect(linesOf({ frames: [...FOUR, blank], paired: pairIs(4, gone) })).toEqual([]);
    const between = [...FOUR.slice(0, 2), blank, ...FOUR.slice(2)];
    expect(linesOf({ frames: between, paired: pairIs(2, gone) })).toEqual(['not-scanned missing: 5 / -']);
  });

  it('that only the return has is surplus, under its number where somebody wrote it', () => {
    const found = differencesOf({ paired: pairIs(1, { record: null }) });
    expect(found.map(({ field, form, given, ref, returnIssue }) => [field, form, given?.text, ref, returnIssue])).toEqual([
      ['surplus', 'surplus', '2', { reel: 0, frame: 1 }, 0],
    ]);
    const counted = frameIs(1, { frame: { ...numbered(2), inferred: true } });
    expect(linesOf({ change: counted, paired: pairIs(1, { record: null }) })).toEqual(['surplus surplus: - / -']);
  });

  it('is an empty number where neither side has anything', () => {
    expect(linesOf({ paired: pairIs(1, { record: null, ...none, exposure: 77 }) })).toEqual(['empty-number surplus: - / 77']);
  });

  it('is not told frame by frame where nothing of the reel was paired, or the record has no such reel', () => {
    const nothing = (alignment: Parameters<ReturnType<typeof pairIs>>[0]) => ({
      ...alignment,
      pairs: alignment.pairs.map((pair) => ({ ...pair, ...none })),
    });
    expect(linesOf({ paired: nothing })).toEqual([]);
    expect(linesOf({ paired: (alignment) => ({ ...alignment, recordReel: null }) })).toEqual([]);
  });

  it('has the number and half of its place where nothing came under it', () => {
    const frames = [page('1'), page('2A', { page: '2' }), page('2B', { page: '3', order: 3 }), page('3', { page: '4', order: 4 })];
    expect(linesOf({ frames, paired: pairIs(2, { ...none, exposure: 2 }) })).toEqual(['not-delivered missing: - / -']);
    expect(linesOf({ frames, paired: pairIs(2, { ...none, exposure: 5 }) })).toEqual([
      'not-delivered missing: - / -',
      'number other: 2B / 5B',
    ]);
  });
});

describe('a frame that is held back', () => {
  const held = [page('1'), page('2', { deliver: false }), page('3'), page('4')];
  /** What came for the four frames of the record, the second among them. */
  const came = [0, 1, 2, 3].map((frame) => ({ reel: 0, frame }));
  const allCame = (kind: 'page' | 'unmatched') => ({
    frames: held,
    change: (side: Parameters<ReturnType<typeof frameIs>>[0]) => {
      const [first, third, fourth] = side.reels[0]!.frames;
      return reelIs({ frames: [first!, { ...first!, frame: numbered(2), kind, page: '2', pageKey: '2', order: 2 }, third!, fourth!] })(
        side,
      );
    },
    paired: (alignment: Parameters<ReturnType<typeof pairIs>>[0]) => ({
      ...alignment,
      pairs: alignment.pairs.map((pair, at) => ({ ...pair, returned: came[at]! })),
    }),
  });

  it('is told where it is delivered as a page, and not where it lies outside of any issue', () => {
    expect(linesOf(allCame('page'))).toEqual(['delivered surplus: - / page']);
    expect(linesOf(allCame('unmatched'))).toEqual([]);
  });

  it('may leave its number free, unless numbers must be unbroken and other frames came outside of issues', () => {
    expect(linesOf({ frames: held })).toEqual([]);
    const policies = { frameNumbers: 'unbroken' } as const;
    expect(linesOf({ frames: held, policies })).toEqual([]);
    const loose = (side: Parameters<ReturnType<typeof frameIs>>[0]) => ({ ...side, looseDelivered: true });
    expect(linesOf({ frames: held, policies, change: loose })).toEqual(['number-unfilled missing: 2 / -']);
    expect(linesOf({ frames: held, change: loose })).toEqual([]);
    const another = (side: Parameters<ReturnType<typeof frameIs>>[0]) =>
      reelIs({ frames: [...side.reels[0]!.frames, { ...side.reels[0]!.frames[0]!, frame: numbered(9), kind: 'unmatched', issue: null }] })(
        side,
      );
    expect(linesOf({ frames: held, policies, change: another })).toEqual(['number-unfilled missing: 2 / -']);
  });

  it('is told where a page to be delivered lies outside of any issue, without its facts as a page', () => {
    expect(linesOf({ change: frameIs(1, { kind: 'unmatched', page: null, pageKey: null, order: null, issue: null }) })).toEqual([
      'not-delivered missing: - / unmatched',
    ]);
  });
});
