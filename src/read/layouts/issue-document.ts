import type { Place } from '../../model/film.js';
import type { WrittenIssue, WrittenPage } from '../../model/written-return.js';
import type { ManifestLine } from '../facts/part-facts.js';
import { readPart } from '../facts/part-facts.js';
import { problem, type Reading } from '../reading.js';
import { type BatchFile, folderOf } from '../walk.js';
import type { XmlDocument } from '../xml.js';
import type { XmlElement } from '../xml-tree.js';
import { accountFor } from './mets/account.js';
import { around, type DivisionNode, divisionsIn, issueDivisions, isWithin, noteRepeatedMaps, pageDivisions } from './mets/divisions.js';
import { linkedPages } from './mets/links.js';
import { filesOf, type MetsParts, metsParts } from './mets/parts.js';
import { pageTextCopies } from './page-text-copies.js';

/** What is read of one issue document, on the way. */
interface Scene {
  readonly reading: Reading;
  readonly path: string;
  readonly root: XmlElement;
  readonly listed: ManifestLine | null;
  readonly parts: MetsParts;
  readonly nodes: readonly DivisionNode[];
  /** Sections, by the element in which their facts stand, and divisions that a problem is about. */
  readonly found: Set<XmlElement>;
}

/** Reads an issue document: each of its issues with every page in the order of the structMap. None where no division is an issue. */
export function readIssueDocument(
  reading: Reading,
  file: BatchFile,
  document: Extract<XmlDocument, { ok: true }>,
  listed: ManifestLine | null,
): readonly WrittenIssue[] {
  const { root, leaves } = document;
  const { nodes, repeats } = divisionsIn(root, reading.profile);
  noteRepeatedMaps(reading, file.path, repeats);
  const scene: Scene = {
    reading,
    path: file.path,
    root,
    listed,
    parts: metsParts(reading, file.path, root, leaves, nodes),
    nodes,
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
  const { sections, lost } = parts.sections.from(node.division);
  const own = sections[0] ?? null;
  const place: Place = own === null ? { document: path } : { document: path, element: own.id };
  const undescribed = sections.length === 0 && lost.length > 0;
  if (undescribed) noteNoSection(scene, `The issue in "${path}"`, place, lost);
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
    ...(undescribed ? { undescribed } : {}),
    pages: isFirst ? [...pages, ...unplacedPages(scene)] : pages,
    copies: read.copies,
    reelFolder: folder === '' ? null : folderOf(folder),
    place,
  };
}

function readPage(scene: Scene, node: DivisionNode, position: number): WrittenPage {
  const { reading, path, root, listed, parts } = scene;
  const { sections, lost } = parts.sections.from(node.division);
  const { files, lost: lostFiles } = filesOf(node.division, parts);
  const place: Place = { document: path, element: sections[0]?.id ?? `structMap page ${String(position)}` };
  const { facts, copies } = readPart(
    reading.profile,
    'page',
    { sections: sections.map((section) => section.root), division: node.division, document: path, root, listed, files, position, place },
    reading.seen,
  );
  // What is known of a page from its division or its files needs no section.
  const undescribed = sections.length === 0 && (lost.length > 0 || (wantsSection(scene) && Object.keys(facts).length === 0));
  if (undescribed) noteNoSection(scene, `Page ${String(position)} of the structMap in "${path}"`, place, lost);
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
    ...(undescribed ? { undescribed } : {}),
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
    const { sections } = parts.sections.from(node.division);
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

/** A part of which nothing is said, since its division leads to no section: what it should say is not missed fact by fact. */
function noteNoSection(scene: Scene, what: string, place: Place, lost: readonly string[]): void {
  const to = lost.length === 0 ? '' : `: "${lost.join(' ')}" is none of the document`;
  scene.reading.problems.push(
    problem('vocabulary-unknown', `${what} leads to no metadata section${to}, so nothing is said of it.`, {
      instruction: 'Lead each division to the section that describes it.',
      place,
      field: 'section of metadata',
      returned: lost.length === 0 ? null : lost.join(' '),
    }),
  );
}

/** Sections of pages to which no division leads: the page is described, and no reader of the document would ever see it. */
function unplacedPages(scene: Scene): readonly WrittenPage[] {
  const { reading, path, parts } = scene;
  const pages: WrittenPage[] = [];
  for (const section of parts.sections.all) {
    if (section.placed || section.repeated) continue;
    const place = { document: path, element: section.id };
    const { facts } = readPart(reading.profile, 'page', { sections: [section.root], document: path, place }, null);
    if (facts.frame === undefined && facts.order === undefined) continue;
    scene.found.add(section.root);
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
    scene.found.add(page.division);
    for (const section of scene.parts.sections.from(page.division).sections) scene.found.add(section.root);
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
