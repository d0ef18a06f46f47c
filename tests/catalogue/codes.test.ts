import { describe, expect, it } from 'vitest';
import { CODES, codeEntry } from '../../src/catalogue/codes.js';

// The public table of codes, written out by hand: renaming, dropping or re-weighing one changes what other people's files mean.
const TABLE = `
sequence critical exposure-not-split
sequence major frame-not-scanned frame-scanned-twice frame-number-wrong frame-number-repeated frames-reversed halves-swapped halves-shifted reel-number-wrong
sequence minor frame-number-gap
presence critical page-not-delivered wrong-take-delivered duplicate-delivered-as-page issue-not-delivered delivery-inverted
presence major suppressed-frame-delivered page-not-in-collation non-page-delivered retake-not-placed issue-not-in-collation
presence major issue-delivered-twice delivered-from-both-reels absence-not-stated absence-stated-wrongly
identity critical date-differs date-carried-over issues-merged issue-split issue-boundary-moved title-differs
identity major edition-differs editions-swapped
identity minor printed-date-not-given printed-date-differs edition-label-differs volume-differs issue-number-differs
page major page-number-differs page-numbers-shifted page-order-differs pages-swapped section-differs sections-flattened supplement-misplaced
documents critical document-unreadable file-missing same-image-twice checksum-differs
documents major manifest-disagrees vocabulary-unknown
documents minor file-not-listed target-not-listed not-ordered documents-disagree
documents note reel-facts-differ count-disagrees
text major text-date-disagrees pages-nearly-the-same text-on-blank
text minor text-page-number-disagrees continuation-broken
images critical image-wrong-page image-illegible
images major image-incomplete image-out-of-order
record critical date-impossible frame-numbers-broken editions-unordered issue-contradicts-itself
record major weekday-clash printed-date-misjudged gap-unexplained pages-unaccounted reels-overlap duplicate-unpaired identifier-malformed
record minor date-off-pattern page-count-unusual numbering-jumps misprint-recurs
`;

const EXPECTED = TABLE.trim()
  .split('\n')
  .flatMap((line) => {
    const [group, severity, ...codes] = line.split(' ');
    return codes.map((code) => `${code} ${group} ${severity}`);
  })
  .sort();

// Words with a fixed meaning in contracts or in a national programme, which no text of ours may use.
const AVOIDED = /\b(valid|validated|certified|compliant|qc passed|stub|todo)\b/i;

describe('the catalogue of codes', () => {
  it('has every code of the public table once, with its group and severity', () => {
    expect(CODES.map((entry) => `${entry.code} ${entry.group} ${entry.severity}`).sort()).toEqual(EXPECTED);
  });

  it.each(CODES.map((entry) => [entry.code, entry] as const))('%s says what and why in plain words', (code, entry) => {
    expect(code).toMatch(/^[a-z]+(-[a-z]+)+$/);
    expect(entry.title).toMatch(/^[A-Z].{10,80}[^.]$/);
    expect(entry.why).toMatch(/^[A-Z].{40,}\.$/);
    expect(`${entry.title} ${entry.why}`).not.toMatch(AVOIDED);
  });

  it('no two codes share a title or a reason', () => {
    expect(new Set(CODES.map((entry) => entry.title)).size).toBe(CODES.length);
    expect(new Set(CODES.map((entry) => entry.why)).size).toBe(CODES.length);
  });

  it('finds an entry by its code and nothing for a code it does not know', () => {
    expect(codeEntry('frame-not-scanned').group).toBe('sequence');
    expect(codeEntry('__proto__' as string)).toBeUndefined();
  });
});
