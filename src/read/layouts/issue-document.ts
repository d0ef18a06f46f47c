import type { WrittenCopy, WrittenIssue, WrittenPage } from '../../model/written-return.js';
import { readFacts } from '../fact-path.js';
import { typeTail } from '../kinds.js';
import { matchName } from '../name-pattern.js';
import { type DraftFile, problem, type Reading } from '../reading.js';
import { type BatchFile, folderOf, lastPart } from '../walk.js';
import type { XmlDocument } from '../xml.js';
import { attribute, descendants, type XmlElement } from '../xml-tree.js';
import type { ManifestEntry } from './manifest.js';
import { filesOf, type MetsParts, metsParts, sectionOf } from './mets.js';
import { pageTextCopies } from './page-text-copies.js';

type Opened = Extract<XmlDocument, { ok: true }>;

/** Whether a METS document has the division of an issue. */
export function holdsIssue(root: XmlElement): boolean {
  return issueDivision(root) !== null;
}

/** Reads an issue document: the issue's MODS section, then every page in the order of the structMap. */
export function readIssueDocument(reading: Reading, file: BatchFile, document: Opened, entry: ManifestEntry | null): WrittenIssue {
  const { root } = document;
  const folder = folderOf(file.path);
  const division = issueDivision(root);
  const parts = metsParts(reading, root, document.leaves, folder);
  const own = division === null ? null : sectionOf(division, parts);
  const pages: WrittenPage[] = [];
  const used = new Set<string>(own === null ? [] : [own.id]);
  if (division !== null) collectPages(reading, file.path, division, null, parts, pages, used);
  collectUnplaced(reading, file.path, parts, pages, used);
  return {
    facts: own === null ? {} : readFacts(own.mods, reading.profile.facts.issue),
    pages,
    copies: [...manifestCopies(entry), ...nameCopies(reading, file.path), ...labelCopies(reading, file.path, root)],
    reelFolder: folder === '' ? null : folderOf(folder),
    place: own === null ? { document: file.path } : { document: file.path, element: own.id },
  };
}

function issueDivision(root: XmlElement): XmlElement | null {
  for (const map of root.children.filter((child) => child.name === 'structMap')) {
    const division = descendants(map, 'div').find((candidate) => typeTail(attribute(candidate, 'TYPE') ?? '') === 'issue');
    if (division !== undefined) return division;
  }
  return null;
}

function collectPages(
  reading: Reading,
  path: string,
  division: XmlElement,
  section: string | null,
  parts: MetsParts,
  pages: WrittenPage[],
  used: Set<string>,
): void {
  for (const child of division.children) {
    if (child.name !== 'div') continue;
    const type = typeTail(attribute(child, 'TYPE') ?? '');
    const own = sectionOf(child, parts);
    if (own !== null) used.add(own.id);
    if (type !== 'page') {
      const label = own === null ? undefined : readFacts(own.mods, reading.profile.facts.section).section;
      collectPages(reading, path, child, label ?? section, parts, pages, used);
      continue;
    }
    const position = pages.length + 1;
    const facts = own === null ? {} : readFacts(own.mods, reading.profile.facts.page);
    const files = filesOf(child, parts);
    const place = { document: path, element: own?.id ?? `structMap page ${String(position)}` };
    pages.push({
      facts: section === null || facts.section !== undefined ? facts : { ...facts, section },
      structPosition: position,
      files,
      copies: [...frameCopies(reading, files, place), ...pageTextCopies(reading, files)],
      place,
    });
    if (own === null)
      reading.problems.push(
        problem('documents-disagree', `Page ${String(position)} of the structMap in "${path}" leads to no MODS section.`, {
          place,
          field: 'page',
        }),
      );
  }
}

/** Page sections to which no division leads would be lost; they come last, with a problem. */
function collectUnplaced(reading: Reading, path: string, parts: MetsParts, pages: WrittenPage[], used: ReadonlySet<string>): void {
  for (const [id, mods] of parts.sections) {
    if (used.has(id)) continue;
    const facts = readFacts(mods, reading.profile.facts.page);
    if (facts.frame === undefined && facts.order === undefined) continue;
    const place = { document: path, element: id };
    pages.push({ facts, structPosition: null, files: [], copies: [], place });
    reading.problems.push(
      problem('documents-disagree', `The page section "${id}" in "${path}" is not in the structMap.`, {
        instruction: `Put the page of "${id}" into the structMap or take the section out.`,
        place,
        field: 'page',
      }),
    );
  }
}

/** The frame number that the names of a page's files carry; files of one page that disagree give one copy each. */
function frameCopies(reading: Reading, files: readonly DraftFile[], place: WrittenCopy['place']): readonly WrittenCopy[] {
  const texts = new Set<string>();
  for (const file of files) {
    const text = matchName(lastPart(file.href), reading.profile.names.pageFile)?.get('frame');
    if (text !== undefined) texts.add(text);
  }
  return [...texts].map((text) => ({ fact: 'frame', source: 'file name', text, place }));
}

function manifestCopies(entry: ManifestEntry | null): readonly WrittenCopy[] {
  if (entry === null) return [];
  const place = { document: entry.manifest, element: entry.element };
  const copies: WrittenCopy[] = [];
  if (entry.titleId !== null) copies.push({ fact: 'title', source: 'manifest', text: entry.titleId, place });
  if (entry.date !== null) copies.push({ fact: 'date', source: 'manifest', text: entry.date, place });
  if (entry.edition !== null) copies.push({ fact: 'edition', source: 'manifest', text: entry.edition, place });
  return copies;
}

/** What the names of the document and its folders say again. The file name is told only where it differs from the folder. */
function nameCopies(reading: Reading, path: string): readonly WrittenCopy[] {
  const { names } = reading.profile;
  const place = { document: path };
  const folders = folderOf(path).split('/');
  const folder = matchName(folders.at(-1) ?? '', names.issueFolder);
  const file = matchName(lastPart(path), names.issueDocument);
  const title = folder === null ? undefined : matchName(folders.at(-3) ?? '', names.titleFolder)?.get('lccn');
  const copies: WrittenCopy[] = title === undefined ? [] : [{ fact: 'title', source: 'folder name', text: title, place }];
  for (const [part, fact] of [
    ['day', 'date'],
    ['date', 'date'],
    ['edition', 'edition'],
  ] as const) {
    const inFolder = folder?.get(part);
    const inFile = file?.get(part);
    if (inFolder !== undefined) copies.push({ fact, source: 'folder name', text: inFolder, place });
    if (inFile !== undefined && inFile !== inFolder) copies.push({ fact, source: 'file name', text: inFile, place });
  }
  return copies;
}

function labelCopies(reading: Reading, path: string, root: XmlElement): readonly WrittenCopy[] {
  const label = matchName(attribute(root, 'LABEL') ?? '', reading.profile.names.label);
  const place = { document: path, element: 'mets/@LABEL' };
  const date = label?.get('date');
  const edition = label?.get('label');
  const copies: WrittenCopy[] = date === undefined ? [] : [{ fact: 'date', source: 'LABEL', text: date, place }];
  return edition === undefined ? copies : [...copies, { fact: 'editionLabel', source: 'LABEL', text: edition, place }];
}
