import { SaxesParser } from 'saxes';

/** A leaf element of an administrative section that was asked for: which section it stands in (its ID), its name and its text. */
export interface AdministrativeLeaf {
  readonly section: string;
  readonly name: string;
  readonly text: string;
}

/** What the gate found: a well-formed document with its administrative leaves, or the first fault. */
export type GateResult =
  | { readonly ok: true; readonly leaves: readonly AdministrativeLeaf[]; readonly stopNames: ReadonlySet<string> }
  | { readonly ok: false; readonly says: string; readonly line: number };

const DEEPEST = 256;
/** Small pieces, so that an over-deep or endless document is given up early. */
const PIECE = 32 * 1024;

/**
 * Decides whether a text is well-formed XML 1.0 with namespaces and without a DOCTYPE, and takes the wanted leaves of METS
 * administrative sections on its way, so that the tree can be built without them.
 */
export function passGate(text: string, wanted: ReadonlySet<string>): GateResult {
  const parser = new SaxesParser({ xmlns: true, position: true });
  const leaves: AdministrativeLeaf[] = [];
  const stopNames = new Set<string>();
  let fault: { says: string; line: number } | null = null;
  let depth = 0;
  let amdDepth = 0;
  let section = '';
  let leaf: { name: string; text: string } | null = null;
  const fail = (says: string): void => {
    fault ??= { says, line: parser.line };
  };
  parser.on('error', (error) => {
    fail(`It is not well-formed XML: ${error.message.replace(/^[^ ]*:? ?\d+:\d+: /, '')}`);
  });
  parser.on('doctype', () => {
    fail('It holds a DOCTYPE, which is not read because it can change or swell the document.');
  });
  parser.on('opentag', (tag) => {
    depth += 1;
    if (depth > DEEPEST) fail(`Its elements are nested more than ${String(DEEPEST)} deep.`);
    if (amdDepth === 0) {
      if (tag.local !== 'amdSec') return;
      amdDepth = depth;
      stopNames.add(tag.name);
      return;
    }
    if (depth === amdDepth + 1) section = tag.attributes['ID']?.value ?? '';
    leaf = wanted.has(tag.local) ? { name: tag.local, text: '' } : null;
  });
  const addText = (piece: string): void => {
    if (leaf !== null) leaf.text += piece;
  };
  parser.on('text', addText);
  parser.on('cdata', addText);
  parser.on('closetag', () => {
    if (leaf !== null) leaves.push({ section, name: leaf.name, text: leaf.text.trim() });
    leaf = null;
    if (depth === amdDepth) amdDepth = 0;
    depth -= 1;
  });
  for (let at = 0; at < text.length && fault === null; at += PIECE) parser.write(text.slice(at, at + PIECE));
  if (fault === null) parser.close();
  return fault === null ? { ok: true, leaves, stopNames } : { ok: false, ...(fault as { says: string; line: number }) };
}
