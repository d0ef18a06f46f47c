import type { WrittenCopy, WrittenPage, WrittenReel } from '../../model/written-return.js';
import { readFacts } from '../fact-path.js';
import { typeTail } from '../kinds.js';
import type { Reading } from '../reading.js';
import { withoutMark } from '../variants.js';
import { type BatchFile, folderOf, lastPart } from '../walk.js';
import type { XmlDocument } from '../xml.js';
import { attribute, type XmlElement } from '../xml-tree.js';
import type { ManifestEntry } from './manifest.js';
import { filesOf, metsParts, sectionOf } from './mets.js';

interface ReelDivisions {
  /** The division that stands for the reel; null where the document has none. */
  readonly reel: XmlElement | null;
  /** Targets on the film. */
  readonly targets: readonly XmlElement[];
}

/**
 * The divisions of a reel document. The scanner's technical targets stand under a division of their own (`techtargetreel` in all 36 published reel
 * documents that were looked at); they are not on the film and have no frame number.
 */
function reelDivisions(root: XmlElement): ReelDivisions {
  let reel: XmlElement | null = null;
  const targets: XmlElement[] = [];
  const look = (division: XmlElement, ofScanner: boolean): void => {
    const type = division.name === 'div' ? typeTail(attribute(division, 'TYPE') ?? '') : '';
    if (type === 'reel') reel ??= division;
    if (type === 'target' && !ofScanner) targets.push(division);
    for (const child of division.children) if (child.name === 'div') look(child, ofScanner || type === 'techtargetreel');
  };
  for (const map of root.children) if (map.name === 'structMap') look(map, false);
  return { reel, targets };
}

/** Whether a METS document has the divisions of a reel, whatever its first element calls it. */
export function holdsReel(root: XmlElement): boolean {
  const { reel, targets } = reelDivisions(root);
  return reel !== null || targets.length > 0;
}

/** Reads a reel document: the reel's number and facts, and each target that has a division of its own. */
export function readReelDocument(
  reading: Reading,
  file: BatchFile,
  document: Extract<XmlDocument, { ok: true }>,
  entry: ManifestEntry | null,
): WrittenReel {
  const { facts, reelFacts } = reading.profile;
  const folder = folderOf(file.path);
  const parts = metsParts(reading, document.root, document.leaves, folder);
  const divisions = reelDivisions(document.root);
  const own = divisions.reel === null ? null : sectionOf(divisions.reel, parts);
  const targets = divisions.targets.map((division, at): WrittenPage => {
    const section = sectionOf(division, parts);
    return {
      facts: section === null ? {} : readFacts(section.mods, facts.target),
      structPosition: at + 1,
      files: filesOf(division, parts),
      copies: [],
      place: { document: file.path, element: section?.id ?? `structMap target ${String(at + 1)}` },
    };
  });
  const place = own === null ? { document: file.path } : { document: file.path, element: own.id };
  const written = own === null ? {} : readFacts(own.mods, facts.reel);
  const copies = numberCopies(file, document.root, entry);
  // A file or folder name is a place and not a statement: it serves where nothing else gives the number.
  const name = lastPart(withoutMark(file.path)).replace(/\.xml$/i, '');
  const number = written.reel ?? numberOfTargets(targets) ?? copies[0]?.text ?? name;
  return {
    facts: { ...written, reel: number },
    reelFacts: document.leaves
      .filter((leaf) => reelFacts.includes(leaf.name) && leaf.text !== '')
      .map(({ name: fact, text }) => ({ name: fact, text })),
    targets,
    targetsListed: targets.length > 0,
    copies: copies.filter((copy) => copy.text !== number),
    reelFolder: folder,
    place,
  };
}

/** The reel number that the sections of all targets give; null where they differ or give none. */
function numberOfTargets(targets: readonly WrittenPage[]): string | null {
  const [first, ...others] = [...new Set(targets.map((target) => target.facts.reel))];
  return others.length === 0 ? (first ?? null) : null;
}

/** Where the reel's number stands besides the MODS sections: as the document's LABEL and in the manifest. */
function numberCopies(file: BatchFile, root: XmlElement, entry: ManifestEntry | null): readonly WrittenCopy[] {
  const copies: WrittenCopy[] = [];
  const label = attribute(root, 'LABEL');
  // A label may also be words about the reel; a number is one word with a digit in it.
  if (label !== null && /^\S{1,80}$/.test(label) && /\d/.test(label))
    copies.push({ fact: 'reel', source: 'LABEL', text: label, place: { document: file.path, element: 'mets/@LABEL' } });
  if (entry?.kind === 'reel' && entry.reel !== null && entry.reel !== '')
    copies.push({ fact: 'reel', source: 'manifest', text: entry.reel, place: { document: entry.manifest, element: entry.element } });
  return copies;
}
