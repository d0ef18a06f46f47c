import type { Copy, PageFile, Place } from '../../model/film.js';
import type { DocumentPart, FactName, FactRule, FactSource, NamePatterns, Profile } from '../../model/profile.js';
import type { WrittenCopy, WrittenFacts } from '../../model/written-return.js';
import { readAll, readFirst } from '../fact-path.js';
import { matchName } from '../name-pattern.js';
import { shortened } from '../vendor-text.js';
import { folderOf, lastPart } from '../walk.js';
import type { XmlElement } from '../xml-tree.js';

/** The line of a manifest that lists a document. */
export interface ManifestLine {
  readonly line: XmlElement;
  readonly place: Place;
}

/** Everything in which the facts of one part may stand. */
export interface PartPlaces {
  /** First elements of the metadata sections to which the part's division leads, or of its own document. */
  readonly sections: readonly XmlElement[];
  readonly division?: XmlElement | null;
  /** Path of the document, and its first element where it could be read. */
  readonly document: string;
  readonly root?: XmlElement | null;
  readonly listed?: ManifestLine | null;
  /** The place of a page among those of its issue. */
  readonly position?: number;
  readonly files?: readonly Pick<PageFile, 'use' | 'href'>[];
  /** The sections of each target of a reel. */
  readonly targets?: readonly (readonly XmlElement[])[];
  readonly place: Place;
}

/** Told of every fact that was found: the part, the fact, the place in the words of the profile, what stands there. */
export type FactSeen = (part: DocumentPart, fact: FactName, source: FactSource, text: string, document: string) => void;

/** The placeholders of a pattern that hold a fact; `{this}` holds any. */
export const FACT_PLACEHOLDERS: Readonly<Record<FactName, readonly string[]>> = {
  titleId: ['this', 'title', 'lccn'],
  date: ['this', 'date', 'day'],
  datePrinted: ['this', 'date', 'day'],
  edition: ['this', 'edition'],
  editionLabel: ['this', 'label'],
  volume: ['this'],
  issueNumber: ['this'],
  present: ['this'],
  presentNote: ['this'],
  section: ['this'],
  page: ['this'],
  order: ['this'],
  reel: ['this', 'reel', 'folder'],
  frame: ['this', 'frame'],
};

/** The facts of which copies can be compared, and what the copy is called. */
export const COPIED_FACTS: ReadonlyMap<FactName, Copy['fact']> = new Map([
  ['titleId', 'title'],
  ['date', 'date'],
  ['edition', 'edition'],
  ['editionLabel', 'editionLabel'],
  ['reel', 'reel'],
  ['frame', 'frame'],
  ['order', 'order'],
  ['page', 'page'],
] as const);

/** The facts that one place may state twice, and what they are called. */
const STATED_ONCE: ReadonlyMap<FactName, Copy['fact']> = new Map([
  ...COPIED_FACTS,
  ['datePrinted', 'datePrinted'],
  ['volume', 'volume'],
  ['issueNumber', 'issueNumber'],
  ['section', 'section'],
  ['present', 'present'],
] as const);

/** The source of a copy that is another statement of the fact in the place where it was read. */
const STATED_AGAIN = 'second statement';

/** Facts that not every issue or page has: `must` asks for them where the record states them. */
export const WHERE_RECORDED: ReadonlySet<FactName> = new Set([
  'datePrinted',
  'editionLabel',
  'volume',
  'issueNumber',
  'present',
  'presentNote',
  'section',
  'page',
]);

/** Reads the facts of one part as they are written, and every copy of them, by the profile's rules. A fact that is not stated is left out. */
export function readPart(
  profile: Profile,
  part: DocumentPart,
  places: PartPlaces,
  seen: FactSeen | null,
): { readonly facts: WrittenFacts; readonly copies: readonly WrittenCopy[] } {
  const facts: Partial<Record<FactName, string>> = {};
  const copies: WrittenCopy[] = [];
  for (const { fact, rule, once, kind } of rulesOf(profile, part)) {
    let used: FactSource | null = null;
    let read: string | undefined;
    for (const source of rule.sources) {
      read = firstText(source, fact, rule, places);
      if (read === undefined) continue;
      facts[fact] = read;
      used = source;
      seen?.(part, fact, source, read, places.document);
      break;
    }
    if (used !== null && read !== undefined && once !== undefined)
      for (const { text, place } of statedAgain(used, fact, rule, places))
        if (text !== read) copies.push({ fact: once, source: STATED_AGAIN, text, beside: read, place });
    if (rule.copies === undefined || kind === undefined) continue;
    const names = new Set<string>(used !== null && isName(used) ? [read ?? ''] : []);
    for (const source of rule.copies) {
      if (used !== null && sameSource(source, used)) continue;
      for (const { text, where, place } of lookup(source, fact, rule, places)) {
        seen?.(part, fact, source, text, places.document);
        // The name of a document repeats that of its folder more often than not, as do the names of its files: one of them is enough.
        if (isName(source) && names.has(text)) continue;
        if (isName(source)) names.add(text);
        copies.push({ fact: kind, source: where, text, place });
      }
    }
  }
  return { facts, copies };
}

/** The rule of one fact, with what its copies and second statements are called. */
interface PartRule {
  readonly fact: FactName;
  readonly rule: FactRule;
  readonly once: Copy['fact'] | undefined;
  readonly kind: Copy['fact'] | undefined;
}

const rulesByProfile = new WeakMap<Profile, Map<DocumentPart, readonly PartRule[]>>();

function rulesOf(profile: Profile, part: DocumentPart): readonly PartRule[] {
  const byPart = rulesByProfile.get(profile) ?? new Map<DocumentPart, readonly PartRule[]>();
  rulesByProfile.set(profile, byPart);
  const known = byPart.get(part);
  if (known !== undefined) return known;
  const rules = (Object.entries(profile.facts[part]) as [FactName, FactRule][]).map(
    ([fact, rule]): PartRule => ({ fact, rule, once: STATED_ONCE.get(fact), kind: COPIED_FACTS.get(fact) }),
  );
  byPart.set(part, rules);
  return rules;
}

/** The number on the film that the name of a page's file carries by the profile; undefined where it carries none. */
export function frameInName(profile: Profile, name: string): string | undefined {
  const rule = profile.facts.page.frame;
  for (const source of [...(rule?.sources ?? []), ...(rule?.copies ?? [])]) {
    if (typeof source === 'string' || source.in !== 'file-name') continue;
    const frame = picked(lastPart(name), source.pattern, 'frame', {});
    if (frame !== null) return frame;
  }
  return undefined;
}

/** What stands first at a place of the profile; undefined where nothing does. */
function firstText(source: FactSource, fact: FactName, rule: FactRule, places: PartPlaces): string | undefined {
  if (typeof source !== 'string') return lookup(source, fact, rule, places)[0]?.text;
  for (const section of places.sections) {
    const text = readFirst(section, source);
    if (text !== null) return shortened(text);
  }
  return undefined;
}

interface Found {
  readonly text: string;
  /** What the place is called in a sentence. */
  readonly where: string;
  readonly place: Place;
}

function lookup(source: FactSource, fact: FactName, rule: FactRule, places: PartPlaces): readonly Found[] {
  const { place, document } = places;
  if (typeof source === 'string') return inSections(source, places.sections, place);
  const pick = (text: string | null, where: string, at: Place): readonly Found[] => {
    const found =
      text === null || !('pattern' in source)
        ? text
        : picked(text, source.pattern, fact, { shape: rule.shape, folder: lastPart(folderOf(document)) });
    return found === null || found === '' ? [] : [{ text: shortened(found), where, place: at }];
  };
  const below = (root: XmlElement | null | undefined, path: string): string | null => (root == null ? null : readFirst(root, path));
  switch (source.in) {
    case 'section':
      return inSections(source.path, places.sections, place).flatMap((found) => pick(found.text, found.where, place));
    case 'division':
      return pick(below(places.division, source.path), nameOf(source.path), place);
    case 'document':
      return pick(below(places.root, source.path), nameOf(source.path), { document, element: `${places.root?.name ?? ''}/${source.path}` });
    case 'manifest':
      return places.listed == null ? [] : pick(below(places.listed.line, source.path), 'manifest', places.listed.place);
    case 'targets':
      return pick(
        agreed((places.targets ?? []).map((sections) => inSections(source.path, sections, place)[0]?.text ?? null)),
        'target sections',
        place,
      );
    case 'document-name':
      return pick(lastPart(document), 'file name', { document });
    case 'folder':
      return pick(folderUp(document, source.up), 'folder name', { document });
    case 'file-name': {
      const files = (places.files ?? []).filter((file) => source.use === undefined || file.use === source.use.toLowerCase());
      const found = files.flatMap((file) => pick(lastPart(file.href), 'file name', place));
      return found.filter((one, at) => found.findIndex((other) => other.text === one.text) === at);
    }
    case 'place':
      return pick(places.position === undefined ? null : String(places.position), 'structMap', place);
    case 'constant':
      return pick(source.text, 'profile', place);
    case 'count':
      return [];
  }
}

/** Everything that the sections of a part state where a fact was read in them, each text once. */
function statedAgain(source: FactSource, fact: FactName, rule: FactRule, places: PartPlaces): readonly Pick<Found, 'text' | 'place'>[] {
  const path = typeof source === 'string' ? source : source.in === 'section' ? source.path : null;
  if (path === null) return [];
  const all =
    places.sections.length === 1
      ? readAll(places.sections[0] as XmlElement, path)
      : places.sections.flatMap((section) => readAll(section, path));
  // One text is the one that was read; a longer one may be read otherwise when it is cut.
  if (all.length === 1 && shortened(all[0] ?? '') === all[0]) return [];
  const pattern = typeof source !== 'string' && 'pattern' in source ? source.pattern : undefined;
  const context = { shape: rule.shape, folder: lastPart(folderOf(places.document)) };
  const texts = all.flatMap((text) => (pattern === undefined ? text : (picked(text, pattern, fact, context) ?? [])));
  return [...new Set(texts.map((text) => shortened(text)))].map((text) => ({ text, place: places.place }));
}

function inSections(path: string, sections: readonly XmlElement[], place: Place): readonly Found[] {
  for (const section of sections) {
    const text = readFirst(section, path);
    if (text !== null) return [{ text: shortened(text), where: nameOf(path), place }];
  }
  return [];
}

function picked(
  text: string,
  pattern: string | NamePatterns,
  fact: FactName,
  context: { readonly shape?: string | undefined; readonly folder?: string },
): string | null {
  const parts = matchName(text, typeof pattern === 'string' ? [pattern] : pattern, context);
  const name = parts === null ? undefined : FACT_PLACEHOLDERS[fact].find((placeholder) => parts.has(placeholder));
  return name === undefined ? null : (parts?.get(name) ?? null);
}

function agreed(texts: readonly (string | null)[]): string | null {
  const [first, ...others] = [...new Set(texts)];
  return others.length === 0 ? (first ?? null) : null;
}

/** The name of the folder so many steps above a document; null where there is none. */
function folderUp(document: string, up: number): string | null {
  const name = document.split('/').at(-1 - up);
  return up < 1 || name === undefined || name === '' ? null : name;
}

/** The last name in a path: `@LABEL` is called LABEL. The paths are those of the profile. */
function nameOf(path: string): string {
  let name = pathNames.get(path);
  if (name === undefined) pathNames.set(path, (name = path.slice(path.lastIndexOf('/') + 1).replace(/^@|\[.*$/g, '')));
  return name;
}

const pathNames = new Map<string, string>();

function isName(source: FactSource): boolean {
  return typeof source !== 'string' && ['folder', 'document-name', 'file-name'].includes(source.in);
}

function sameSource(a: FactSource, b: FactSource): boolean {
  if (a === b) return true;
  return typeof a !== 'string' && typeof b !== 'string' && a.in === b.in && JSON.stringify(a) === JSON.stringify(b);
}
