import { isPlainName } from './xml-characters.js';

/** A qualified name, the same object wherever the same bytes stand. Numbers are equal where the texts are. */
export interface XmlName {
  readonly prefix: number;
  readonly prefixText: string;
  readonly local: string;
  readonly localNumber: number;
  readonly bytes: Uint8Array;
  /** The name that followed this one when it was last read; only a guess. */
  next: XmlName | null;
}

/** Numbers of the prefixes with a meaning of their own. */
export const NO_PREFIX = 0;
export const XML_PREFIX = 1;
export const XMLNS_PREFIX = 2;

/** Names seen so far; one book serves many documents, because they use the same few names. */
interface NameBook {
  readonly byHash: Map<number, XmlName[]>;
  readonly prefixes: Map<string, number>;
  readonly locals: Map<string, number>;
  /** The name last seen for each end of a hash: nearly always the one that is wanted. */
  readonly recent: (XmlName | undefined)[];
  count: number;
}

/** Mask for the places of recent names. */
const LAST_RECENT = 1023;

/** A hostile document can bring endless new names; the book is begun anew after so many. */
const FULL = 10_000;

let book = newBook();

function newBook(): NameBook {
  return {
    byHash: new Map(),
    prefixes: new Map([
      ['', NO_PREFIX],
      ['xml', XML_PREFIX],
      ['xmlns', XMLNS_PREFIX],
    ]),
    locals: new Map(),
    recent: new Array<XmlName | undefined>(LAST_RECENT + 1),
    count: 0,
  };
}

/** To be called before each document. */
export function openNameBook(): void {
  if (book.count > FULL) book = newBook();
}

/** How many names the book holds, those that meet in one place counted more than once. */
export function nameCount(): number {
  return book.count;
}

/** The number of a prefix that is being declared. */
export function prefixNumber(prefix: string): number {
  const known = book.prefixes.get(prefix);
  if (known !== undefined) return known;
  const number = book.prefixes.size;
  book.prefixes.set(prefix, number);
  return number;
}

/** The name that these bytes are, or null when they are no qualified name (Namespaces in XML 1.0, production 7). `hash` must depend on the bytes alone. */
export function nameOf(bytes: Buffer, from: number, to: number, hash: number): XmlName | null {
  const recent = book.recent[hash & LAST_RECENT];
  if (recent !== undefined && sameBytes(recent.bytes, bytes, from, to)) return recent;
  const name = lookUp(bytes, from, to, hash);
  if (name !== null) book.recent[hash & LAST_RECENT] = name;
  return name;
}

function lookUp(bytes: Buffer, from: number, to: number, hash: number): XmlName | null {
  const chain = book.byHash.get(hash);
  if (chain !== undefined) {
    for (const name of chain) if (sameBytes(name.bytes, bytes, from, to)) return name;
  }
  const text = bytes.toString('utf8', from, to);
  const colon = text.indexOf(':');
  const prefix = colon < 0 ? '' : text.slice(0, colon);
  const local = text.slice(colon + 1);
  if (!isPlainName(local) || (colon >= 0 && !isPlainName(prefix))) return null;
  const localNumber = book.locals.get(local) ?? book.locals.size;
  book.locals.set(local, localNumber);
  const name: XmlName = {
    prefix: prefixNumber(prefix),
    prefixText: prefix,
    local,
    localNumber,
    bytes: Uint8Array.from(bytes.subarray(from, to)),
    next: null,
  };
  if (chain === undefined) book.byHash.set(hash, [name]);
  else chain.push(name);
  // Names that meet in one place cost a look at each other, so they count for more: no document can be made of such names alone.
  book.count += chain?.length ?? 1;
  return name;
}

function sameBytes(known: Uint8Array, bytes: Uint8Array, from: number, to: number): boolean {
  if (known.length !== to - from) return false;
  for (let at = 0; at < known.length; at += 1) if (known[at] !== bytes[from + at]) return false;
  return true;
}
