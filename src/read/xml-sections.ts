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

/** An element on the way: its children are known when it is closed. */
interface Growing {
  readonly name: string;
  readonly attributes: readonly XmlAttribute[];
  children: readonly XmlElement[];
  text: string;
}

/** A file inside the document, in Base64 (METS 1.12.1, binData): its text may be long and says nothing. */
const BASE64 = 'binData';

/** What the many elements without attributes or children share. */
const NO_ATTRIBUTES: readonly XmlAttribute[] = [];
const NO_CHILDREN: readonly XmlElement[] = [];

/**
 * Reads along and keeps what it is told of as a tree, the same as the parser would build; `root` is null until it is told of an element. Elements lie in one
 * list until those around them are closed: each list of children is made once, as long as it is, where most lists that grow would end half empty.
 */
export function treeReader(): XmlReader & { readonly root: () => XmlElement | null } {
  const waiting: Growing[] = [];
  let count = 0;
  // Places in the list of the elements that are open.
  const open: number[] = [];
  let innermost: Growing | null = null;
  return {
    root: () => waiting[0] ?? null,
    open: (scan, name) => {
      innermost = { name: name.local, attributes: attributesOf(scan), children: NO_CHILDREN, text: '' };
      open.push(count);
      waiting[count] = innermost;
      count += 1;
    },
    text: (scan, from, to, literal) => {
      // The white space that sets tags apart is most of the text, and nobody asks for it.
      if (innermost === null || (innermost.text === '' && isBlank(scan, from, to)) || innermost.name === BASE64) return;
      if (innermost.text.length + to - from > LONGEST_TEXT) refuseText(scan, 'element', from);
      else innermost.text += textBetween(scan.bytes, from, to, literal);
    },
    close: () => {
      const first = (open.pop() ?? 0) + 1;
      const element = waiting[first - 1];
      if (element !== undefined && count > first) element.children = waiting.slice(first, count);
      count = first;
      innermost = waiting[open.at(-1) ?? -1] ?? null;
    },
    instruction: () => undefined,
  };
}

function isBlank(scan: XmlScan, from: number, to: number): boolean {
  for (let at = from; at < to; at += 1) if (isSpace[scan.bytes[at] ?? 0] === 0) return false;
  return true;
}

/** The attributes of one element, before it is known how many they are. */
const gathered: XmlAttribute[] = [];

function attributesOf(scan: XmlScan): readonly XmlAttribute[] {
  let count = 0;
  for (let at = 0; at < scan.attributeCount; at += 1) {
    const name = scan.attributeNames[at];
    if (name === undefined || name.prefix === XMLNS_PREFIX || (name.prefix === NO_PREFIX && name.local === 'xmlns')) continue;
    gathered[count] = { prefix: name.prefixText, name: name.local, value: attributeValue(scan, at) };
    count += 1;
  }
  return count === 0 ? NO_ATTRIBUTES : gathered.slice(0, count);
}
