import { describe, expect, it } from 'vitest';
import type { FrameEntry } from '../../src/model/collation-record.js';
import type { Copy, DocumentProblem, PageFile, Reel, Side } from '../../src/model/film.js';
import { differencesOf, FOUR, frameIs, issueIs, line, linesOf, numbered, page, pairIs, picture, reelIs, TITLE } from './small.js';

const copy = (fact: Copy['fact'], value: string | null, more: Partial<Copy> = {}): Copy => ({
  fact,
  source: 'folder name',
  text: value ?? '?',
  value,
  place: {},
  ...more,
});

describe('a fact that the return states in two places', () => {
  it.each<[Copy['fact'], string, string, string]>([
    ['date', '1902-08-06', '1902-08-09', '1902-08-06'],
    ['edition', '1', '2', '1'],
    ['title', TITLE, 'sn99000418', TITLE],
  ])('of an issue, %s', (fact, right, wrong, main) => {
    expect(linesOf({ change: issueIs(0, { copies: [copy(fact, right)] }) })).toEqual([]);
    const found = differencesOf({ change: issueIs(0, { copies: [copy(fact, wrong)] }) });
    expect(found.map((one) => [line(one), one.about, one.returnIssue])).toEqual([
      [`copy other: ${main} / ${wrong}`, `${fact} folder name`, 0],
    ]);
    expect(linesOf({ change: issueIs(0, { copies: [copy(fact, null)] }) })).toEqual([]);
  });

  it('of an issue, its edition where the document names none: the first', () => {
    expect(linesOf({ change: issueIs(0, { edition: null, copies: [copy('edition', '1')] }) })).toEqual(['edition missing: 1 / -']);
  });

  it('of an issue, the label of its edition, and what stands in one place only', () => {
    const frames = FOUR.map((frame) => ({ ...frame, editionLabel: 'Late' }));
    expect(linesOf({ frames, change: issueIs(0, { copies: [copy('editionLabel', 'Early')] }) })).toEqual(['copy other: Late / Early']);
    expect(linesOf({ change: issueIs(0, { copies: [copy('editionLabel', 'Early'), copy('volume', '7')] }) })).toEqual([]);
  });

  it('of an issue, what the document itself leaves out is held against the record', () => {
    const date = (value: string): readonly string[] => linesOf({ change: issueIs(0, { date: null, copies: [copy('date', value)] }) });
    expect(date('1902-08-06')).toEqual(['date missing: 1902-08-06 / -']);
    expect(date('1902-08-09')).toEqual(['date missing: 1902-08-06 / -', 'copy other: 1902-08-06 / 1902-08-09']);
    const taken = (fact: 'edition' | 'title', change: Partial<Side['issues'][number]>, value: string): readonly string[] =>
      linesOf({ change: issueIs(0, { ...change, inferred: [fact], copies: [copy(fact, value)] }) });
    expect(taken('edition', { edition: 1 }, '1')).toEqual([]);
    expect(taken('edition', { edition: 3 }, '3')).toEqual(['copy other: 1 / 3']);
    expect(taken('title', { title: 'sn99000418' }, 'sn99000418')).toEqual([`copy other: ${TITLE} / sn99000418`]);
    // what the document says itself is held against the record, and the copy against the document
    expect(linesOf({ change: issueIs(0, { edition: 3, copies: [copy('edition', '3')] }) })).toEqual(['edition other: 1 / 3']);
  });

  it('of a page, the day of its issue where the document leaves it out', () => {
    const whole = issueIs(0, { date: null });
    const page = frameIs(1, { copies: [copy('date', '1902-08-09')] });
    const found = differencesOf({ change: (side) => page(whole(side)) });
    expect(found.map(line)).toEqual(['date missing: 1902-08-06 / -', 'copy other: 1902-08-06 / 1902-08-09']);
  });

  it.each<[Copy['fact'], string, string, string | null]>([
    ['frame', '2', '3', '2'],
    ['exposure', '2', '3', '2'],
    ['reel', '417', '418', '417'],
    ['order', '2', '3', '2'],
    ['page', '2', '3', '2'],
    ['date', '1902-08-06', '1902-08-09', '1902-08-06'],
    ['edition', '1', '2', '1'],
    ['title', TITLE, 'sn99000418', TITLE],
    ['volume', '7', '8', null],
  ])('of a page, %s', (fact, right, wrong, main) => {
    expect(linesOf({ change: frameIs(1, { copies: [copy(fact, right)] }) })).toEqual([]);
    const found = differencesOf({ change: frameIs(1, { copies: [copy(fact, wrong)] }) });
    const expected = main === null ? [] : [[`copy other: ${main} / ${wrong}`, `${fact} folder name`, { reel: 0, frame: 1 }, 0]];
    expect(found.map((one) => [line(one), one.about, one.ref, one.returnIssue])).toEqual(expected);
  });

  it('of a page, nothing where the page itself states none', () => {
    const bare = { frame: null, page: null, pageKey: null, order: null };
    const copies = [copy('frame', '3'), copy('exposure', '3'), copy('page', '3'), copy('order', '3')];
    expect(linesOf({ change: frameIs(1, { ...bare, copies }) }).filter((one) => one.startsWith('copy'))).toEqual([]);
    const loose = { issue: null, kind: 'unmatched' as const, copies: [copy('date', '1902-08-09')] };
    expect(linesOf({ change: frameIs(1, loose) }).filter((one) => one.startsWith('copy'))).toEqual([]);
    const counted = (side: Side): Side => reelIs({ numberInferred: true })(frameIs(1, { copies: [copy('reel', '418')] })(side));
    expect(linesOf({ change: counted })).toEqual([]);
  });

  it('of a page, twice in one place: the one that was read is what the other is held against', () => {
    const beside = { text: '02', value: '2' };
    expect(linesOf({ change: frameIs(1, { copies: [copy('order', '2', { beside })] }) })).toEqual([]);
    expect(linesOf({ change: frameIs(1, { order: 2, copies: [copy('order', '3', { beside })] }) })).toEqual(['copy other: 02 / 3']);
    expect(
      linesOf({ change: issueIs(0, { copies: [copy('date', '1902-08-09', { beside: { text: '6.8.', value: '1902-08-06' } })] }) }),
    ).toEqual(['copy other: 6.8. / 1902-08-09']);
  });

  it('is told of the issue where its pages only repeat what the folder says wrongly', () => {
    const wrong = copy('date', '1902-08-09');
    const change = (side: Side): Side => issueIs(0, { copies: [wrong] })(frameIs(1, { copies: [wrong] })(side));
    const found = differencesOf({ change });
    expect(found.map(({ field, ref }) => [field, ref])).toEqual([['copy', null]]);
    const other = (side: Side): Side => issueIs(0, { copies: [copy('date', '1902-08-10')] })(frameIs(1, { copies: [wrong] })(side));
    expect(linesOf({ change: other })).toHaveLength(2);
  });

  it('is no number of a reel where pages carry that of the reel that was spliced in', () => {
    const change = frameIs(1, { copies: [copy('reel', '418'), copy('order', '9')] });
    expect(linesOf({ policies: { reelNumber: 'source' }, change })).toEqual(['copy other: 2 / 9']);
  });
});

describe('what went wrong with a document', () => {
  const problem = (more: Partial<DocumentProblem>): DocumentProblem => ({
    code: 'documents-disagree',
    reel: null,
    title: null,
    date: null,
    edition: null,
    says: 'The manifest says another.',
    instruction: null,
    collation: '417',
    returned: '418',
    field: 'reel',
    place: {},
    ...more,
  });
  const change =
    (...problems: readonly Partial<DocumentProblem>[]) =>
    (side: Side): Side => ({ ...side, problems: problems.map(problem) });

  it('is a difference each, with its sentence', () => {
    const found = differencesOf({ change: change({ code: 'document-unreadable', field: null, collation: null, returned: null }, {}) });
    expect(found.map((one) => [line(one), one.problem, one.about])).toEqual([
      ['document other: - / -', 0, 'The manifest says another.'],
      ['document other: 417 / 418', 1, 'The manifest says another.'],
    ]);
  });

  it('is none where pages carry the number of the reel that was spliced in and a document that of the film', () => {
    const policies = { reelNumber: 'source' } as const;
    expect(linesOf({ policies, change: change({}) })).toEqual([]);
    expect(linesOf({ policies, change: change({ field: 'date' }, { code: 'title-differs' }) })).toHaveLength(2);
  });
});

describe('the files of pages', () => {
  const files =
    (...lists: readonly (readonly PageFile[])[]) =>
    (side: Side): Side =>
      lists.reduce((changed, list, at) => frameIs(at, { files: list })(changed), side);

  it.each([
    ['missing', 'missing'],
    ['empty', 'empty'],
    ['unsafe', 'outside'],
    ['unnamed', 'unnamed'],
  ] as const)('are told where they are %s', (state, about) => {
    const file = picture('2.tif', { state, ...(state === 'unsafe' ? { because: 'outside' as const } : {}) });
    const found = differencesOf({ change: files([], [file]) });
    expect(found.map((one) => [line(one), one.about, one.ref, one.returnIssue])).toEqual([
      ['file missing: master / 2.tif', about, { reel: 0, frame: 1 }, 0],
    ]);
  });

  it('are fine where they are present or were not looked for, and nothing stands where none is named', () => {
    expect(linesOf({ change: files([picture('1.tif')], [picture('2.tif', { state: 'not-looked-for' })]) })).toEqual([]);
    expect(linesOf({ change: files([picture('', { state: 'unnamed', path: null })]) })).toEqual(['file missing: master / -']);
  });

  it('are one file for two frames: told of the later, with the number of the first, once for all files that they share', () => {
    const [one, other] = [picture('1.tif'), picture('1.jp2', { use: 'service' })];
    const found = differencesOf({ change: files([one, other], [], [one, other]) });
    expect(found.map((each) => [line(each), each.ref?.frame, each.twin?.frame, each.about])).toEqual([
      ['same-file other: 1 / 1.tif', 2, 0, 'master'],
    ]);
    expect(linesOf({ change: files([one], [one], [one]) })).toEqual(['same-file other: 1 / 1.tif', 'same-file other: 1 / 1.tif']);
    expect(linesOf({ change: files([one, one]) })).toEqual([]);
  });

  it('say nothing where two frames bear one number and no file came; otherwise they do', () => {
    const one = picture('1.tif', { state: 'not-looked-for' });
    const alike = (half: string) => (side: Side) => frameIs(1, { frame: numbered(1, half) })(files([one], [one])(side));
    expect(linesOf({ change: alike('') })).toEqual(['number other: 2 / 1']);
    expect(linesOf({ change: alike('B') })).toContain('same-file other: 1 / 1.tif');
    expect(linesOf({ change: files([one], [one]) })).toEqual(['same-file other: 1 / 1.tif']);
    const came = picture('1.tif');
    expect(linesOf({ change: (side) => frameIs(1, { frame: numbered(1) })(files([came], [came])(side)) })).toContain(
      'same-file other: 1 / 1.tif',
    );
  });

  it('of two names and one content are told, page text aside, and not beside the same file', () => {
    const digest = 'sha1:77';
    const [one, two] = [picture('1.tif', { digest }), picture('2.tif', { digest })];
    const found = differencesOf({ change: files([one], [two]) });
    expect(found.map((each) => [line(each), each.ref?.frame, each.twin?.frame])).toEqual([['digest other: 1 / sha1:77', 1, 0]]);
    expect(linesOf({ change: files([one], [picture('2.tif', { digest: 'sha1:78' })]) })).toEqual([]);
    expect(linesOf({ change: files([picture('1.xml', { digest, use: 'ocr' })], [picture('2.xml', { digest, use: 'ocr' })]) })).toEqual([]);
    expect(linesOf({ change: files([one], [one]) })).toEqual(['same-file other: 1 / 1.tif']);
  });

  it('of a page that is described twice are the same by nature', () => {
    const digest = 'sha1:77';
    const twice =
      (more: object) =>
      (side: Side): Side => {
        const both = { ...side, issues: [...side.issues, { ...side.issues[0]!, ...more }] };
        return frameIs(1, { issue: 1, order: 1 })(files([picture('1.tif', { digest })], [picture('2.tif', { digest })])(both));
      };
    const digests = (more: object): number => linesOf({ change: twice(more) }).filter((one) => one.startsWith('digest')).length;
    expect(digests({})).toBe(0);
    expect(digests({ title: 'sn99000418' })).toBe(1);
    expect(digests({ date: { text: '1902-08-09', day: '1902-08-09', uncertain: false } })).toBe(1);
    expect(digests({ edition: 2 })).toBe(1);
    const otherPlace = (side: Side): Side => frameIs(1, { order: 2 })(twice({})(side));
    expect(linesOf({ change: otherPlace }).filter((one) => one.startsWith('digest'))).toHaveLength(1);
  });

  it('that bear the number of another frame are told by that one finding, not by their name as well', () => {
    const change =
      (name: string) =>
      (side: Side): Side =>
        frameIs(2, { copies: [copy('frame', name)] })(files([picture('1.tif')], [], [picture('1.tif')])(side));
    expect(linesOf({ change: change('1') })).toEqual(['same-file other: 1 / 1.tif']);
    const padded = (side: Side): Side => frameIs(0, { frame: { ...numbered(1), text: '0001' } })(change('1')(side));
    expect(linesOf({ change: padded })).toEqual(['same-file other: 0001 / 1.tif']);
    expect(linesOf({ change: change('7') })).toEqual(['same-file other: 1 / 1.tif', 'copy other: 3 / 7']);
  });

  it('of a whole use are missed where all files are required', () => {
    const uses =
      (...fileUses: NonNullable<Side['fileUses']>) =>
      (side: Side): Side => ({ ...side, fileUses });
    const policies = { files: 'required' } as const;
    const none = { use: 'service', came: false, named: 4 };
    expect(linesOf({ policies, change: uses(none, { use: 'master', came: true, named: 4 }) })).toEqual(['file missing: service / 4']);
    expect(linesOf({ change: uses(none) })).toEqual([]);
    expect(linesOf({ policies, change: uses({ ...none, named: 0 }) })).toEqual(['file missing: service / -']);
    expect(linesOf({ policies, change: uses() })).toEqual(['file missing: page / -']);
    expect(linesOf({ policies })).toEqual([]);
    const another = (side: Side): Side => {
      const [reel] = frameIs(0, { kind: 'unmatched' })(uses()(side)).reels;
      return { ...uses()(side), reels: [reel!, { ...reel!, frames: [] }] };
    };
    expect(linesOf({ policies, change: another })).toContain('file missing: page / -');
    const noPage = (side: Side): Side => reelIs({ frames: [] })(uses()(side));
    expect(linesOf({ policies, change: noPage }).filter((one) => one.startsWith('file'))).toEqual([]);
  });
});

describe('targets', () => {
  const frames = [{ frame: '1', kind: 'target' as const }, page('2'), page('3'), { frame: '4', kind: 'target' as const }];
  const targets =
    (list: readonly number[]) =>
    (side: Side): Side => {
      const pages = side.reels[0]!.frames;
      const target = (at: number) => ({ ...pages[0]!, frame: numbered(at), kind: 'target' as const, issue: null, deliver: false });
      return reelIs({ frames: [...pages, ...list.map(target)], targetsListed: list.length > 0 })(side);
    };
  const found = (targetsAre: 'listed' | 'not-listed' | 'either', list: readonly number[], numbers = true): readonly string[] =>
    differencesOf({
      frames,
      policies: { targets: targetsAre },
      change: targets(list),
      paired: (alignment) => ({
        ...alignment,
        numbered: numbers,
        pairs: alignment.pairs.map((pair, at) => {
          const place = list.indexOf(at + 1);
          return place < 0 ? pair : { ...pair, returned: { reel: 0, frame: 2 + place } };
        }),
      }),
    }).map(({ field, form, pairs }) => `${field} ${form} ${String(pairs[0]?.pair)}`);

  it('are told where they must be listed and are not', () => {
    expect(found('listed', [1, 4])).toEqual([]);
    expect(found('listed', [1])).toEqual(['target missing 3']);
    expect(found('listed', [])).toEqual(['target missing 0', 'target missing 3']);
  });

  it('are told as not scanned where the numbers between the pages leave no place for them, and looked for where there are no numbers', () => {
    const between = [page('1'), { frame: '2', kind: 'target' as const }, page('3')];
    const gone = pairIs(1, { slot: false, exposure: null });
    const policies = { targets: 'listed' } as const;
    expect(linesOf({ frames: between, policies, paired: gone })).toEqual(['not-scanned missing: 2 / -']);
    const bare: Parameters<typeof differencesOf>[0]['paired'] = (alignment) => ({ ...gone(alignment), numbered: false });
    expect(linesOf({ frames: between, policies, paired: bare })).toEqual(['target missing: - / -']);
    const last = [page('1'), page('2'), { frame: '3', kind: 'target' as const }];
    expect(linesOf({ frames: last, policies, paired: pairIs(2, { slot: false, exposure: null }) })).toEqual(['target missing: - / -']);
  });

  it('are told where they must not be listed and are', () => {
    expect(found('not-listed', [])).toEqual([]);
    expect(found('not-listed', [4])).toEqual(['target surplus 3']);
  });

  it('are missed where others of the reel are listed and the agreement leaves it open', () => {
    expect(found('either', [])).toEqual([]);
    expect(found('either', [1])).toEqual(['target missing 3']);
    expect(found('either', [1, 4])).toEqual([]);
  });
});

describe('what a document says of the reel as a whole', () => {
  const facts = (more: Reel['facts']) => reelIs({ facts: more });
  const told = (more: Reel['facts'], small: Parameters<typeof differencesOf>[0] = {}): readonly string[] =>
    differencesOf({ ...small, change: facts(more) }).map((one) => `${String(one.about)} ${line(one)}`);

  it('is held against the record where both state it', () => {
    const reel = { reduction: '15x', position: '1A' } as const;
    expect(told({ reductionRatio: '1:15', position: '1a' }, { reel })).toEqual([]);
    expect(told({ reductionRatio: '20x', position: '2B' }, { reel })).toEqual([
      'position reel-fact other: 1A / 2B',
      'reductionRatio reel-fact other: 15x / 20x',
    ]);
    expect(told({}, { reel })).toEqual([]);
    expect(told({ reductionRatio: '20x' })).toEqual([]);
  });

  it.each<[string, string, readonly string[]]>([
    ['1902-08-01', '1902-08-31', []],
    ['1902-08-06', '1902-08-06', []],
    ['1902-08-07', '1902-08-31', ['span of dates reel-fact other: 1902-08-06 to 1902-08-06 / 1902-08-07 to 1902-08-31']],
    ['1902-07-01', '1902-08-05', ['span of dates reel-fact other: 1902-08-06 to 1902-08-06 / 1902-07-01 to 1902-08-05']],
    ['1902-08-31', '1902-08-07', []],
    ['1', '1902-08-05', []],
    ['1902-09-01', 'August', []],
  ])('is a span of days that holds a day of the record: %s to %s', (startDate, endDate, expected) => {
    expect(told({ startDate, endDate })).toEqual(expected);
  });

  it('is a span of days that nobody can judge where no day of the record is certain', () => {
    const frames = FOUR.map((frame) => ({ ...frame, date: '1902-08-XX' }));
    expect(told({ startDate: '1910-01-01', endDate: '1910-01-31' }, { frames })).toEqual([]);
    const two = [page('1', { date: '1902-08-07' }), page('2', { date: '1902-08-03' })];
    expect(told({ startDate: '1910-01-01', endDate: '1910-01-31' }, { frames: two })).toEqual([
      'span of dates reel-fact other: 1902-08-03 to 1902-08-07 / 1910-01-01 to 1910-01-31',
    ]);
  });

  it.each<[string, readonly string[]]>([
    ['Saltreach plowman.', []],
    ['The Mercury; SALTREACH PLOWMAN, weekly', []],
    ['sn 99000417', []],
    ['The Mercury', ['list of titles reel-fact other: The Saltreach Plowman / The Mercury']],
  ])('is a list of titles that names one of the record: %s', (titles, expected) => {
    expect(told({ titles })).toEqual(expected);
  });

  it('is a list of titles that nobody can judge where the record knows no name', () => {
    for (const name of [TITLE, '']) {
      const record = (side: Side): Side => ({ ...side, titles: side.titles.map((title) => ({ ...title, name })) });
      expect(told({ titles: 'The Mercury' }, { record })).toEqual([]);
    }
  });

  it.each<[string, string | undefined, readonly string[]]>([
    ['4', undefined, []],
    ['13', undefined, []],
    ['14', undefined, ['numberOfPictures count other: 4 / 14']],
    ['3', undefined, ['numberOfPictures count other: 4 / 3']],
    ['6', '2', []],
    ['4', '2', []],
    ['5', '2', ['numberOfPictures count other: 4 / 5']],
    ['13', '2', ['numberOfPictures count other: 4 / 13']],
    ['4', 'some', []],
    ['many', undefined, []],
  ])('is a count of pictures: %s with %s test targets', (numberOfPictures, isoTargets, expected) => {
    expect(told({ numberOfPictures, ...(isoTargets === undefined ? {} : { isoTargets }) })).toEqual(expected);
  });

  it('is a count of pictures in which halves are one, or what the numbers leave no place for is left out', () => {
    const frames = [
      page('1A'),
      page('1B', { order: 2, page: '2' }),
      page('2A', { order: 3, page: '3' }),
      page('2B', { order: 4, page: '4' }),
    ];
    expect(told({ numberOfPictures: '2', isoTargets: '0' }, { frames })).toEqual([]);
    expect(told({ numberOfPictures: '3', isoTargets: '0' }, { frames })).toEqual(['numberOfPictures count other: 4 / 3']);
    const paired: Parameters<typeof differencesOf>[0]['paired'] = (alignment) => ({
      ...alignment,
      pairs: alignment.pairs.map((pair, at) => (at === 1 ? { ...pair, returned: null, slot: false, exposure: null } : pair)),
    });
    expect(told({ numberOfPictures: '3', isoTargets: '0' }, { paired })).toEqual(['null not-scanned missing: 2 / -']);
    const frame: FrameEntry = { frame: '5', kind: 'target' };
    const atEnd: typeof paired = (alignment) => {
      const { pairs, ...rest } = paired(alignment);
      return { ...rest, pairs: pairs.map((pair, at) => (at === 4 ? { ...pair, slot: false, exposure: null } : pair)) };
    };
    const counted = (numberOfPictures: string): readonly string[] =>
      told({ numberOfPictures, isoTargets: '0' }, { frames: [...FOUR, frame], paired: atEnd }).filter((one) => one.includes('count'));
    expect(['3', '4', '5'].map(counted)).toEqual([['numberOfPictures count other: 5 / 3'], [], []]);
    expect(differencesOf({ change: facts({ numberOfPictures: '99' }) }).map(({ ref }) => ref)).toEqual([{ reel: 0, frame: 0 }]);
    const twoReels: typeof paired = (alignment) => ({ ...alignment, returnReels: [0, 0] });
    expect(told({ numberOfPictures: '99' }, { paired: twoReels })).toEqual([]);
  });
});
