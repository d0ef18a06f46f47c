import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { reeltally } from './command.js';
import { LANTERN, lantern, profileOfTheHelp, verdictOf } from './lantern.js';

const changed = (from: string, to: string): string => {
  const profile = profileOfTheHelp();
  expect(profile).toContain(from);
  return profile.replace(from, to);
};
const tryOn = (folder: string): { readonly status: number | null; readonly stdout: string; readonly stderr: string } =>
  reeltally(['profile', 'try', join(folder, 'lantern.json'), '--batch', join(folder, 'lantern-batch')]);

const NO_SHAPE = changed('"shape": "D.M.YYYY",', '');
const OTHER_DIVISION = changed('"types": ["Side"]', '"types": ["Leaf"]');
const OTHER_ISSUE = changed('"types": ["Number"]', '"types": ["Edition"]');
const LINKED = changed('"pagesOfIssue": "document"', '"pagesOfIssue": "linked"');
const MUST_FILE = changed('"archive": { "needs": "where-held", "is": "image" }', '"MASTER": { "needs": "must", "is": "image" }');
const CAPITALS = changed('"archive": { "needs": "where-held"', '"ARCHIVE": { "needs": "must"');
const NO_TITLE = changed('identifier[@type=paper]', 'identifier[@type=title]');
const REEL_MUST = changed('"needs": "must" } },', '"needs": "must" }, "reel": { "names": ["reel_{reel}.xml"], "needs": "must" } },');

describe('profile try says what is not as the profile says', () => {
  it.each([
    [
      'dates in another shape',
      NO_SHAPE,
      /issue date \(must\): found for 1 of 1 issue, 1 of them cannot be read {2}<-- must be readable[^]*cannot be read: "15\.3\.1907"\. .*the shape "D\.M\.YYYY".* would fit/,
    ],
    [
      'no page',
      OTHER_DIVISION,
      /the pages: The profile "lantern" looks for divisions of the type "Leaf" in a structMap of the TYPE "PHYSICAL"/,
    ],
    ['pages to which nothing leads', LINKED, /the pages: .*that a structLink leads to.*2 pages of the structMap/],
    [
      'no issue',
      OTHER_ISSUE,
      /the issues: .*divisions of the type "Edition" in a structMap of the TYPE "LOGICAL".*"Number \(map logical\)"/,
    ],
    [
      'a file use that no page names',
      MUST_FILE,
      /master \(must\): no page names one {2}<-- must be there[^]*the pages name files of the uses "archive"/,
    ],
    ['a kind of document that is not there', REEL_MUST, /the reel document: .*by the names "reel_\{reel\}\.xml"/],
  ])('%s', (_, profile, words) => {
    const { status, stdout, stderr } = tryOn(lantern(LANTERN, profile));
    expect([stderr, status]).toEqual(['', 1]);
    expect(stdout).toMatch(words);
    expect(stdout).toMatch(/\nNot as the profile says: /);
  });

  it('and knows the uses of files however they are spelt', () => {
    const { status, stdout } = tryOn(lantern(LANTERN, CAPITALS));
    expect(stdout).toContain('  archive (must): named 2 times, 2 of them in the batch');
    expect(status).toBe(0);
  });
});

describe("what the library's own profile finds or can read nowhere is never held against the vendor", () => {
  it.each([
    ['dates in another shape', NO_SHAPE, 'the date of the issues'],
    ['no page', OTHER_DIVISION, 'the pages'],
    ['pages to which nothing leads', LINKED, 'the pages'],
    ['no issue', OTHER_ISSUE, 'the issues'],
    ['a file use that no page names', MUST_FILE, 'the files of the use "master"'],
    ['a kind of document that is not there', REEL_MUST, 'the reel document'],
    ['no identifier of the title', NO_TITLE, 'the title identifier of the issues'],
    [
      'a title that need not be stated, and is not',
      NO_TITLE.replace(/("titleId": \{[^}]*), "needs": "must"/, '$1'),
      'the titles of the issues',
    ],
  ])('%s: said once, and nothing is decided', (_, profile, what) => {
    const { findings, verdict, unchecked } = verdictOf(lantern(LANTERN, profile));
    expect(findings.map(({ says }) => says)).toEqual([]);
    expect(unchecked.filter(({ required }) => required).map((one) => one.what)).toEqual([what]);
    expect(verdict.decision).toBe('cannot-decide');
  });
});

describe('what is wrong in a profile is told of the one field', () => {
  const saidOf = (from: string, to: string): string => tryOn(lantern(LANTERN, changed(from, to))).stderr;

  it('of a place that there is not: what stands there and what may', () => {
    const said = saidOf('{ "in": "division", "path": "@ORDER" }', '{ "in": "divsion", "path": "@ORDER" }');
    expect(said.trim().split('\n')).toHaveLength(2);
    expect(said).toContain(
      'facts, page, order, sources 1, in: "divsion" stands here; expected one of "section", "division", "document", "manifest", "targets", "document-name", "folder", "file-name", "constant", "place", "count"',
    );
  });

  it('of a place that lacks a field: that field', () => {
    const said = saidOf('{ "in": "division", "path": "@ORDER" }', '{ "in": "division" }');
    expect(said.trim().split('\n')).toHaveLength(2);
    expect(said).toContain('sources 1: the field "path" is missing');
  });

  it('and a file that is not a built-in profile is called as it is called', () => {
    const { stderr } = reeltally(['profile', 'show', 'heron.json']);
    expect(stderr).toContain(
      "there is no profile heron.json. Built in are issue-mets, page-mods, two-maps, linked-maps; a library's own is named by its file.",
    );
  });
});

it('a profile that fits no document says what it looks for and what lies there', () => {
  const { status, stderr } = tryOn(lantern(LANTERN, changed('"DailyPaper"', '"Weekly"')));
  expect(status).toBe(3);
  expect(stderr).toMatch(
    /The profile "lantern" fits no document of the batch "lantern-batch"\. The batch holds 1 XML files: 1 of <mets TYPE="DailyPaper">\. The profile looks for a document of the kind "issue" by <mets TYPE="Weekly">\./,
  );
});
