import { hash } from 'node:crypto';
import { textWarnings, toUtf8 } from './decode.js';
import { readFileBytes } from './file-bytes.js';
import { type GateResult, passGate, textWithoutCuts } from './xml-gate.js';
import type { AdministrativeLeaf } from './xml-sections.js';
import { buildTree, type XmlElement } from './xml-tree.js';

/** A document that was read, or the sentence that says why it was not; the digest is of its bytes, null when they could not be had. */
export type XmlDocument =
  | {
      readonly ok: true;
      readonly sha256: string;
      readonly root: XmlElement;
      readonly leaves: readonly AdministrativeLeaf[];
      readonly warnings: readonly string[];
    }
  | { readonly ok: false; readonly sha256: string | null; readonly says: string; readonly line: number | null };

/** Bytes of a manifest, which lists one document in about a hundred; the parser that reads it needs a hundred times as much memory. */
const LONGEST_MANIFEST = 16 * 1024 * 1024;

/**
 * Reads one XML document from disk, once and strictly: regular file, size cap, encoding by its bytes, well-formed with namespaces,
 * no DOCTYPE. `wanted` names the elements whose text is taken from administrative sections (METS amdSec), which the tree leaves out.
 */
export function readXml(path: string, wanted: ReadonlySet<string>, cap?: number): XmlDocument {
  const file = readFileBytes(path, cap);
  if (!file.ok) return { ok: false, sha256: null, says: file.says, line: null };
  const sha256 = hash('sha256', file.bytes, 'hex');
  if (file.bytes.length === 0) return { ok: false, sha256, says: 'It is empty.', line: null };
  const decoded = toUtf8(file.bytes);
  if (!decoded.ok) return { ok: false, sha256, says: decoded.says, line: null };
  const gate = passGate(decoded.utf8, wanted);
  if (!gate.ok) return { ok: false, sha256, says: gate.says, line: gate.line };
  if (gate.tree === null && decoded.utf8.length > LONGEST_MANIFEST)
    return {
      ok: false,
      sha256,
      says: `It is a manifest of more than ${String(LONGEST_MANIFEST)} bytes; none so long is read.`,
      line: null,
    };
  try {
    return { ok: true, sha256, root: treeOf(decoded.utf8, gate), leaves: gate.leaves, warnings: textWarnings(decoded.utf8) };
  } catch (error) {
    return {
      ok: false,
      sha256,
      says: `The XML parser refuses it: ${error instanceof Error ? error.message : 'no reason given'}.`,
      line: null,
    };
  }
}

/** The tree of a document that has passed the gate: the one that the gate took, or else what the parser builds of the text. */
export function treeOf(utf8: Buffer, gate: Extract<GateResult, { ok: true }>): XmlElement {
  return gate.tree ?? buildTree(textWithoutCuts(utf8, gate.cuts));
}
