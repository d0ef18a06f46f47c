import { attributeText } from './xml-attributes.js';
import { NO_PREFIX, XMLNS_PREFIX } from './xml-names.js';
import type { XmlReader, XmlScan } from './xml-position.js';
import { decodeReferences } from './xml-text.js';
import type { XmlAttribute, XmlElement } from './xml-tree.js';

/** A leaf element of an administrative section that was asked for: which section it stands in (its ID), its name and its text. */
export interface AdministrativeLeaf {
  readonly section: string;
  readonly name: string;
  readonly text: string;
}

/** Reads along in administrative sections and keeps the wanted leaves with the ID of the part that they stand in. */
export function administrativeReader(wanted: ReadonlySet<string>): XmlReader & { readonly leaves: readonly AdministrativeLeaf[] } {
  const leaves: AdministrativeLeaf[] = [];
  let top = 0;
  let section = '';
  let leaf = '';
  let text = '';
  return {
    leaves,
    open: (scan, name) => {
      if (top === 0) top = scan.depth;
      if (scan.depth === top + 1) section = attributeText(scan, 'ID') ?? '';
      leaf = wanted.has(name.local) ? name.local : '';
      text = '';
    },
    text: (scan, from, to, literal) => {
      if (leaf === '') return;
      const piece = scan.bytes.toString('utf8', from, to);
      text += literal ? piece : decodeReferences(piece);
    },
    close: (scan) => {
      if (leaf !== '') leaves.push({ section, name: leaf, text: text.trim() });
      leaf = '';
      if (scan.depth === top) top = 0;
    },
    instruction: () => undefined,
  };
}

interface Growing extends XmlElement {
  readonly children: Growing[];
}

/** Reads along in sections whose whole meaning is in their elements and attributes. */
export function skeletonReader(): XmlReader & { readonly skeletons: readonly XmlElement[] } {
  const skeletons: XmlElement[] = [];
  const open: Growing[] = [];
  return {
    skeletons,
    open: (scan, name) => {
      const element: Growing = { name: name.local, attributes: attributesOf(scan), children: [], text: '' };
      const parent = open.at(-1);
      if (parent === undefined) skeletons.push(element);
      else parent.children.push(element);
      open.push(element);
    },
    text: () => undefined,
    close: () => {
      open.pop();
    },
    instruction: () => undefined,
  };
}

function attributesOf(scan: XmlScan): readonly XmlAttribute[] {
  const attributes: XmlAttribute[] = [];
  for (let at = 0; at < scan.attributeCount; at += 1) {
    const name = scan.attributeNames[at];
    if (name === undefined || name.prefix === XMLNS_PREFIX || (name.prefix === NO_PREFIX && name.local === 'xmlns')) continue;
    const value = decodeReferences(scan.bytes.toString('utf8', scan.valueStarts[at], scan.valueEnds[at]));
    attributes.push({ prefix: name.prefixText, name: name.local, value });
  }
  return attributes;
}
