import { attributeText } from './xml-attributes.js';
import { isSpace } from './xml-characters.js';
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

interface Growing {
  readonly name: string;
  readonly attributes: readonly XmlAttribute[];
  readonly children: Growing[];
  text: string;
}

/** Reads along in sections and keeps each as a tree, the same as the parser would build. */
export function treeReader(): XmlReader & { readonly trees: readonly XmlElement[] } {
  const trees: XmlElement[] = [];
  const open: Growing[] = [];
  return {
    trees,
    open: (scan, name) => {
      const element: Growing = { name: name.local, attributes: attributesOf(scan), children: [], text: '' };
      const parent = open.at(-1);
      if (parent === undefined) trees.push(element);
      else parent.children.push(element);
      open.push(element);
    },
    text: (scan, from, to, literal) => {
      const element = open.at(-1);
      // The white space that sets tags apart is most of the text, and nobody asks for it.
      if (element === undefined || (element.text === '' && isBlank(scan, from, to))) return;
      const piece = scan.bytes.toString('utf8', from, to);
      element.text += literal ? piece : decodeReferences(piece);
    },
    close: () => {
      open.pop();
    },
    instruction: () => undefined,
  };
}

function isBlank(scan: XmlScan, from: number, to: number): boolean {
  for (let at = from; at < to; at += 1) if (isSpace[scan.bytes[at] ?? 0] === 0) return false;
  return true;
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
