import type { BookCell } from '../../model/written-grid.js';
import { inText } from '../xml-characters.js';
import type { XmlScan } from '../xml-position.js';
import { columnLetters } from './address.js';

/** A plain cell as it stands in the bytes: its place, style and type, and where its value begins and ends; `to` is 0 for a cell without one. */
export interface Found {
  column: number;
  row: number;
  style: number;
  type: 'n' | 's' | 'inlineStr';
  from: number;
  to: number;
  /** A value of digits. */
  number: number;
  /** Behind the cell. */
  next: number;
}

const [LT, GT, SLASH, SPACE, QUOTE, EQUALS, CR] = [0x3c, 0x3e, 0x2f, 0x20, 0x22, 0x3d, 0x0d];
const [LETTER_C, LETTER_R, LETTER_S, LETTER_T] = [0x63, 0x72, 0x73, 0x74];
const MOST_DIGITS = 7;

const bytesOf = (text: string): Uint8Array => new TextEncoder().encode(text);
const VALUE = bytesOf('<v>');
const VALUE_END = bytesOf('</v></c>');
const INLINE = bytesOf('<is><t>');
const INLINE_KEPT = bytesOf('<is><t xml:space="preserve">');
const INLINE_END = bytesOf('</t></is></c>');
const SHARED_TYPE = bytesOf('s"');
const NUMBER_TYPE = bytesOf('n"');
const INLINE_TYPE = bytesOf('inlineStr"');

/**
 * Reads a cell in the form in which nearly all programs write it, `<c r="B7" s="2" t="s"><v>12</v></c>`: attributes in any order, a value of digits
 * or a text without references. True where one stands at the place; whatever is written in another way is for the whole reader.
 */
export function plainCellAt({ bytes, at: start, end }: XmlScan, found: Found): boolean {
  if (bytes[start] !== LT || bytes[start + 1] !== LETTER_C) return false;
  found.column = -1;
  found.style = -1;
  found.type = 'n';
  found.to = 0;
  let at = start + 2;
  let typed = false;
  while (bytes[at] === SPACE) {
    const name = bytes[at + 1];
    if (bytes[at + 2] !== EQUALS || bytes[at + 3] !== QUOTE) return false;
    at += 4;
    if (name === LETTER_R && found.column < 0) at = addressAt(bytes, at, found);
    else if (name === LETTER_S && found.style < 0) at = styleAt(bytes, at, found);
    else if (name === LETTER_T && !typed) {
      typed = true;
      at = typeAt(bytes, at, found);
    } else return false;
    if (at < 0) return false;
  }
  if (found.column < 0) return false;
  if (bytes[at] === SLASH && bytes[at + 1] === GT) {
    found.next = at + 2;
    return found.next <= end;
  }
  if (bytes[at] !== GT) return false;
  const read = (found.type as Found['type']) === 'inlineStr' ? inlineAt : valueAt;
  return read(bytes, at + 1, found) && found.next <= end;
}

/** A place to read cells into. */
export function nothingFound(): Found {
  return { column: -1, row: 0, style: -1, type: 'n', from: 0, to: 0, number: 0, next: 0 };
}

/** Column letters and row up to the closing quote; the place behind it, or -1. */
function addressAt(bytes: Buffer, from: number, found: Found): number {
  let at = from;
  let column = 0;
  for (let byte = bytes[at] ?? 0; byte >= 0x41 && byte <= 0x5a; byte = bytes[at] ?? 0) {
    column = column * 26 + byte - 0x40;
    at += 1;
  }
  const digits = at;
  if (digits === from || digits - from > 3 || bytes[at] === 0x30) return -1;
  let row = 0;
  for (let byte = bytes[at] ?? 0; byte >= 0x30 && byte <= 0x39; byte = bytes[at] ?? 0) {
    row = row * 10 + byte - 0x30;
    at += 1;
    if (at - digits > MOST_DIGITS) return -1;
  }
  if (at === digits || bytes[at] !== QUOTE) return -1;
  found.column = column - 1;
  found.row = row;
  return at + 1;
}

function styleAt(bytes: Buffer, from: number, found: Found): number {
  let at = from;
  let style = 0;
  for (let byte = bytes[at] ?? 0; byte >= 0x30 && byte <= 0x39; byte = bytes[at] ?? 0) {
    style = style * 10 + byte - 0x30;
    at += 1;
    if (at - from > MOST_DIGITS) return -1;
  }
  if (at === from || bytes[at] !== QUOTE) return -1;
  found.style = style;
  return at + 1;
}

function typeAt(bytes: Buffer, from: number, found: Found): number {
  for (const [type, written] of TYPES)
    if (stands(bytes, from, written)) {
      found.type = type;
      return from + written.length;
    }
  return -1;
}

const TYPES: readonly (readonly [Found['type'], Uint8Array])[] = [
  ['s', SHARED_TYPE],
  ['inlineStr', INLINE_TYPE],
  ['n', NUMBER_TYPE],
];

/** A value of digits alone. */
function valueAt(bytes: Buffer, from: number, found: Found): boolean {
  if (!stands(bytes, from, VALUE)) return false;
  let at = from + VALUE.length;
  found.from = at;
  let number = 0;
  for (let byte = bytes[at] ?? 0; byte >= 0x30 && byte <= 0x39; byte = bytes[at] ?? 0) {
    number = number * 10 + byte - 0x30;
    at += 1;
  }
  found.number = number;
  if (at === found.from || at - found.from > 9 || !stands(bytes, at, VALUE_END)) return false;
  found.to = at;
  found.next = at + VALUE_END.length;
  return true;
}

/** A text that stands in the cell, without references and ends of lines. */
function inlineAt(bytes: Buffer, from: number, found: Found): boolean {
  const opened = stands(bytes, from, INLINE_KEPT) ? INLINE_KEPT : stands(bytes, from, INLINE) ? INLINE : null;
  if (opened === null) return false;
  let at = from + opened.length;
  found.from = at;
  for (let byte = bytes[at]; byte !== undefined && byte !== CR && inText[byte] === 0; byte = bytes[at]) at += 1;
  if (at === found.from || !stands(bytes, at, INLINE_END)) return false;
  found.to = at;
  found.next = at + INLINE_END.length;
  return true;
}

function stands(bytes: Buffer, at: number, what: Uint8Array): boolean {
  for (let place = 0; place < what.length; place += 1) if (bytes[at + place] !== what[place]) return false;
  return true;
}

/** A cell that says nothing but its value. */
export function cellOf(
  { column, row }: Found,
  kind: BookCell['kind'],
  value: string,
  { format, colour, ink, struck }: Pick<BookCell, 'format' | 'colour' | 'ink' | 'struck'>,
): BookCell {
  return {
    address: `${lettersOf(column)}${String(row)}`,
    column,
    kind,
    value,
    format,
    formula: null,
    colour,
    ink,
    struck,
    comment: null,
  };
}

const letters: string[] = [];

function lettersOf(column: number): string {
  return (letters[column] ??= columnLetters(column));
}
