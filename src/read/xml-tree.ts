import { XMLParser } from 'fast-xml-parser';

/** An element by local name. Text is the element's own, all pieces joined; attributes keep their prefix apart. */
export interface XmlElement {
  readonly name: string;
  readonly attributes: readonly XmlAttribute[];
  readonly children: readonly XmlElement[];
  readonly text: string;
}

/** An attribute by local name; prefix is empty where there is none. */
export interface XmlAttribute {
  readonly prefix: string;
  readonly name: string;
  readonly value: string;
}

const ATTRIBUTE_MARK = '@_';
const ATTRIBUTES = ':@';
const TEXT = '#text';

/** Builds the tree of a text that has passed the gate. Throws where the parser refuses a text that the gate let through, such as one with an element `__proto__`. */
export function buildTree(text: string): XmlElement {
  const parsed: unknown = parser.parse(text);
  const root = Array.isArray(parsed) ? childrenOf(parsed)[0] : undefined;
  if (root === undefined) throw new Error('no element was found');
  return root;
}

// It believes almost anything, so it only ever sees text that has passed the gate; numbers, blanks and order stay as they are.
const parser = new XMLParser({
  ignoreAttributes: false,
  attributeNamePrefix: ATTRIBUTE_MARK,
  parseTagValue: false,
  parseAttributeValue: false,
  trimValues: false,
  htmlEntities: true,
  processEntities: { enabled: true, maxEntityCount: 1, maxExpandedLength: 50_000_000 },
  preserveOrder: true,
  ignoreDeclaration: true,
  ignorePiTags: true,
  jPath: false,
  maxNestedTags: 256,
});

function childrenOf(nodes: readonly unknown[]): readonly XmlElement[] {
  const elements: XmlElement[] = [];
  for (const node of nodes) {
    const element = isNode(node) ? elementOf(node) : null;
    if (element !== null) elements.push(element);
  }
  return elements;
}

function elementOf(node: Readonly<Record<string, unknown>>): XmlElement | null {
  // Each node has one key for its name and perhaps one for its attributes.
  for (const key in node) {
    if (key === ATTRIBUTES) continue;
    const inside = node[key];
    if (key === TEXT || !Array.isArray(inside)) return null;
    return { name: localName(key), attributes: attributesOf(node[ATTRIBUTES]), children: childrenOf(inside), text: textOf(inside) };
  }
  return null;
}

function attributesOf(attributes: unknown): readonly XmlAttribute[] {
  if (!isNode(attributes)) return [];
  const list: XmlAttribute[] = [];
  for (const key in attributes) {
    const full = key.slice(ATTRIBUTE_MARK.length);
    const prefix = full.includes(':') ? full.slice(0, full.indexOf(':')) : '';
    if (prefix !== 'xmlns' && full !== 'xmlns') list.push({ prefix, name: localName(full), value: String(attributes[key]) });
  }
  return list;
}

function isNode(value: unknown): value is Readonly<Record<string, unknown>> {
  return typeof value === 'object' && value !== null;
}

function textOf(nodes: readonly unknown[]): string {
  let text = '';
  for (const node of nodes) {
    if (isNode(node) && typeof node[TEXT] === 'string') text += node[TEXT];
  }
  return text;
}

function localName(name: string): string {
  return name.slice(name.indexOf(':') + 1);
}

/** The value of an attribute by local name, one without prefix first; white space as one space, ends trimmed; null when it is not there. */
export function attribute(element: XmlElement, name: string): string | null {
  let found: XmlAttribute | null = null;
  for (const candidate of element.attributes) {
    if (candidate.name !== name) continue;
    if (candidate.prefix === '') return collapsed(candidate.value);
    found ??= candidate;
  }
  return found === null ? null : collapsed(found.value);
}

/** White space at the ends off, every run inside as one space. */
export function collapsed(text: string): string {
  // Nearly all text is as it should be already.
  if (!/[ \t\r\n]{2}|[\t\r\n]|^ | $/.test(text)) return text;
  return text.replace(/[ \t\r\n]+/g, ' ').trim();
}

/** Every element of that local name below (and including) this one, in document order. */
export function descendants(element: XmlElement, name: string): readonly XmlElement[] {
  const found: XmlElement[] = [];
  const stack: XmlElement[] = [element];
  for (let next = stack.pop(); next !== undefined; next = stack.pop()) {
    if (next.name === name) found.push(next);
    for (let at = next.children.length - 1; at >= 0; at -= 1) {
      const child = next.children[at];
      if (child !== undefined) stack.push(child);
    }
  }
  return found;
}
