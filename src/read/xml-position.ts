import { inName, isLegalCodePoint } from './xml-characters.js';
import { nameCount, type XmlName } from './xml-names.js';
import { type NamespaceScope, newScope } from './xml-namespaces.js';

/** Where a scan stands. Offsets count bytes; attributes are those of the element just opened. */
export interface XmlScan {
  readonly bytes: Buffer;
  readonly end: number;
  at: number;
  /** Offset of the `<` of the tag being read. */
  tagStart: number;
  /** Number of open elements, the one just opened or about to be closed included. */
  depth: number;
  attributeCount: number;
  /** How many more elements and attributes there may be. */
  partsLeft: number;
  readonly attributeNames: XmlName[];
  readonly valueStarts: number[];
  readonly valueEnds: number[];
  readonly scope: NamespaceScope;
  /** Offset and length of the name of each open element, by depth. */
  readonly nameStarts: Int32Array;
  readonly nameLengths: Int32Array;
  readonly names: (XmlName | null)[];
  readonly namesBefore: number;
  lastName: XmlName | null;
  fault: string | null;
  faultAt: number;
  /** The fault is no breach of XML: the document holds what this program does not read. */
  refused: boolean;
}

/** What is told to whoever reads along. Text comes in pieces, with references undecoded, `literal` in CDATA; an instruction is `<?...?>` whole. */
export interface XmlReader {
  readonly open: (scan: XmlScan, name: XmlName) => void;
  readonly text: (scan: XmlScan, from: number, to: number, literal: boolean) => void;
  readonly close: (scan: XmlScan, name: XmlName) => void;
  readonly instruction: (from: number, to: number) => void;
  /** Takes elements that it knows to be well-formed by itself, and puts the scan behind them; false where none stands there. */
  readonly ahead?: (scan: XmlScan) => boolean;
}

/** How deep elements may be nested. */
export const DEEPEST = 256;
/** How many elements and attributes a document may have together. */
export const MOST_PARTS = 2_000_000;
/** How many bytes of text one element or attribute may hold, where it is kept. */
export const LONGEST_TEXT = 1_000_000;

/** A scan at the first byte of a document. */
export function newScan(bytes: Buffer, mostParts: number): XmlScan {
  return {
    bytes,
    end: bytes.length,
    at: 0,
    tagStart: 0,
    depth: 0,
    attributeCount: 0,
    partsLeft: mostParts,
    attributeNames: [],
    valueStarts: [],
    valueEnds: [],
    scope: newScope(),
    nameStarts: new Int32Array(DEEPEST + 2),
    nameLengths: new Int32Array(DEEPEST + 2),
    // Place 0 keeps the name of the first element for good.
    names: [null],
    namesBefore: nameCount(),
    lastName: null,
    fault: null,
    faultAt: 0,
    refused: false,
  };
}

/** Keeps the first fault and where it is; answers false, so that a reader can give up with it. */
export function fail(scan: XmlScan, says: string, at: number): false {
  if (scan.fault === null) {
    scan.fault = says;
    scan.faultAt = at;
  }
  return false;
}

/** Gives up a document that may be well-formed and is not read all the same. `says` follows "It". */
export function refuse(scan: XmlScan, says: string, at: number): false {
  if (scan.fault === null) scan.refused = true;
  return fail(scan, says, at);
}

/** Gives up a document with more text in one place than anybody wrote there by hand. */
export function refuseText(scan: XmlScan, where: string, at: number): false {
  return refuse(scan, `holds more than ${String(LONGEST_TEXT)} bytes of text in one ${where}, and no document of a newspaper does`, at);
}

/** What is wrong with a document and where. */
export interface XmlFault {
  readonly says: string;
  readonly offset: number;
  readonly refused: boolean;
}

/** The sentence about a document that cannot be read. */
export function faultInWords({ says, refused }: XmlFault): string {
  return refused ? `It ${says}.` : `It is not well-formed XML: ${says}.`;
}

/** Checks the reference that begins with the `&` at this place; answers the offset behind it, or -1. */
export function reference(scan: XmlScan, ampersand: number): number {
  const { bytes, end } = scan;
  let at = ampersand + 1;
  while (at < end && at - ampersand < 64 && bytes[at] !== 0x3b && (inName[bytes[at] ?? 0] !== 0 || bytes[at] === 0x23)) at += 1;
  const text = bytes.toString('latin1', ampersand + 1, at);
  if (bytes[at] === 0x3b) {
    if (text === 'amp' || text === 'lt' || text === 'gt' || text === 'quot' || text === 'apos') return at + 1;
    const decimal = /^#(\d{1,60})$/.exec(text)?.[1];
    const hex = /^#x([0-9A-Fa-f]{1,60})$/.exec(text)?.[1];
    const point = decimal === undefined ? (hex === undefined ? -1 : Number.parseInt(hex, 16)) : Number(decimal);
    if (point >= 0 && isLegalCodePoint(point)) return at + 1;
    if (point >= 0) fail(scan, `the reference &${text}; means no character that XML allows`, ampersand);
    else fail(scan, `the reference &${text}; is not defined`, ampersand);
  } else fail(scan, '"&" stands there without beginning a reference; write &amp;', ampersand);
  return -1;
}

/** The innermost open element's name as written. */
export function openName(scan: XmlScan): string {
  const start = scan.nameStarts[scan.depth] ?? 0;
  return scan.bytes.toString('utf8', start, start + Math.min(60, scan.nameLengths[scan.depth] ?? 0));
}
