import { attributeText, attributeValue } from './xml-attributes.js';
import { isSpace } from './xml-characters.js';
import { NO_PREFIX, XMLNS_PREFIX } from './xml-names.js';
import { LONGEST_TEXT, refuseText, type XmlReader, type XmlScan } from './xml-position.js';
import { textBetween } from './xml-text.js';
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
      if (text.length + to - from > LONGEST_TEXT) refuseText(scan, 'element', from);
      else text += textBetween(scan.bytes, from, to, literal);
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
  children: XmlElement[];
  text: string;
}

/** A file inside the document, in Base64 (METS 1.12.1, binData): its text may be long and says nothing. */
const BASE64 = 'binData';

/** What the many elements without attributes or children share. */
const NO_ATTRIBUTES: readonly XmlAttribute[] = [];
const NO_CHILDREN: XmlElement[] = [];

/** Reads along and keeps what it is told of as a tree, the same as the parser would build; `root` is null until it is told of an element. */
export function treeReader(): XmlReader & { readonly root: () => XmlElement | null } {
  const open: Growing[] = [];
  let root: Growing | null = null;
  let innermost: Growing | null = null;
  return {
    root: () => root,
    open: (scan, name) => {
      const element: Growing = { name: name.local, attributes: attributesOf(scan), children: NO_CHILDREN, text: '' };
      if (innermost === null) root = element;
      else {
        if (innermost.children === NO_CHILDREN) innermost.children = [];
        innermost.children.push(element);
      }
      open.push(element);
      innermost = element;
    },
    text: (scan, from, to, literal) => {
      // The white space that sets tags apart is most of the text, and nobody asks for it.
      if (innermost === null || (innermost.text === '' && isBlank(scan, from, to)) || innermost.name === BASE64) return;
      if (innermost.text.length + to - from > LONGEST_TEXT) refuseText(scan, 'element', from);
      else innermost.text += textBetween(scan.bytes, from, to, literal);
    },
    close: () => {
      open.pop();
      innermost = open.at(-1) ?? null;
    },
    instruction: () => undefined,
  };
}

function isBlank(scan: XmlScan, from: number, to: number): boolean {
  for (let at = from; at < to; at += 1) if (isSpace[scan.bytes[at] ?? 0] === 0) return false;
  return true;
}

function attributesOf(scan: XmlScan): readonly XmlAttribute[] {
  if (scan.attributeCount === 0) return NO_ATTRIBUTES;
  const attributes: XmlAttribute[] = [];
  for (let at = 0; at < scan.attributeCount; at += 1) {
    const name = scan.attributeNames[at];
    if (name === undefined || name.prefix === XMLNS_PREFIX || (name.prefix === NO_PREFIX && name.local === 'xmlns')) continue;
    attributes.push({ prefix: name.prefixText, name: name.local, value: attributeValue(scan, at) });
  }
  return attributes;
}
