import { type DraftFile, IMAGE_LEAVES, lookForFile, type Reading } from '../reading.js';
import type { AdministrativeLeaf } from '../xml-sections.js';
import { attribute, descendants, type XmlElement } from '../xml-tree.js';

/** The parts of a METS document that are followed by ID: MODS sections and files. */
export interface MetsParts {
  readonly sections: ReadonlyMap<string, XmlElement>;
  readonly files: ReadonlyMap<string, DraftFile>;
}

/** Indexes a METS document by ID, whatever its prefixes and the spelling of its IDs. Page files are looked for on the way. */
export function metsParts(reading: Reading, root: XmlElement, leaves: readonly AdministrativeLeaf[], folder: string): MetsParts {
  const sections = new Map<string, XmlElement>();
  for (const section of root.children.filter((child) => child.name === 'dmdSec')) {
    const id = attribute(section, 'ID');
    const mods = descendants(section, 'mods')[0];
    if (id !== null && mods !== undefined && !sections.has(id)) sections.set(id, mods);
  }
  const images = imageFacts(leaves);
  const files = new Map<string, DraftFile>();
  for (const fileSection of root.children.filter((child) => child.name === 'fileSec')) {
    for (const group of descendants(fileSection, 'fileGrp')) {
      for (const file of group.children.filter((child) => child.name === 'file')) {
        const id = attribute(file, 'ID');
        const place = file.children.find((child) => child.name === 'FLocat');
        const href = place === undefined ? null : attribute(place, 'href');
        if (id === null || href === null || files.has(id)) continue;
        const use = (attribute(file, 'USE') ?? attribute(group, 'USE') ?? 'file').toLowerCase();
        files.set(id, lookForFile(reading, folder, use, href, factsFor(attribute(file, 'ADMID') ?? '', images)));
      }
    }
  }
  return { sections, files };
}

/** The files that a division points to, in document order. */
export function filesOf(division: XmlElement, parts: MetsParts): readonly DraftFile[] {
  const found: DraftFile[] = [];
  for (const pointer of division.children.filter((child) => child.name === 'fptr')) {
    for (const element of [pointer, ...descendants(pointer, 'area')]) {
      const file = parts.files.get(attribute(element, 'FILEID') ?? '');
      if (file !== undefined && !found.includes(file)) found.push(file);
    }
  }
  return found;
}

/** The MODS section of a division with its ID: the first of its DMDIDs that leads to one. */
export function sectionOf(division: XmlElement, parts: MetsParts): { readonly id: string; readonly mods: XmlElement } | null {
  for (const id of (attribute(division, 'DMDID') ?? '').split(' ')) {
    const mods = parts.sections.get(id);
    if (mods !== undefined) return { id, mods };
  }
  return null;
}

interface ImageFacts {
  digest: string | null;
  width: number | null;
  height: number | null;
}

function imageFacts(leaves: readonly AdministrativeLeaf[]): ReadonlyMap<string, ImageFacts> {
  const byId = new Map<string, ImageFacts>();
  let algorithm = '';
  for (const leaf of leaves) {
    if (!IMAGE_LEAVES.includes(leaf.name)) continue;
    const facts = byId.get(leaf.section) ?? { digest: null, width: null, height: null };
    byId.set(leaf.section, facts);
    if (leaf.name === 'messageDigestAlgorithm') algorithm = leaf.text.toLowerCase().replace(/[^a-z0-9]/g, '');
    else if (leaf.name === 'messageDigest') facts.digest ??= leaf.text === '' ? null : `${algorithm}:${leaf.text.toLowerCase()}`;
    else if (leaf.name.endsWith('Width')) facts.width ??= pixels(leaf.text);
    else facts.height ??= pixels(leaf.text);
  }
  return byId;
}

function pixels(text: string): number | null {
  return /^\d{1,9}$/.test(text) && Number(text) > 0 ? Number(text) : null;
}

function factsFor(ids: string, images: ReadonlyMap<string, ImageFacts>): ImageFacts {
  const facts: ImageFacts = { digest: null, width: null, height: null };
  for (const id of ids.split(' ')) {
    const found = images.get(id);
    facts.digest ??= found?.digest ?? null;
    facts.width ??= found?.width ?? null;
    facts.height ??= found?.height ?? null;
  }
  return facts;
}
