import { describe, expect, it } from 'vitest';
import { DEFAULT_POLICIES } from '../../src/catalogue/agreement.js';
import { asOrdered, expectedReturn } from '../../src/expect/index.js';
import type { Policies } from '../../src/model/agreement.js';
import type { AbsentEntry, CollationRecord, FrameEntry } from '../../src/model/collation-record.js';
import type { ExpectedFact, ExpectedFrame, ExpectedReturn, FrameFact, IssueFact, StatedFacts } from '../../src/model/expected.js';
import { sideOfRecord } from '../../src/normalise/record-side.js';

// What each policy means stands in the agreement's own words (src/catalogue/agreement.ts); what a record's column means, in schemas/collation-record.schema.json.

interface Asked {
  readonly policies?: Partial<Policies>;
  readonly needs?: StatedFacts;
  readonly absent?: readonly AbsentEntry[];
  readonly reel?: Partial<CollationRecord['reels'][number]>;
}

const recordOf = (frames: readonly FrameEntry[], { absent = [], reel = {} }: Asked = {}): CollationRecord => ({
  format: 'reeltally/collation-record/2',
  titles: [{ id: 'sn99000417', name: 'The Saltreach Plowman' }],
  reels: [{ number: '0417', frames, absent, ...reel }],
});

const expectedOf = (frames: readonly FrameEntry[], asked: Asked = {}): ExpectedReturn =>
  expectedReturn(sideOfRecord(recordOf(frames, asked)), { ...DEFAULT_POLICIES, ...asked.policies }, asked.needs ?? {});

const page = (more: Partial<FrameEntry> = {}): FrameEntry => ({ frame: '1', date: '1902-08-06', page: '1', order: 1, ...more });

/** A fact on one line: what is needed, and the words that are right. */
const told = ({ needs, right }: ExpectedFact): string => [needs, ...right.map(({ text }) => text)].join(' ');
const keyed = ({ needs, right }: ExpectedFact): string => [needs, ...right.map(({ key }) => key)].join(' ');

const framesOf = (frames: readonly FrameEntry[], asked: Asked = {}): readonly ExpectedFrame[] =>
  expectedOf(frames, asked).reels[0]?.frames ?? [];
const ofFrames = (fact: FrameFact, frames: readonly FrameEntry[], asked: Asked = {}): string[] =>
  framesOf(frames, asked).map(({ facts }) => told(facts[fact]));
const ofIssues = (fact: IssueFact, frames: readonly FrameEntry[], asked: Asked = {}): string[] =>
  expectedOf(frames, asked).issues.map((facts) => told(facts[fact]));
const ofIssue = (fact: IssueFact, more: Partial<FrameEntry>, asked: Asked = {}): string | undefined =>
  ofIssues(fact, [page(more)], asked)[0];

describe('the label of a page', () => {
  const misprinted = page({ page: '4', pagePrinted: '14' });
  const bare = page({ page: '3', pagePrinted: '-' });
  it.each<[string, FrameEntry, Partial<Policies>, string]>([
    ['printed as wanted', page({ page: '3' }), {}, 'must 3'],
    ['wanted, not the misprint', misprinted, { pageNumber: 'intended' }, 'must 4'],
    ['as printed', misprinted, { pageNumber: 'printed' }, 'must 14'],
    ['either', misprinted, { pageNumber: 'either' }, 'must 4 14'],
    ['as printed where nothing else is printed', page({ page: '3' }), { pageNumber: 'printed' }, 'must 3'],
    ['none where nothing is printed and none is to be given', bare, { unnumberedPage: 'omit' }, 'must-not'],
    ['supplied where nothing is printed', bare, { unnumberedPage: 'supply' }, 'must 3'],
    ['supplied or not', bare, { unnumberedPage: 'either' }, 'may 3'],
    ['none where the record has none', { frame: '1', date: '1902-08-06', order: 1 }, {}, 'must-not'],
    ['none where what is printed is no label', page({ page: '3', pagePrinted: ' ' }), { pageNumber: 'printed' }, 'must-not'],
  ])('%s', (_, frame, policies, expected) => {
    expect(ofFrames('page', [frame], { policies })).toEqual([expected]);
  });

  it('is right with and without the letter of its section, and only there', () => {
    const frames = [
      page({ frame: '1', page: '1', section: 'B' }),
      page({ frame: '2', page: '1', order: 2 }),
      page({ frame: '3', page: '1', section: 'C' }),
    ];
    expect(framesOf(frames).map(({ facts }) => keyed(facts.page))).toEqual(['must 1 B1', 'must 1', 'must 1 C1']);
    expect(framesOf([page({ page: 'a1', section: 'b', pagePrinted: '-' })]).map(({ facts }) => keyed(facts.page))).toEqual(['may A1 BA1']);
  });

  it('is that of its own page and not of another with the same label', () => {
    const frames = [
      page({ frame: '1', page: '4' }),
      page({ frame: '2', page: '4', pagePrinted: '7', order: 2 }),
      page({ frame: '3', page: '04', order: 3 }),
      page({ frame: '4', page: '004', order: 4 }),
    ];
    expect(ofFrames('page', frames, { policies: { pageNumber: 'printed' } })).toEqual(['must 4', 'must 7', 'must 04', 'must 004']);
  });
});

describe('place and section of a page', () => {
  it('are wanted where the record has them; a section that it does not have must not be given, while a place that it does not have may', () => {
    const frames = [page({ section: 'B', order: 2 }), page({ frame: '2', order: 3 }), { frame: '3', date: '1902-08-06', page: '9' }];
    expect(ofFrames('order', frames)).toEqual(['must 2', 'must 3', 'may']);
    expect(ofFrames('section', frames)).toEqual(['must B', 'must-not', 'must-not']);
  });

  it('need not be stated where the XML of the programme cannot hold them', () => {
    const needs: StatedFacts = { page: 'may', order: 'may', section: 'may', number: 'may', reel: 'may' };
    const [facts] = framesOf([page({ section: 'B' })], { needs }).map((frame) => frame.facts);
    expect(Object.entries(facts ?? {}).map(([name, fact]) => `${name} ${told(fact)}`)).toEqual([
      'number may 1',
      'reel may 0417',
      'page may 1 1',
      'order may 1',
      'section may B',
    ]);
    // what must not be given must not be given all the same
    expect(ofFrames('section', [page()], { needs })).toEqual(['must-not']);
    expect(ofFrames('section', [page({ section: 'B' })], { needs: { section: 'must' } })).toEqual(['must B']);
    expect(ofFrames('section', [page({ section: 'B' })], { needs: { section: 'must-not' } })).toEqual(['must-not B']);
  });
});

describe('what comes', () => {
  it('are the pages that are to be delivered, no held-back frame, and a target perhaps', () => {
    const frames: FrameEntry[] = [
      page(),
      page({ frame: '2', deliver: false }),
      { frame: '3', kind: 'blank' },
      { frame: '4', kind: 'target', deliver: true },
      { frame: '5', kind: 'target' },
      { frame: '6', kind: 'void', deliver: true },
    ];
    expect(framesOf(frames).map(({ delivered }) => delivered)).toEqual(['must', 'must-not', 'must-not', 'may', 'must-not', 'must']);
  });

  it.each([
    ['either', 'with-others'],
    ['listed', 'must'],
    ['not-listed', 'must-not'],
  ] as const)('lists of targets: %s', (targets, expected) => {
    expect(framesOf([{ frame: '1', kind: 'target' }, page()], { policies: { targets } }).map(({ listed }) => listed)).toEqual([
      expected,
      'may',
    ]);
  });
});

describe('the number of a frame', () => {
  const split = ['7', '8A', '8B', '9', '12'].map((frame, at) => page({ frame, page: String(at + 1), order: at + 1 }));
  it('is that of the record, halves lettered', () => {
    expect(ofFrames('number', split)).toEqual(['must 7', 'must 8A', 'must 8B', 'must 9', 'must 12']);
  });

  it('is counted on over the halves where each has one, gaps kept, from the first number of the record', () => {
    expect(ofFrames('number', split, { policies: { splitExposures: 'separate' } })).toEqual([
      'must 7',
      'must 8',
      'must 9',
      'must 10',
      'must 13',
    ]);
  });

  it('is not asked for where nobody wrote it, and the others are counted on as if it were not there', () => {
    const print = { reel: { carrier: 'print' } } as const;
    expect(ofFrames('number', split, print)).toEqual(['may', 'may', 'may', 'may', 'may']);
    expect(ofFrames('number', split, { ...print, policies: { splitExposures: 'separate' } })).toEqual(['may', 'may', 'may', 'may', 'may']);
    const side = sideOfRecord(recordOf(split));
    const [reel] = side.reels;
    const frames = (reel?.frames ?? []).map((frame, at) => (at === 1 ? { ...frame, frame: null } : frame));
    const { reels } = expectedReturn({ ...side, reels: [{ ...reel!, frames }] }, { ...DEFAULT_POLICIES, splitExposures: 'separate' }, {});
    expect(reels[0]?.frames.map(({ facts }) => told(facts.number))).toEqual(['must 7', 'may', 'must 8', 'must 9', 'must 12']);
  });
});

describe('the number of the reel', () => {
  const spliced = [page(), page({ frame: '2', page: '2', order: 2, sourceReel: '0399' })];
  it('is that of the carrier, or of the reel that was spliced in', () => {
    expect(ofFrames('reel', spliced)).toEqual(['must 0417', 'must 0417']);
    expect(ofFrames('reel', spliced, { policies: { reelNumber: 'source' } })).toEqual(['must 0417', 'must 0399']);
    expect(framesOf(spliced, { policies: { reelNumber: 'source' } }).map(({ facts }) => keyed(facts.reel))).toEqual([
      'must 417',
      'must 399',
    ]);
  });
});

describe('facts about a reel', () => {
  it.each([
    ['15x', '15'],
    ['15 X', '15'],
    ['1:15', '15'],
    ['15', '15'],
  ])('reduction %s', (reduction, key) => {
    const { facts } = expectedOf([page()], { reel: { reduction } }).reels[0]!;
    expect(facts).toEqual({ reductionRatio: { needs: 'may', right: [{ key, text: reduction }] } });
  });

  it('position in either case', () => {
    expect(expectedOf([page()], { reel: { position: '1A' } }).reels[0]!.facts['position']?.right[0]?.key).toBe('1a');
  });
});

describe('the date of an issue', () => {
  it('is the day', () => {
    expect(ofIssue('date', {})).toBe('must 1902-08-06');
    expect(expectedOf([page()]).issues.map(({ date }) => keyed(date))).toEqual(['must 1902-08-06']);
  });

  it('must be given where the record itself is not certain, and no day is wrong', () => {
    expect(ofIssue('date', { date: '1902-08-06?' })).toBe('must');
    expect(ofIssue('date', { date: '1902-08-XX' })).toBe('must');
  });

  it('of a combined issue is its first day or both', () => {
    expect(ofIssue('date', { combinedWith: '1902-08-07' })).toBe('must 1902-08-06 1902-08-06/1902-08-07');
  });

  it('is not asked for where the record has none, nor its title', () => {
    const side = sideOfRecord(recordOf([page()]));
    const issues = side.issues.map((issue) => ({ ...issue, title: null, date: null }));
    const [expected] = expectedReturn({ ...side, issues }, DEFAULT_POLICIES, {}).issues;
    expect([expected!.title, expected!.date].map(told)).toEqual(['may', 'may']);
    expect(ofIssue('title', {})).toBe('must sn99000417');
  });

  it('is compared by its words where it is no day', () => {
    const side = sideOfRecord(recordOf([page()]));
    const issues = side.issues.map((issue) => ({ ...issue, date: { text: ' Early  in AUGUST', day: null, uncertain: false } }));
    const [expected] = expectedReturn({ ...side, issues }, DEFAULT_POLICIES, {}).issues;
    expect(keyed(expected!.date)).toBe('must early in august');
  });
});

describe('the date on the paper', () => {
  it.each<[Policies['printedDate'], string, string]>([
    ['required', 'must 1902-08-05', 'may 1902-08-06'],
    ['optional', 'may 1902-08-05', 'may 1902-08-06'],
    ['never', 'must-not', 'must-not'],
  ])('%s: where it is another, and where it is the same or not noted', (printedDate, other, same) => {
    const policies = { printedDate };
    expect(ofIssue('datePrinted', { datePrinted: '1902-08-05' }, { policies })).toBe(other);
    expect(ofIssue('datePrinted', { datePrinted: '1902-08-06' }, { policies })).toBe(same);
    expect(ofIssue('datePrinted', {}, { policies })).toBe(same);
  });
});

describe('editions', () => {
  /** The second edition was filmed before the first, on two days; one issue more of a day that nobody knows. */
  const turned = [
    page({ frame: '1', edition: 2 }),
    page({ frame: '2', edition: 1 }),
    page({ frame: '3', date: '1902-08-07', edition: 2 }),
    page({ frame: '4', date: '1902-08-07', edition: 1 }),
    page({ frame: '5', date: '1902-08-07', edition: 2, page: '2', order: 2 }),
    page({ frame: '6', date: '1902-08-0X', edition: 3 }),
    { frame: '7', kind: 'blank' } as const,
  ];
  it('are numbered as they came out', () => {
    expect(ofIssues('edition', turned)).toEqual(['must 2', 'must 1', 'must 2', 'must 1', 'must 3']);
  });

  it('are the first where nothing is said', () => {
    const side = sideOfRecord(recordOf([page()]));
    const issues = side.issues.map((issue) => ({ ...issue, edition: null }));
    expect(expectedReturn({ ...side, issues }, DEFAULT_POLICIES, {}).issues.map(({ edition }) => told(edition))).toEqual(['must 1']);
  });

  it('are numbered as they stand on the film, each day by itself, and not where the day is uncertain', () => {
    expect(ofIssues('edition', turned, { policies: { editionOrder: 'filmed' } })).toEqual([
      'must 1',
      'must 2',
      'must 1',
      'must 2',
      'must 3',
    ]);
  });

  it('of two issues with one name, which the return shows to be two, are counted as one', () => {
    const side = sideOfRecord(recordOf([page({ frame: '1', edition: 2 }), page({ frame: '2', edition: 1 })]));
    const [first, second] = side.issues;
    const [reel] = side.reels;
    const twice = {
      ...side,
      issues: [first!, { ...first!, apartFrom: 0 }, second!],
      reels: [{ ...reel!, frames: [reel!.frames[0]!, { ...reel!.frames[0]!, issue: 1 }, { ...reel!.frames[1]!, issue: 2 }] }],
    };
    const { issues } = expectedReturn(twice, { ...DEFAULT_POLICIES, editionOrder: 'filmed' }, {});
    expect(issues.map(({ edition }) => told(edition))).toEqual(['must 1', 'must 1', 'must 2']);
  });

  it('of different titles on one day are each counted by themselves', () => {
    const side = sideOfRecord(recordOf([page({ frame: '1', edition: 2 }), page({ frame: '2', edition: 1 })]));
    const issues = side.issues.map((issue, at) => (at === 1 ? { ...issue, title: 'sn99000418' } : issue));
    const expected = expectedReturn({ ...side, issues }, { ...DEFAULT_POLICIES, editionOrder: 'filmed' }, {});
    expect(expected.issues.map(({ edition }) => told(edition))).toEqual(['must 1', 'must 1']);
  });

  it('stand in what the return is aligned with as they are ordered, all else as in the record', () => {
    const side = sideOfRecord(recordOf(turned));
    const ordered = asOrdered(side, expectedReturn(side, { ...DEFAULT_POLICIES, editionOrder: 'filmed' }, {}));
    expect(ordered.issues.map(({ edition }) => edition)).toEqual([1, 2, 1, 2, 3]);
    expect(ordered.issues.map(({ date }) => date?.text)).toEqual(side.issues.map(({ date }) => date?.text));
    expect(asOrdered(side, expectedReturn(side, DEFAULT_POLICIES, {}))).toEqual(side);
  });
});

describe('words of an issue', () => {
  it('are compared without case, padding zeros and double spaces, and asked for where the record has them', () => {
    const [issue] = expectedOf([page({ editionLabel: ' Late  City EDITION ', volume: '007', issueNumber: '1002' })]).issues;
    expect([issue!.editionLabel, issue!.volume, issue!.issueNumber].map(keyed)).toEqual(['must late city edition', 'must 7', 'must 1002']);
    const [none] = expectedOf([page()]).issues;
    expect([none!.editionLabel, none!.volume, none!.issueNumber].map(keyed)).toEqual(['may', 'may', 'may']);
  });

  it('need not be stated where the XML of the programme cannot hold them', () => {
    const facts = { editionLabel: 'Late', volume: '7', issueNumber: '12', datePrinted: '1902-08-05' };
    const needs: StatedFacts = {
      title: 'may',
      date: 'may',
      datePrinted: 'may',
      edition: 'may',
      editionLabel: 'may',
      volume: 'may',
      issueNumber: 'may',
    };
    const [issue] = expectedOf([page(facts)], { needs }).issues;
    expect(Object.values(issue!).map(told)).toEqual([
      'may sn99000417',
      'may 1902-08-06',
      'may 1902-08-05',
      'may 1',
      'may Late',
      'may 7',
      'may 12',
    ]);
  });
});

describe('what is not on the film', () => {
  const absent: AbsentEntry[] = [
    { date: '1902-08-06', page: '9', order: 9, published: 'yes' },
    { date: '1902-08-06', page: '10', published: 'no' },
    { date: '1902-08-06', page: '11', published: 'yes' },
    { date: '1902-08-07', published: 'yes' },
    { date: '1902-08-08', published: 'no' },
    { date: '1902-08-09', published: 'unknown' },
  ];
  it.each<[Partial<Policies>, readonly string[]]>([
    [{ absentPages: 'stated', absentIssues: 'either' }, ['must', 'may', 'must', 'may', 'may', 'may']],
    [{ absentPages: 'either', absentIssues: 'stated' }, ['may', 'may', 'may', 'must', 'may', 'must']],
    [{ absentPages: 'omitted', absentIssues: 'omitted' }, Array<string>(6).fill('must-not')],
  ])('is stated by the agreement, %o; what was not published is wanting to nobody', (policies, expected) => {
    expect(expectedOf([page()], { absent, policies }).absences.map(({ stated }) => stated)).toEqual(expected);
  });

  it('may be called published or not as the record has it, and anything where the record does not know', () => {
    expect(expectedOf([page()], { absent }).absences.map(({ published }) => told(published))).toEqual([
      'must yes',
      'must no',
      'must yes',
      'must yes',
      'must no',
      'may',
    ]);
  });

  it('is a page where it has a place or a label, a whole issue where it has neither', () => {
    const side = sideOfRecord(recordOf([page()], { absent: [absent[0]!] }));
    const absences = side.absences.map((absence) => ({ ...absence, page: null }));
    const { absences: expected } = expectedReturn({ ...side, absences }, { ...DEFAULT_POLICIES, absentIssues: 'omitted' }, {});
    expect(expected.map(({ stated }) => stated)).toEqual(['must']);
  });
});
