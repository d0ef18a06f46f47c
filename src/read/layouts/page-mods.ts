import type { Profile } from '../../model/profile.js';
import type { WrittenCopy, WrittenIssue, WrittenReel, WrittenReturn } from '../../model/written-return.js';
import { readPart } from '../facts/part-facts.js';
import { matchName } from '../name-pattern.js';
import { noteUnreadable, openDocument, type Reading, settleFiles } from '../reading.js';
import { type BatchFile, type BatchIndex, lastPart, pathKey } from '../walk.js';
import { collapsed, descendants, type XmlElement } from '../xml-tree.js';
import { readEdition } from './edition-folder.js';
import { claimShiftTargets, looseFrames, targetCount } from './loose-files.js';

/** Documents of this layout in a batch, by name: it has no other sign. */
export interface PageModsFiles {
  readonly editions: readonly BatchFile[];
  readonly pages: readonly BatchFile[];
  readonly films: readonly BatchFile[];
}

/** Sorts the documents of a batch by their names. A page document lies in no unmatched folder. */
export function findPageMods(index: BatchIndex, profile: Profile): PageModsFiles {
  const { issue, page, reel } = profile.documents;
  const found = { editions: [] as BatchFile[], pages: [] as BatchFile[], films: [] as BatchFile[] };
  const unmatched = new Map<string, boolean>();
  const isUnmatched = (folder: string): boolean => {
    const known = unmatched.get(folder) ?? matchName(lastPart(folder), profile.folders.unmatched) !== null;
    unmatched.set(folder, known);
    return known;
  };
  const [isEdition, isPage, isFilm] = [endingOf(issue.names), endingOf(page.names), endingOf(reel.names)];
  for (const file of index.files) {
    const { name, folder } = file;
    if (!/\.xml$/i.test(name) || isUnmatched(folder)) continue;
    if (isEdition(name)) found.editions.push(file);
    else if (isPage(name)) found.pages.push(file);
    else if (isFilm(name)) found.films.push(file);
  }
  return found;
}

/** Whether a name ends as one of the patterns does after its last placeholder: a misspelt name is still the document it is. */
function endingOf(patterns: readonly string[]): (name: string) => boolean {
  const endings: string[] = [];
  const others: string[] = [];
  for (const pattern of patterns) {
    const ending = pattern.slice(pattern.lastIndexOf('}') + 1).toLowerCase();
    if (ending !== '' && ending !== '.xml') endings.push(ending);
    else others.push(pattern);
  }
  return (name) => {
    const lower = name.toLowerCase();
    return endings.some((ending) => lower.endsWith(ending)) || (others.length > 0 && matchName(name, others) !== null);
  };
}

/** Reads a return with one MODS document per page and edition, folders per film and edition, and one document per film. */
export async function readPageMods(reading: Reading): Promise<Omit<WrittenReturn, 'received'>> {
  const found = findPageMods(reading.index, reading.profile);
  reading.found = found.editions.length + found.pages.length + found.films.length;
  const issues: WrittenIssue[] = [];
  for (const group of editionGroups(found, reading.profile))
    issues.push(await readEdition(reading, group.edition, group.folder, group.pages));
  const reels: WrittenReel[] = [];
  for (const film of found.films) {
    const reel = readFilm(reading, film);
    if (reel !== null) reels.push(reel);
    await reading.onDocument();
  }
  claimShiftTargets(reading, new Set(found.films.map((film) => film.folder)));
  const loose = looseFrames(reading);
  if (found.films.length === 0) reading.remarks.push('No film document was sent.');
  return {
    layout: 'page-mods',
    batch: reading.index.name,
    issues,
    reels,
    loose,
    askedUses: [],
    usualUses: [],
    fileUses: settleFiles(reading),
    problems: reading.problems,
    unchecked: [],
    remarks: reading.remarks,
  };
}

interface EditionGroup {
  readonly folder: string;
  readonly edition: BatchFile | null;
  readonly pages: readonly BatchFile[];
}

/** One group per edition document with the pages of its folder; pages of a folder without one form a group of their own. */
function editionGroups(found: PageModsFiles, profile: Profile): readonly EditionGroup[] {
  const folders = new Map<string, { editions: BatchFile[]; pages: BatchFile[] }>();
  const at = (file: BatchFile): { editions: BatchFile[]; pages: BatchFile[] } => {
    const key = file.folder;
    const group = folders.get(key) ?? { editions: [], pages: [] };
    folders.set(key, group);
    return group;
  };
  for (const file of found.editions) at(file).editions.push(file);
  for (const file of found.pages) at(file).pages.push(file);
  return [...folders.entries()]
    .sort(([a], [b]) => (a < b ? -1 : a > b ? 1 : 0))
    .flatMap(([folder, { editions, pages }]) => {
      const orphaned = otherTitles(editions, pages, profile);
      const others = [...orphaned.values()].map((own) => ({ folder, edition: null, pages: own }));
      const left = new Set(pages.filter((page) => !others.some((other) => other.pages.includes(page))));
      if (editions.length <= 1) return [{ folder, edition: editions[0] ?? null, pages: [...left] }, ...others];
      // Several editions in one folder: each takes the pages whose names begin as its own does, the first takes the rest.
      const groups = editions.map((edition) => {
        const stem = pathKey(edition.path).replace(/\.edition\.xml$/, '');
        const own = [...left].filter((page) => pathKey(page.path).startsWith(`${stem}-`));
        for (const page of own) left.delete(page);
        return { folder, edition, pages: own };
      });
      return [...groups.map((group, place) => (place === 0 ? { ...group, pages: [...group.pages, ...left] } : group)), ...others];
    });
}

/**
 * Pages that are named after a title of which no edition document lies in their folder, where another title's does: the editions of two
 * titles share a folder when they came out on the same day. One page alone is taken for misnamed.
 */
function otherTitles(
  editions: readonly BatchFile[],
  pages: readonly BatchFile[],
  profile: Profile,
): ReadonlyMap<string, readonly BatchFile[]> {
  const titleOf = (file: BatchFile, patterns: readonly string[]): string | undefined => matchName(file.name, patterns)?.get('title');
  const known = new Set(editions.map((edition) => titleOf(edition, profile.documents.issue.names)));
  const byTitle = new Map<string, BatchFile[]>();
  if (known.size === 0 || known.has(undefined)) return byTitle;
  for (const page of pages) {
    const title = titleOf(page, profile.documents.page.names);
    if (title === undefined || known.has(title)) continue;
    const own = byTitle.get(title);
    if (own === undefined) byTitle.set(title, [page]);
    else own.push(page);
  }
  for (const [title, own] of byTitle) if (own.length === 1) byTitle.delete(title);
  return byTitle;
}

function readFilm(reading: Reading, file: BatchFile): WrittenReel | null {
  const document = openDocument(reading, file);
  const { folder } = file;
  const name = matchName(file.name, reading.profile.documents.reel.names)?.get('reel');
  if (!document.ok) {
    noteUnreadable(reading, file.path, document.says, document.line, { reel: name ?? null });
    return null;
  }
  const place = { document: file.path };
  const { facts, copies } = readPart(
    reading.profile,
    'reel',
    { sections: [document.root], document: file.path, root: document.root, place },
    reading.seen,
  );
  const reelFacts = filmFacts(document.root, reading.profile.reelFacts);
  const targets = targetCount(reading, folder);
  return {
    facts,
    reelFacts: targets === null ? reelFacts : [...reelFacts, { name: 'isoTargets', text: String(targets) }],
    targets: [],
    targetsListed: false,
    copies: copies.map((copy) => withoutTitle(copy, facts.reel)),
    reelFolder: folder,
    place,
  };
}

/** A title may hold hyphens, so only the reel number itself tells where it begins in `title-reel`. */
function withoutTitle(copy: WrittenCopy, reel: string | undefined): WrittenCopy {
  const isEnd = reel !== undefined && reel !== '' && copy.text.toLowerCase().endsWith(`-${reel.toLowerCase()}`);
  return copy.fact === 'reel' && isEnd ? { ...copy, text: copy.text.slice(-reel.length) } : copy;
}

function filmFacts(root: XmlElement, names: readonly string[]): readonly { readonly name: string; readonly text: string }[] {
  const facts: { name: string; text: string }[] = [];
  for (const name of names) {
    const text = descendants(root, name)
      .map((element) => collapsed(element.text))
      .filter((part) => part !== '')
      .join('; ');
    if (text !== '') facts.push({ name, text });
  }
  return facts;
}
