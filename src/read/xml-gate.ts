import { decodeReferences } from './xml-text.js';
import { type XmlReader, attributeText, scanXml } from './xml-scan.js';

/** A leaf element of an administrative section that was asked for: which section it stands in (its ID), its name and its text. */
export interface AdministrativeLeaf {
  readonly section: string;
  readonly name: string;
  readonly text: string;
}

/** What the gate found: a well-formed document with its administrative leaves, or the first fault and its line. */
export type GateResult =
  | {
      readonly ok: true;
      readonly leaves: readonly AdministrativeLeaf[];
      /** Byte ranges that say nothing further, in order: the inside of administrative sections, and processing instructions. */
      readonly cuts: readonly { readonly from: number; readonly to: number }[];
    }
  | { readonly ok: false; readonly says: string; readonly line: number };

/**
 * Decides whether bytes, known to be UTF-8, are well-formed XML 1.0 with namespaces and without a DOCTYPE, and takes the wanted leaves
 * of METS administrative sections on its way, so that the tree can be built without these: they are by far the larger part.
 */
export function passGate(bytes: Buffer, wanted: ReadonlySet<string>): GateResult {
  const leaves: AdministrativeLeaf[] = [];
  const cuts: { from: number; to: number }[] = [];
  let cutDepth = 0;
  let cutFrom = 0;
  let section = '';
  let leaf = '';
  let text = '';
  const reader: XmlReader = {
    open: (scan, name) => {
      if (cutDepth === 0) {
        if (name.local !== 'amdSec') return;
        cutDepth = scan.depth;
        cutFrom = scan.at;
        return;
      }
      if (scan.depth === cutDepth + 1) section = attributeText(scan, 'ID') ?? '';
      leaf = wanted.has(name.local) ? name.local : '';
      text = '';
    },
    text: (scan, from, to, literal) => {
      if (leaf === '') return;
      const piece = scan.bytes.toString('utf8', from, to);
      text += literal ? piece : decodeReferences(piece);
    },
    close: (scan) => {
      if (leaf !== '') {
        leaves.push({ section, name: leaf, text: text.trim() });
        leaf = '';
      }
      if (scan.depth !== cutDepth) return;
      // An empty element <amdSec/> holds nothing to cut.
      if (scan.tagStart > cutFrom) cuts.push({ from: cutFrom, to: scan.tagStart });
      cutDepth = 0;
    },
    // The tree's parser cannot read an instruction with an apostrophe in it.
    instruction: (from, to) => {
      if (cutDepth === 0) cuts.push({ from, to });
    },
  };
  const fault = scanXml(bytes, reader);
  return fault === null
    ? { ok: true, leaves, cuts }
    : { ok: false, says: `It is not well-formed XML: ${fault.says}.`, line: lineOf(bytes, fault.offset) };
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
