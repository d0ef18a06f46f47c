import type { XmlReader } from './xml-position.js';
import { scanXml } from './xml-scan.js';
import { type AdministrativeLeaf, administrativeReader, treeReader } from './xml-sections.js';
import type { XmlElement } from './xml-tree.js';

/** What the gate found: a well-formed document with what it took on its way, or the first fault and its line. */
export type GateResult =
  | {
      readonly ok: true;
      readonly leaves: readonly AdministrativeLeaf[];
      /** The taken sections as trees, in document order. */
      readonly sections: readonly XmlElement[];
      /** Byte ranges that say nothing further, in order: the inside of the sections above, and processing instructions. */
      readonly cuts: readonly { readonly from: number; readonly to: number }[];
    }
  | { readonly ok: false; readonly says: string; readonly line: number };

/** Sections of a METS document, right below its root, that are taken on the way: they repeat a few elements thousands of times. */
export const TAKEN_SECTIONS: ReadonlySet<string> = new Set(['dmdSec', 'fileSec', 'structMap']);

/**
 * Decides whether bytes, known to be UTF-8, are well-formed XML 1.0 with namespaces and without a DOCTYPE. On its way it takes the wanted
 * leaves of METS administrative sections and the other large METS sections whole, so that the parser builds the tree of what is left. A
 * document of another kind is left to the parser.
 */
export function passGate(bytes: Buffer, wanted: ReadonlySet<string>): GateResult {
  const cuts: { from: number; to: number }[] = [];
  const administrative = administrativeReader(wanted);
  const sections = treeReader();
  let inside: XmlReader | null = null;
  let depth = 0;
  let from = 0;
  let isMets = false;
  const reader: XmlReader = {
    open: (scan, name) => {
      if (inside === null) {
        if (scan.depth === 1) isMets = name.local === 'mets';
        if (name.local === 'amdSec') inside = administrative;
        else if (isMets && scan.depth === 2 && TAKEN_SECTIONS.has(name.local)) inside = sections;
        else return;
        depth = scan.depth;
        from = scan.at;
      }
      inside.open(scan, name);
    },
    text: (scan, start, end, literal) => inside?.text(scan, start, end, literal),
    close: (scan, name) => {
      if (inside === null) return;
      inside.close(scan, name);
      if (scan.depth !== depth) return;
      // An empty element such as <amdSec/> holds nothing to cut.
      if (scan.tagStart > from) cuts.push({ from, to: scan.tagStart });
      inside = null;
    },
    // The tree's parser cannot read an instruction with an apostrophe in it.
    instruction: (start, end) => {
      if (inside === null) cuts.push({ from: start, to: end });
    },
  };
  const fault = scanXml(bytes, reader);
  if (fault !== null) return { ok: false, says: `It is not well-formed XML: ${fault.says}.`, line: lineOf(bytes, fault.offset) };
  return { ok: true, leaves: administrative.leaves, sections: sections.trees, cuts };
}

/** The line of an offset, counted from 1. */
export function lineOf(bytes: Uint8Array, offset: number): number {
  let line = 1;
  for (let at = 0; at < offset && at < bytes.length; at += 1) {
    if (bytes[at] === 0x0a || (bytes[at] === 0x0d && bytes[at + 1] !== 0x0a)) line += 1;
  }
  return line;
}

/** The text of a document without the ranges that the gate found to say nothing further. */
export function textWithoutCuts(bytes: Buffer, cuts: readonly { readonly from: number; readonly to: number }[]): string {
  let text = '';
  let at = 0;
  for (const cut of cuts) {
    text += bytes.toString('utf8', at, cut.from);
    at = cut.to;
  }
  return text + bytes.toString('utf8', at);
}
