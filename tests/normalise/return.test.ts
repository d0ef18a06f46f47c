import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import type { WrittenFacts, WrittenIssue, WrittenReturn } from '../../src/model/written-return.js';
import { compareFrameNumbers } from '../../src/normalise/labels.js';
import { normaliseReturn } from '../../src/normalise/return.js';
import { otherReelNumbers, readCopy, readPresent, readReturnDate } from '../../src/normalise/return-facts.js';
import { issueMets } from '../../src/profiles/issue-mets.js';
import { pageMods } from '../../src/profiles/page-mods.js';

const text = fc.oneof(
  fc.string({ maxLength: 12 }),
  fc.constantFrom(
    'Present',
    'Not digitized, published',
    '12',
    '0012A',
    '12a',
    '1907-03-15',
    '1907-02-30',
    '19070315',
    '__proto__',
    'constructor',
    '',
    ' ',
    '-1',
    '1e3',
    'sn 99-1',
  ),
);
const facts = fc.record(
  {
    titleId: text,
    date: text,
    datePrinted: text,
    edition: text,
    editionLabel: text,
    present: text,
    section: text,
    page: text,
    order: text,
    reel: text,
    frame: text,
  },
  { requiredKeys: [] },
) as fc.Arbitrary<WrittenFacts>;
const copy = fc.record({
  fact: fc.constantFrom('date', 'edition', 'title', 'frame', 'reel', 'order', 'editionLabel', 'page'),
  source: text,
  text,
  place: fc.constant({}),
});
const page = fc.record({
  facts,
  structPosition: fc.option(fc.integer({ min: 1, max: 9 })),
  files: fc.constant([]),
  copies: fc.array(copy, { maxLength: 2 }),
  place: fc.constant({}),
});
const issue = fc.record({
  facts,
  pages: fc.array(page, { maxLength: 6 }),
  copies: fc.array(copy, { maxLength: 3 }),
  reelFolder: fc.option(text),
  place: fc.constant({}),
}) as fc.Arbitrary<WrittenIssue>;
const reel = fc.record({
  facts,
  reelFacts: fc.array(fc.record({ name: text, text }), { maxLength: 3 }),
  targets: fc.array(page, { maxLength: 3 }),
  targetsListed: fc.boolean(),
  copies: fc.array(copy, { maxLength: 1 }),
  reelFolder: fc.option(text),
  place: fc.constant({}),
});
const NONE = { came: 0, compared: 0, found: 0, unchecked: 0 };
const written = fc.record({
  layout: fc.constant('issue-mets'),
  batch: text,
  issues: fc.array(issue, { maxLength: 4 }),
  reels: fc.array(reel, { maxLength: 2 }),
  loose: fc.array(fc.record({ frame: text, reel: text, reelFolder: fc.option(text), files: fc.constant([]), place: fc.constant({}) }), {
    maxLength: 3,
  }),
  askedUses: fc.constantFrom([], ['master']),
  usualUses: fc.constantFrom([], ['service']),
  fileUses: fc.constant([]),
  problems: fc.constant([]),
  unchecked: fc.constant([]),
  remarks: fc.constant([]),
  received: fc.constant({ folders: NONE, documents: NONE, sections: NONE, files: NONE }),
}) as fc.Arbitrary<WrittenReturn>;

describe('any return at all', () => {
  it('is brought into shape without losing a page', () => {
    fc.assert(
      fc.property(written, fc.constantFrom(issueMets, pageMods), (input, profile) => {
        const side = normaliseReturn(input, profile);
        expect(side.issues).toHaveLength(input.issues.length);
        const pages = input.issues.flatMap((one) => one.pages);
        const frames = side.reels.flatMap((one) => one.frames);
        const missing = pages.filter(
          (one) =>
            one.facts.frame === undefined &&
            one.facts.present !== undefined &&
            // words that nobody knows, of a page without a number and without a file, say that it is not there
            !(readPresent(one.facts.present, profile.present)?.present ?? one.files.some(({ state }) => state === 'present')),
        );
        expect(frames.filter((frame) => frame.kind === 'page')).toHaveLength(pages.length - missing.length);
        expect(side.absences.length).toBeGreaterThanOrEqual(missing.length);
        expect(frames.filter((frame) => frame.kind === 'unmatched')).toHaveLength(input.loose.length);
        expect(new Set(side.reels.map((one) => one.number)).size).toBe(side.reels.length);
        for (const { frames: list } of side.reels) {
          const numbers = list.map((frame) => frame.frame).filter((frame) => frame !== null);
          for (let at = 1; at < numbers.length; at += 1) expect(compareFrameNumbers(numbers[at - 1]!, numbers[at]!)).toBeLessThanOrEqual(0);
        }
        expect(JSON.stringify(normaliseReturn(input, profile))).toBe(JSON.stringify(side));
      }),
      { numRuns: 600, seed: 1907 },
    );
  });
});

describe('wordings of being there', () => {
  // Rows 2C-9 and 2D-6 of the Danish appendices, compared without regard to case; the US form has a z.
  it.each([
    ['Present', 'true yes'],
    [' present ', 'true yes'],
    ['Not digitized, published', 'false yes'],
    ['NOT DIGITISED , PUBLISHED', 'false yes'],
    ['Not digitised, not published', 'false no'],
    ['Not digitized, publication unknown.', 'false unknown'],
  ])('%j means %j in both profiles', (wording, meaning) => {
    for (const { present } of [issueMets, pageMods]) {
      const read = readPresent(wording, present);
      expect(`${String(read?.present)} ${String(read?.published)}`).toBe(meaning);
    }
  });

  it.each(['', 'Not present', 'Not digitized', 'Digitized, published'])('%j means nothing that is agreed', (wording) => {
    expect(readPresent(wording, issueMets.present)).toBeNull();
  });
});

describe('single facts', () => {
  it('reel numbers may end as the supplier chooses', () => {
    expect(otherReelNumbers('4000123-01', pageMods)).toEqual(['4000123']);
    expect(otherReelNumbers('4000123-1', pageMods)).toEqual([]);
    expect(otherReelNumbers('-01', pageMods)).toEqual([]);
    expect(otherReelNumbers('4000123-01', issueMets)).toEqual([]);
  });

  it('dates are days only where they are', () => {
    expect(readReturnDate('1900-02-29')).toEqual({ text: '1900-02-29', day: null, uncertain: false });
    expect(readReturnDate('19000228')).toEqual({ text: '19000228', day: '1900-02-28', uncertain: false });
    expect(readReturnDate('1899-01-XX')).toEqual({ text: '1899-01-XX', day: null, uncertain: true });
    expect(readReturnDate(undefined)).toBeNull();
  });

  it.each([
    ['date', '19070315', '1907-03-15'],
    ['edition', '01', '1'],
    ['edition', '0', '0'],
    ['title', 'SN 99000001', 'sn99000001'],
    ['frame', '0010A', '10A'],
    ['frame', '5.0', '5'],
    ['reel', '000123A', '123a'],
    ['order', 'x', null],
    ['page', '003', '3'],
    ['editionLabel', '  Late   City ', 'Late City'],
  ] as const)('a second place that gives the %s as %j means %j', (fact, given, value) => {
    expect(readCopy({ fact, source: 's', text: given, place: {} }, issueMets).value).toBe(value);
  });
});
