/** Writing XML by hand: the variants below (prefixes, attribute order, repeated declarations) are the point, and no library offers them all. */
export interface Element {
  /** Kind of vocabulary and local name, `mods:part`; the prefix that is written is a matter of style. */
  readonly name: string;
  readonly attributes: readonly (readonly [string, string])[];
  readonly children: readonly (Element | string)[];
}

/** How the same document may be spelt. None of it changes what it says. */
export interface XmlStyle {
  /** Prefix written for each vocabulary; empty for the default namespace. */
  readonly prefixes: Readonly<Record<string, string>>;
  readonly attributes: 'usual' | 'reversed';
  /** Every element repeats every declaration that is in force. */
  readonly repeatDeclarations: boolean;
  /** Declarations stand where they are first needed instead of on the root. */
  readonly declareLate: boolean;
  readonly byteOrderMark: boolean;
  readonly lineEnd: '\n' | '\r\n';
  readonly indent: boolean;
}

const NAMESPACES: Readonly<Record<string, string>> = {
  mets: 'http://www.loc.gov/METS/',
  mods: 'http://www.loc.gov/mods/v3',
  mix: 'http://www.loc.gov/mix/',
  mix2: 'http://www.loc.gov/mix/v20',
  premis: 'http://www.loc.gov/standards/premis',
  xlink: 'http://www.w3.org/1999/xlink',
  batch: 'urn:example:verrin:newspaper-batch',
  film: 'urn:example:verrin:microfilm',
  alto: 'http://www.loc.gov/standards/alto/ns-v2#',
  dsig: 'http://www.w3.org/2000/09/xmldsig#',
};

export const USUAL_STYLE: XmlStyle = {
  prefixes: {
    mets: '',
    mods: 'mods',
    mix: 'mix',
    mix2: 'mix',
    premis: 'premis',
    xlink: 'xlink',
    batch: '',
    film: 'reel',
    alto: '',
    dsig: '',
  },
  attributes: 'usual',
  repeatDeclarations: false,
  declareLate: false,
  byteOrderMark: false,
  lineEnd: '\n',
  indent: true,
};

/** An element; attributes with no value are left out. */
export function el(
  name: string,
  attributes: Readonly<Record<string, string | null>> = {},
  ...children: readonly (Element | string | null)[]
): Element {
  return {
    name,
    attributes: Object.entries(attributes).flatMap(([key, value]) => (value === null ? [] : [[key, value] as const])),
    children: children.filter((child) => child !== null),
  };
}

/** Text that is well-formed in content and in attributes and comes out again unchanged; characters XML cannot hold become U+FFFD. */
export function xmlText(text: string): string {
  return text
    .replace(/[&<>"\t\n\r]/g, (character) => ESCAPES.get(character) ?? character)
    .replace(/[^\x20-\ud7ff\ue000-\ufffd\u{10000}-\u{10ffff}]/gu, '\ufffd');
}

const ESCAPES = new Map([
  ['&', '&amp;'],
  ['<', '&lt;'],
  ['>', '&gt;'],
  ['"', '&quot;'],
  ['\t', '&#9;'],
  ['\n', '&#10;'],
  ['\r', '&#13;'],
]);

/** A whole document as text. */
export function writeXml(root: Element, style: XmlStyle): string {
  const used = vocabularies(root, new Set());
  const out = ['<?xml version="1.0" encoding="UTF-8"?>'];
  write(root, style, used, new Map(), 0, out);
  const text = out.join(style.lineEnd) + style.lineEnd;
  return style.byteOrderMark ? `\ufeff${text}` : text;
}

type Scope = ReadonlyMap<string, string>;

function write(element: Element, style: XmlStyle, used: ReadonlySet<string>, scope: Scope, depth: number, out: string[]): void {
  const inner = new Map(scope);
  const declared: [string, string][] = [];
  const own = [vocabulary(element.name), ...element.attributes.map(([key]) => vocabulary(key))].filter((each) => each !== '');
  // A prefix that means something else already is declared again where it is needed, so it must not be declared on the root.
  const wanted = depth === 0 && !style.declareLate ? [...own, ...[...used].filter((each) => style.prefixes[each] !== '')] : own;
  for (const each of wanted) {
    const prefix = style.prefixes[each] ?? each;
    const namespace = NAMESPACES[each] ?? '';
    if (inner.get(prefix) === namespace || declared.some(([name]) => name === prefix)) continue;
    inner.set(prefix, namespace);
    declared.push([prefix, namespace]);
  }
  const declarations = style.repeatDeclarations ? [...inner] : declared;
  const attributes = [
    ...declarations.map(([prefix, namespace]) => `${prefix === '' ? 'xmlns' : `xmlns:${prefix}`}="${xmlText(namespace)}"`),
    ...element.attributes.map(([key, value]) => `${written(key, style)}="${xmlText(value)}"`),
  ];
  if (style.attributes === 'reversed') attributes.reverse();
  const name = written(element.name, style);
  const open = [name, ...attributes].join(' ');
  const pad = style.indent ? '  '.repeat(depth) : '';
  const elements = element.children.filter((child) => typeof child !== 'string');
  if (element.children.length === 0) out.push(`${pad}<${open}/>`);
  else if (elements.length === 0)
    out.push(`${pad}<${open}>${element.children.map((child) => (typeof child === 'string' ? xmlText(child) : '')).join('')}</${name}>`);
  else {
    out.push(`${pad}<${open}>`);
    for (const child of elements) write(child, style, used, inner, depth + 1, out);
    out.push(`${pad}</${name}>`);
  }
}

function vocabularies(element: Element, found: Set<string>): Set<string> {
  for (const name of [element.name, ...element.attributes.map(([key]) => key)]) if (vocabulary(name) !== '') found.add(vocabulary(name));
  for (const child of element.children) if (typeof child !== 'string') vocabularies(child, found);
  return found;
}

function vocabulary(name: string): string {
  const at = name.indexOf(':');
  return at < 0 ? '' : name.slice(0, at);
}

function written(name: string, style: XmlStyle): string {
  const from = vocabulary(name);
  if (from === '') return name;
  const prefix = style.prefixes[from] ?? from;
  const local = name.slice(from.length + 1);
  return prefix === '' ? local : `${prefix}:${local}`;
}
