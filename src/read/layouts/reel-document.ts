import type { WrittenPage, WrittenReel } from '../../model/written-return.js';
import { readFacts } from '../fact-path.js';
import { typeTail } from '../kinds.js';
import type { Reading } from '../reading.js';
import { type BatchFile, folderOf } from '../walk.js';
import type { XmlDocument } from '../xml.js';
import { attribute, descendants } from '../xml-tree.js';
import { filesOf, metsParts, sectionOf } from './mets.js';

/** Reads a reel document: the reel's number and facts, and each target that has a division of its own. */
export function readReelDocument(reading: Reading, file: BatchFile, document: Extract<XmlDocument, { ok: true }>): WrittenReel {
  const { facts, reelFacts } = reading.profile;
  const folder = folderOf(file.path);
  const parts = metsParts(reading, document.root, document.leaves, folder);
  const divisions = document.root.children.filter((child) => child.name === 'structMap').flatMap((map) => descendants(map, 'div'));
  const reel = divisions.find((division) => typeTail(attribute(division, 'TYPE') ?? '') === 'reel');
  const own = reel === undefined ? null : sectionOf(reel, parts);
  const targets: WrittenPage[] = divisions
    .filter((division) => typeTail(attribute(division, 'TYPE') ?? '') === 'target')
    .map((division, at) => {
      const section = sectionOf(division, parts);
      return {
        facts: section === null ? {} : readFacts(section.mods, facts.target),
        structPosition: at + 1,
        files: filesOf(division, parts),
        copies: [],
        place: { document: file.path, element: section?.id ?? `structMap target ${String(at + 1)}` },
      };
    });
  return {
    facts: own === null ? {} : readFacts(own.mods, facts.reel),
    reelFacts: document.leaves
      .filter((leaf) => reelFacts.includes(leaf.name) && leaf.text !== '')
      .map(({ name, text }) => ({ name, text })),
    targets,
    targetsListed: targets.length > 0,
    copies: [],
    reelFolder: folder,
    place: own === null ? { document: file.path } : { document: file.path, element: own.id },
  };
}
