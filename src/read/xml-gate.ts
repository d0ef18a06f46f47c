import { faultInWords, type XmlReader } from './xml-position.js';
import { scanXml } from './xml-scan.js';
import { type AdministrativeLeaf, administrativeReader, treeReader } from './xml-sections.js';
import type { XmlElement } from './xml-tree.js';

/** What the gate found: a well-formed document with what it took on its way, or the first fault and its line. */
export type GateResult =
  | {
      readonly ok: true;
      readonly leaves: readonly AdministrativeLeaf[];
      /** The tree of the document, its administrative sections empty; null for a manifest, which is left to the parser. */
      readonly tree: XmlElement | null;
      /** Byte ranges that say nothing further, in order: the inside of administrative sections, and processing instructions. */
      readonly cuts: readonly { readonly from: number; readonly to: number }[];
    }
  | { readonly ok: false; readonly says: string; readonly line: number };

/** The first element of a manifest. */
const MANIFEST = 'batch';

/**
 * Decides whether bytes, known to be UTF-8, are well-formed XML 1.0 with namespaces and without a DOCTYPE. On its way it takes the wanted
 * leaves of METS administrative sections, which repeat a few elements thousands of times, and builds the tree of the rest of the document.
 * A manifest, of which a batch has one, is left to the parser.
 */
export function passGate(bytes: Buffer, wanted: ReadonlySet<string>): GateResult {
  const cuts: { from: number; to: number }[] = [];
  const administrative = administrativeReader(wanted);
  const tree = treeReader();
  let isOurs = true;
  // Depth of the administrative section being read, and where its inside begins; 0 outside of one.
  let section = 0;
  let from = 0;
  const reader: XmlReader = {
    open: (scan, name) => {
      if (scan.depth === 1) isOurs = name.local !== MANIFEST;
      if (section === 0) {
        if (isOurs) tree.open(scan, name);
        if (name.local !== 'amdSec') return;
        section = scan.depth;
        from = scan.at;
      }
      administrative.open(scan, name);
    },
    text: (scan, start, end, literal) => {
      if (section > 0) administrative.text(scan, start, end, literal);
      else if (isOurs) tree.text(scan, start, end, literal);
    },
    close: (scan, name) => {
      if (section > 0) {
        administrative.close(scan, name);
        if (scan.depth > section) return;
        section = 0;
        // An empty element such as <amdSec/> holds nothing to cut.
        if (scan.tagStart > from) cuts.push({ from, to: scan.tagStart });
      }
      if (isOurs) tree.close(scan, name);
    },
    // The parser cannot read an instruction with an apostrophe in it.
    instruction: (start, end) => {
      if (section === 0) cuts.push({ from: start, to: end });
    },
  };
  const fault = scanXml(bytes, reader);
  if (fault !== null) return { ok: false, says: faultInWords(fault), line: lineOf(bytes, fault.offset) };
  return { ok: true, leaves: administrative.leaves, tree: tree.root(), cuts };
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
