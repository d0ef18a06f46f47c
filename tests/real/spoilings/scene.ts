import { basename } from 'node:path';
import type { IssueFacts, NamedFile, PageFacts, ReturnFacts } from '../facts.js';

/** A sentence that must be said once of a return that was spoilt. */
export interface MustSay {
  /** Any of these codes names it truly. */
  readonly codes: readonly string[];
  /** Where it begins on the film, by the record; left out where nothing on the film is concerned or any place is true. */
  readonly at?: string;
  /** The day of the issue, by the record. */
  readonly date?: string;
  /** Who it is laid to, where only that is true. */
  readonly cause?: 'unclear';
  /** What must stand somewhere in the sentence, the instruction, the readings, the reasons or the places; of several forms of one thing any. */
  readonly names: readonly (string | readonly string[])[];
}

/** What must be said, what may be said once beside it because it is true too, and what is true of the return as it was sent. */
export interface Expectation {
  readonly must: readonly MustSay[];
  readonly may?: readonly MustSay[];
  readonly always?: readonly MustSay[];
}

/** A copy of a return with all its files, what its documents say, and how frames are called in the record. */
export interface Scene {
  readonly folder: string;
  readonly facts: ReturnFacts;
  /** The number that the record gives a page. */
  readonly frameOf: (page: PageFacts) => string;
  /** Whether the layout writes the edition in the names of its folders. */
  readonly editionInFolder: boolean;
}

/** One of the ways in which a return is spoilt. It works on the copy; null where the set cannot carry it. */
export interface Spoiling {
  readonly name: string;
  readonly spoil: (scene: Scene) => Expectation | null;
}

/** The issue that is spoilt: the one with most pages, so that a page can be lost in its middle. */
export function victim({ facts }: Scene): IssueFacts {
  const [first, ...rest] = facts.issues;
  if (first === undefined) throw new RangeError('The return has no issue.');
  return rest.reduce((longest, issue) => (issue.pages.length > longest.pages.length ? issue : longest), first);
}

/** The third page of an issue, which has neighbours on both sides, and the one behind it. */
export function middle(issue: IssueFacts): readonly [PageFacts, PageFacts] {
  const [, , third, fourth] = issue.pages;
  if (third === undefined || fourth === undefined) throw new RangeError('The issue has fewer than four pages.');
  return [third, fourth];
}

/** The picture of a page that people look at. */
export function pictureOf(page: PageFacts): NamedFile {
  const picture = page.files.find(({ path }) => path.endsWith('.jp2'));
  if (picture === undefined) throw new RangeError(`Page ${page.order} names no picture.`);
  return picture;
}

/** What is said of a whole issue: it begins at its first page. */
export function ofIssue(scene: Scene, issue: IssueFacts, codes: readonly string[], names: MustSay['names']): Expectation {
  const [first] = issue.pages;
  return { must: [{ codes, date: issue.date, names, ...(first === undefined ? {} : { at: scene.frameOf(first) }) }] };
}

/** What is said of one page. */
export function ofPage(
  scene: Scene,
  issue: IssueFacts,
  page: PageFacts,
  codes: readonly string[],
  names: MustSay['names'] = [],
): Expectation {
  return { must: [{ codes, at: scene.frameOf(page), date: issue.date, names }] };
}

/** A day as it stands in names: 18840507. */
export function compact(date: string): string {
  return date.replaceAll('-', '');
}

/** The name of a document without ending and without the mark of a checked copy. */
export function stemOf(path: string): string {
  return basename(path).replace(/(?:_1)?\.xml$/, '');
}
