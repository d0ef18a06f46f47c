import type { Place } from '../../model/film.js';
import type { WrittenIssue, WrittenPage } from '../../model/written-return.js';
import type { ManifestLine } from '../facts/part-facts.js';
import { readPart } from '../facts/part-facts.js';
import { problem, type Reading } from '../reading.js';
import { type BatchFile, folderOf } from '../walk.js';
import type { XmlDocument } from '../xml.js';
import type { XmlElement } from '../xml-tree.js';
import { accountFor } from './mets/account.js';
import { around, type DivisionNode, divisionsOf, issueDivisions, isWithin, pageDivisions } from './mets/divisions.js';
import { linkedPages } from './mets/links.js';
import { filesOf, type MetsParts, metsParts, sectionsFor } from './mets/parts.js';
import { pageTextCopies } from './page-text-copies.js';

/** What is read of one issue document, on the way. */
interface Scene {
  readonly reading: Reading;
  readonly path: string;
  readonly root: XmlElement;
  readonly listed: ManifestLine | null;
  readonly parts: MetsParts;
  readonly nodes: readonly DivisionNode[];
  /** IDs of sections that a problem is about. */
  readonly found: Set<string>;
}

/** Reads an issue document: each of its issues with every page in the order of the structMap. None where no division is an issue. */
export function readIssueDocument(
  reading: Reading,
  file: BatchFile,
  document: Extract<XmlDocument, { ok: true }>,
  listed: ManifestLine | null,
): readonly WrittenIssue[] {
  const { root, leaves } = document;
  const scene: Scene = {
    reading,
    path: file.path,
    root,
    listed,
    parts: metsParts(reading, file.path, root, leaves),
    nodes: divisionsOf(root, reading.profile),
    found: new Set(),
  };
  const divisions = issueDivisions(scene.nodes);
  const owned = new Set<DivisionNode>();
  const issues = divisions.map((division, at) => {
    const pages = pagesOf(scene, division, at).filter((page) => !owned.has(page));
    for (const page of pages) owned.add(page);
    return readIssue(scene, division, pages, at === 0);
  });
  noteUnowned(
    scene,
    pageDivisions(scene.nodes).filter((page) => !owned.has(page)),
  );
  accountFor(reading, scene.parts, scene.nodes, scene.found);
  return issues;
}

/** The pages of an issue, as the profile says that pages belong to issues. Where all pages of the document do, they are the first issue's. */
function pagesOf(scene: Scene, issue: DivisionNode, at: number): readonly DivisionNode[] {
  const way = scene.reading.profile.pagesOfIssue;
  if (way === 'linked') return linkedPages(scene.root, scene.nodes, issue);
  const pages = pageDivisions(scene.nodes);
  if (way === 'document') return at === 0 ? pages : [];
  return pages.filter((page) => isWithin(page, issue));
}

function readIssue(scene: Scene, node: DivisionNode, pageNodes: readonly DivisionNode[], isFirst: boolean): WrittenIssue {
  const { reading, path, root, listed, parts } = scene;
  const { sections, lost } = sectionsFor(node.division, parts);
  const own = sections[0] ?? null;
  const place: Place = own === null ? { document: path } : { document: path, element: own.id };
  if (sections.length === 0 && lost.length > 0) noteNoSection(scene, `The issue in "${path}"`, place, 'title');
  const read = readPart(
    reading.profile,
    'issue',
    { sections: sections.map((section) => section.root), division: node.division, document: path, root, listed, place },
    reading.seen,
  );
  const pages = pageNodes.map((page, at) => readPage(scene, page, at + 1));
  const folder = folderOf(path);
  return {
    facts: read.facts,
    pages: isFirst ? [...pages, ...unplacedPages(scene)] : pages,
    copies: read.copies,
    reelFolder: folder === '' ? null : folderOf(folder),
    place,
  };
}

function readPage(scene: Scene, node: DivisionNode, position: number): WrittenPage {
  const { reading, path, root, listed, parts } = scene;
  const { sections, lost } = sectionsFor(node.division, parts);
  const { files, lost: lostFiles } = filesOf(node.division, parts);
  const place: Place = { document: path, element: sections[0]?.id ?? `structMap page ${String(position)}` };
  const { facts, copies } = readPart(
    reading.profile,
    'page',
    { sections: sections.map((section) => section.root), division: node.division, document: path, root, listed, files, position, place },
    reading.seen,
  );
  // What is known of a page from its division or its files needs no section.
  if (sections.length === 0 && (lost.length > 0 || (wantsSection(scene) && Object.keys(facts).length === 0)))
    noteNoSection(scene, `Page ${String(position)} of the structMap in "${path}"`, place, 'page');
  for (const id of lostFiles)
    reading.problems.push(
      problem(
        'file-missing',
        `Page ${String(position)} of the structMap in "${path}" points to a file "${id}", which the file section does not have.`,
        {
          instruction: `Give the file "${id}" in the file section of "${path}", or point to the right one.`,
          field: 'file',
          returned: id,
          place,
        },
      ),
    );
  const section = facts.section ?? sectionOf(scene, node);
  return {
    facts: section === undefined ? facts : { ...facts, section },
    structPosition: position,
    files,
    copies: [...copies, ...pageTextCopies(reading, files)],
    place,
  };
}

/** The label of the section around a page, by the section's own facts. */
function sectionOf(scene: Scene, page: DivisionNode): string | undefined {
  const { reading, path, root, parts } = scene;
  for (let node = around(page, 'section'); node !== null; node = around(node, 'section')) {
    const { sections } = sectionsFor(node.division, parts);
    const places = {
      sections: sections.map((section) => section.root),
      division: node.division,
      document: path,
      root,
      place: { document: path },
    };
    const { section } = readPart(reading.profile, 'section', places, reading.seen).facts;
    if (section !== undefined) return section;
  }
  return undefined;
}

/** Whether the profile looks for facts of a page in a section of its own. */
function wantsSection({ reading }: Scene): boolean {
  return Object.values(reading.profile.facts.page).some((rule) =>
    rule.sources.some((source) => typeof source === 'string' || source.in === 'section'),
  );
}

function noteNoSection(scene: Scene, what: string, place: Place, field: string): void {
  scene.reading.problems.push(
    problem('documents-disagree', `${what} leads to no metadata section.`, {
      instruction: 'Lead each division to the section that describes it.',
      place,
      field,
    }),
  );
}

/** Sections of pages to which no division leads: the page is described, and no reader of the document would ever see it. */
function unplacedPages(scene: Scene): readonly WrittenPage[] {
  const { reading, path, parts } = scene;
  const pages: WrittenPage[] = [];
  for (const section of parts.sections.values()) {
    if (section.placed) continue;
    const place = { document: path, element: section.id };
    const { facts } = readPart(reading.profile, 'page', { sections: [section.root], document: path, place }, null);
    if (facts.frame === undefined && facts.order === undefined) continue;
    scene.found.add(section.id);
    pages.push({ facts, structPosition: null, files: [], copies: [], place });
    reading.problems.push(
      problem(
        'page-not-delivered',
        `The page section "${section.id}" in "${path}" is not in the structMap, so the page is described and not delivered.`,
        {
          instruction: `Put the page of "${section.id}" into the structMap or take the section out.`,
          place,
          field: 'page',
        },
      ),
    );
  }
  return pages;
}

/** Page divisions of the document that belong to no issue of it. */
function noteUnowned(scene: Scene, pages: readonly DivisionNode[]): void {
  const { reading, path } = scene;
  if (pages.length === 0) return;
  const how = reading.profile.pagesOfIssue === 'linked' ? 'no structLink leads to them from an issue' : 'they lie below no issue';
  for (const page of pages) {
    filesOf(page.division, scene.parts);
    for (const section of sectionsFor(page.division, scene.parts).sections) scene.found.add(section.id);
  }
  const what = pages.length === 1 ? 'One page of the structMap' : `${String(pages.length)} pages of the structMap`;
  reading.problems.push(
    problem(
      'page-not-delivered',
      `${what} in "${path}" (first: ${pages[0]?.name ?? ''}) ${pages.length === 1 ? 'belongs' : 'belong'} to no issue: ${how}.`,
      {
        instruction: 'Give each page to its issue.',
        place: { document: path, element: pages[0]?.name ?? '' },
        field: 'page',
      },
    ),
  );
}
