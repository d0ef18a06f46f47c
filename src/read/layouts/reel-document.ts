import type { Place } from '../../model/film.js';
import type { WrittenPage, WrittenReel } from '../../model/written-return.js';
import { type ManifestLine, readPart } from '../facts/part-facts.js';
import { problem, type Reading } from '../reading.js';
import { shortened } from '../vendor-text.js';
import { type BatchFile, folderOf } from '../walk.js';
import type { XmlDocument } from '../xml.js';
import type { XmlElement } from '../xml-tree.js';
import { accountFor } from './mets/account.js';
import { around, type DivisionNode, divisionsIn, noteRepeatedMaps } from './mets/divisions.js';
import type { ScannerFile } from './mets/needs.js';
import { filesOf, metsParts } from './mets/parts.js';

/** The titles of a reel may make a long list. */
const LONGEST_FACT = 2000;

/** A reel document as read, and the files of what is not on the film, which nothing else asks for. */
export interface ReadReelDocument {
  readonly reel: WrittenReel;
  readonly scannerFiles: readonly ScannerFile[];
}

/**
 * Reads a reel document: the reel's number and facts, and each target that has a division of its own. The scanner's technical targets stand under
 * a division of theirs; they are not on the film and are no frames.
 */
export function readReelDocument(
  reading: Reading,
  file: BatchFile,
  document: Extract<XmlDocument, { ok: true }>,
  listed: ManifestLine | null,
): ReadReelDocument {
  const { profile, seen } = reading;
  const { path } = file;
  const { root, leaves } = document;
  const { nodes, repeats } = divisionsIn(root, profile);
  noteRepeatedMaps(reading, path, repeats);
  const parts = metsParts(reading, path, root, leaves, nodes);
  const node = nodes.find((each) => each.part === 'reel') ?? null;
  const own = node === null ? [] : parts.sections.from(node.division).sections;
  const allTargets = nodes.filter((each) => each.part === 'target');
  const onFilm = allTargets.filter((each) => around(each, 'scannerTargets') === null);
  const targets = onFilm.map((each, at) => readTarget(each, at + 1));
  const found = new Set<XmlElement>();
  const scannerFiles = allTargets.filter((each) => !onFilm.includes(each)).flatMap(readScannerTarget);
  const place: Place = own[0] === undefined ? { document: path } : { document: path, element: own[0].id };
  const read = readPart(
    profile,
    'reel',
    {
      sections: own.map((section) => section.root),
      division: node?.division ?? null,
      document: path,
      root,
      listed,
      targets: onFilm.map((each) => parts.sections.from(each.division).sections.map((section) => section.root)),
      place,
    },
    seen,
  );
  accountFor(reading, parts, nodes, found);
  return {
    reel: {
      facts: read.facts,
      reelFacts: leaves
        .filter((leaf) => profile.reelFacts.includes(leaf.name) && leaf.text !== '')
        .map(({ name, text }) => ({ name, text: shortened(text, LONGEST_FACT) })),
      targets,
      targetsListed: targets.length > 0,
      copies: read.copies,
      reelFolder: folderOf(path),
      place,
    },
    scannerFiles,
  };

  function readTarget(each: DivisionNode, position: number): WrittenPage {
    const { sections } = parts.sections.from(each.division);
    const { files } = filesOf(each.division, parts);
    const at: Place = { document: path, element: sections[0]?.id ?? `structMap target ${String(position)}` };
    const places = {
      sections: sections.map((section) => section.root),
      division: each.division,
      document: path,
      root,
      listed,
      files,
      place: at,
    };
    const { facts, copies } = readPart(profile, 'target', places, seen);
    return { facts, structPosition: position, files, copies, place: at };
  }

  function readScannerTarget(each: DivisionNode): readonly ScannerFile[] {
    const { sections } = parts.sections.from(each.division);
    const { files } = filesOf(each.division, parts);
    const at: Place = { document: path, element: sections[0]?.id ?? each.name };
    const places = { sections: sections.map((section) => section.root), division: each.division, document: path, root, files, place: at };
    const { frame } = readPart(profile, 'scannerTarget', places, seen).facts;
    if (frame !== undefined && profile.facts.scannerTarget.frame?.needs === 'must-not') {
      for (const section of sections) found.add(section.root);
      reading.problems.push(
        problem(
          'not-ordered',
          `The scanner's target "${at.element ?? ''}" in "${path}" gives the frame number ${frame}, but it is not on the film.`,
          {
            instruction: `Take the frame number out of "${at.element ?? ''}", or list the target among those of the film.`,
            field: 'frame',
            returned: frame,
            place: at,
          },
        ),
      );
    }
    return files.map((one) => ({ file: one, place: at }));
  }
}
