import type { FileRules } from '../../../model/profile.js';
import { type FileStatements, noteStated, statementsIn } from '../../fixity/stated.js';
import { plainHref } from '../../href.js';
import { type DraftFile, IMAGE_LEAVES, lookForFile, problem, type Reading } from '../../reading.js';
import { shortened } from '../../vendor-text.js';
import { folderOf } from '../../walk.js';
import type { AdministrativeLeaf } from '../../xml-sections.js';
import { attribute, descendants, type XmlElement } from '../../xml-tree.js';
import type { DivisionNode } from './divisions.js';
import { linkSections, type SectionLinks } from './sections.js';

/** An entry of the file section under its ID; `draft` is null where the profile says that such files are not delivered, or it stands in the document itself. */
export interface FileEntry {
  readonly id: string;
  readonly use: string;
  readonly ignored: boolean;
  readonly draft: DraftFile | null;
  placed: boolean;
}

/** The parts of a METS document that are followed by ID. */
export interface MetsParts {
  readonly document: string;
  readonly sections: SectionLinks;
  readonly files: ReadonlyMap<string, FileEntry>;
}

/** Indexes a METS document by ID, whatever its prefixes and the spelling of its IDs. Page files are looked for on the way. */
export function metsParts(
  reading: Reading,
  document: string,
  root: XmlElement,
  leaves: readonly AdministrativeLeaf[],
  nodes: readonly DivisionNode[],
): MetsParts {
  return { document, sections: linkSections(reading, document, root, nodes), files: fileEntries(reading, document, root, leaves) };
}

/** Two entries under one ID: where they name the same file nothing is lost, else nobody can tell which of them counts. */
function noteRepeated(reading: Reading, document: string, id: string, same: boolean): void {
  if (same) {
    reading.received.section(document, `${id} (again)`, 'file', 'unchecked', {
      what: 'file entries that stand twice in one document',
      why: 'Both say the same, so one of them was compared.',
    });
    return;
  }
  reading.received.section(document, `${id} (again)`, 'file', 'found');
  reading.problems.push(
    problem('documents-disagree', `Two file entries in "${document}" have the ID "${id}" and say different things; the first was read.`, {
      instruction: `Give each part of "${document}" an ID of its own, and take out the one of the two that is wrong.`,
      field: 'document',
      place: { document, element: id },
    }),
  );
}

function fileEntries(
  reading: Reading,
  document: string,
  root: XmlElement,
  leaves: readonly AdministrativeLeaf[],
): ReadonlyMap<string, FileEntry> {
  const images = imageFacts(leaves);
  const files = new Map<string, FileEntry & { readonly href: string }>();
  const rules = reading.profile.files;
  const folder = folderOf(document);
  const enter = (file: XmlElement, outer: readonly string[]): void => {
    const id = attribute(file, 'ID');
    if (id === null) return;
    const location = file.children.find((inner) => inner.name === 'FLocat');
    const href = location === undefined ? null : attribute(location, 'href');
    const earlier = files.get(id);
    if (earlier !== undefined) {
      noteRepeated(reading, document, id, earlier.href === (href ?? ''));
      return;
    }
    const stated = attribute(file, 'USE')?.toLowerCase();
    const all = stated === undefined ? outer : [stated, ...outer];
    const use = shortened(all[0] ?? 'file');
    const ignored = isIgnored(all, rules);
    const sections = sectionsOf(file, images);
    // A file that stands in the document itself has no place in the batch (METS 1.12.1, FContent).
    const inside = href === null && file.children.some((inner) => inner.name === 'FContent');
    const draft = ignored || inside ? null : lookForFile(reading, folder, use, plainHref(href ?? ''), factsFor(file, sections));
    if (draft?.state === 'present') noteStated(reading, draft.path, statedOf(file, sections));
    files.set(id, { id: shortened(id), use, ignored, draft, placed: false, href: href ?? '' });
  };
  const visit = (group: XmlElement, outer: readonly string[]): void => {
    const own = attribute(group, 'USE');
    const uses = own === null ? outer : [own.toLowerCase(), ...outer];
    for (const child of group.children) {
      if (child.name === 'fileGrp') visit(child, uses);
      else if (child.name === 'file') enter(child, uses);
    }
  };
  for (const section of root.children) if (section.name === 'fileSec') visit(section, []);
  return files;
}

function isIgnored(uses: readonly string[], rules: FileRules): boolean {
  return rules.ignored.length > 0 && rules.ignored.some((ignored) => uses.includes(ignored.toLowerCase()));
}

/** The files that a division points to, in document order, without those of the divisions below it; an ID that leads nowhere is answered apart. */
export function filesOf(
  division: XmlElement,
  parts: MetsParts,
): { readonly files: readonly DraftFile[]; readonly lost: readonly string[] } {
  const files: DraftFile[] = [];
  const lost: string[] = [];
  for (const pointer of division.children) {
    if (pointer.name !== 'fptr') continue;
    for (const element of [pointer, ...descendants(pointer, 'area')]) {
      const id = attribute(element, 'FILEID');
      if (id === null) continue;
      const entry = parts.files.get(id);
      if (entry === undefined) {
        if (!lost.includes(shortened(id))) lost.push(shortened(id));
        continue;
      }
      entry.placed = true;
      if (entry.draft !== null && !files.includes(entry.draft)) files.push(entry.draft);
    }
  }
  return { files, lost };
}

/** What is stated of a file: lengths in pixels, the digest that stands for its content, and all that is said of its bytes. */
interface ImageFacts {
  readonly digest: string | null;
  readonly width: number | null;
  readonly height: number | null;
  readonly bytes: FileStatements;
}

const WANTED: ReadonlySet<string> = new Set(IMAGE_LEAVES);
const WIDTHS: ReadonlySet<string> = new Set(['ImageWidth', 'imageWidth']);
const HEIGHTS: ReadonlySet<string> = new Set(['ImageLength', 'imageHeight']);

function imageFacts(leaves: readonly AdministrativeLeaf[]): ReadonlyMap<string, ImageFacts> {
  const own = leaves.every(({ name }) => WANTED.has(name)) ? leaves : leaves.filter(({ name }) => WANTED.has(name));
  const sections = new Map<string, readonly AdministrativeLeaf[]>();
  for (let from = 0; from < own.length; ) {
    const section = own[from]?.section ?? '';
    let to = from + 1;
    while (own[to]?.section === section) to += 1;
    const before = sections.get(section);
    const run = own.slice(from, to);
    sections.set(section, before === undefined ? run : [...before, ...run]);
    from = to;
  }
  const facts = new Map<string, ImageFacts>();
  for (const [id, run] of sections) facts.set(id, factsOfSection(run));
  return facts;
}

function factsOfSection(leaves: readonly AdministrativeLeaf[]): ImageFacts {
  const bytes = statementsIn(leaves);
  return { digest: digestOf(bytes), width: firstPixels(leaves, WIDTHS), height: firstPixels(leaves, HEIGHTS), bytes };
}

function firstPixels(leaves: readonly AdministrativeLeaf[], names: ReadonlySet<string>): number | null {
  for (const { name, text } of leaves) {
    const length = names.has(name) ? pixels(text) : null;
    if (length !== null) return length;
  }
  return null;
}

/** The first digest that is given: `SHA-1` and `7E6B...` as `sha1:7e6b...`. */
function digestOf({ digests }: FileStatements): string | null {
  const first = digests.find(({ digest }) => digest !== null && digest.trim() !== '');
  const algorithm = (first?.algorithm ?? '').toLowerCase().replace(/[^a-z0-9]/g, '');
  return first?.digest == null ? null : `${algorithm}:${first.digest.trim().toLowerCase()}`;
}

function pixels(text: string): number | null {
  return /^\d{1,9}$/.test(text) && Number(text) > 0 ? Number(text) : null;
}

const NONE: readonly ImageFacts[] = [];

/** The administrative sections to which the entry of a file leads. */
function sectionsOf(file: XmlElement, images: ReadonlyMap<string, ImageFacts>): readonly ImageFacts[] {
  const ids = attribute(file, 'ADMID') ?? '';
  if (ids.includes(' ')) return ids.split(' ').flatMap((id) => images.get(id) ?? []);
  const only = images.get(ids);
  return only === undefined ? NONE : [only];
}

/** What is stated of the picture in a file: in the administrative sections to which it leads, and on the entry itself. */
function factsFor(file: XmlElement, sections: readonly ImageFacts[]): Omit<ImageFacts, 'bytes'> {
  let [digest, width, height]: [string | null, number | null, number | null] = [null, null, null];
  for (const section of sections) {
    digest ??= section.digest;
    width ??= section.width;
    height ??= section.height;
  }
  return { digest: digest ?? digestOf(onEntry(file)), width, height };
}

/** What is stated of the bytes of a file on its entry (METS 1.12.1, attributes CHECKSUM, CHECKSUMTYPE and SIZE). */
function onEntry(file: XmlElement): FileStatements {
  const size = attribute(file, 'SIZE');
  return {
    digests: [{ algorithm: attribute(file, 'CHECKSUMTYPE'), digest: attribute(file, 'CHECKSUM') }],
    sizes: size === null ? [] : [size],
  };
}

/** All that is stated of the bytes of a file, on its entry and in its sections. */
function statedOf(file: XmlElement, sections: readonly ImageFacts[]): FileStatements {
  const said = [onEntry(file), ...sections.map(({ bytes }) => bytes)];
  return { digests: said.flatMap(({ digests }) => digests), sizes: said.flatMap(({ sizes }) => sizes) };
}
