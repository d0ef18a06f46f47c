import { inMarkup, inName, inText, inValue, isIllegal, isLegalCodePoint, isName, isPlainName, isSpace } from './xml-characters.js';
import { type NamespaceScope, bindPrefix, enterElement, isBound, leaveElement, newScope, sameNamespace } from './xml-namespaces.js';
import { NO_PREFIX, XMLNS_PREFIX, XML_PREFIX, type XmlName, nameCount, nameOf, openNameBook, prefixNumber } from './xml-names.js';
import { decodeReferences } from './xml-text.js';

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
  readonly attributeNames: XmlName[];
  readonly valueStarts: number[];
  readonly valueEnds: number[];
  readonly scope: NamespaceScope;
  /** Offset and length of the name of each open element, by depth. */
  readonly nameStarts: Int32Array;
  readonly nameLengths: Int32Array;
  readonly names: (XmlName | null)[];
  readonly namesBefore: number;
  fault: string | null;
  faultAt: number;
}

/** What is told to whoever reads along. Text comes in pieces, with references undecoded, `literal` in CDATA; an instruction is `<?...?>` whole. */
export interface XmlReader {
  readonly open: (scan: XmlScan, name: XmlName) => void;
  readonly text: (scan: XmlScan, from: number, to: number, literal: boolean) => void;
  readonly close: (scan: XmlScan, name: XmlName) => void;
  readonly instruction: (from: number, to: number) => void;
}

/** How deep elements may be nested. */
export const DEEPEST = 256;
/** How many different names one document may bring. */
const MOST_NAMES = 100_000;
/** Where the hash of a name begins (FNV-1a, 32 bit). */
const HASH_SEED = 0x811c9dc5;

/**
 * Reads a document from first byte to last and tells where and how it breaks XML 1.0 (fifth edition) or Namespaces in XML 1.0 (third
 * edition), or holds a DOCTYPE; null when it does not. The bytes must be UTF-8 and known to be so, without byte order mark.
 */
export function scanXml(bytes: Buffer, reader: XmlReader): { readonly says: string; readonly offset: number } | null {
  openNameBook();
  const scan = newScan(bytes);
  if (startsWith(scan, '<?xml') && isSpace[bytes[5] ?? 0] === 1) declaration(scan);
  while (scan.fault === null && scan.depth === 0 && scan.at < scan.end) outside(scan, reader);
  if (scan.fault === null && scan.names[0] === null) fail(scan, 'it holds no element', scan.end);
  return scan.fault === null ? null : { says: scan.fault, offset: scan.faultAt };
}

function newScan(bytes: Buffer): XmlScan {
  return {
    bytes,
    end: bytes.length,
    at: 0,
    tagStart: 0,
    depth: 0,
    attributeCount: 0,
    attributeNames: [],
    valueStarts: [],
    valueEnds: [],
    scope: newScope(),
    nameStarts: new Int32Array(DEEPEST + 2),
    nameLengths: new Int32Array(DEEPEST + 2),
    // Place 0 keeps the name of the first element for good.
    names: [null],
    namesBefore: nameCount(),
    fault: null,
    faultAt: 0,
  };
}

function fail(scan: XmlScan, says: string, at: number): false {
  if (scan.fault === null) {
    scan.fault = says;
    scan.faultAt = at;
  }
  return false;
}

/** One step before or after the root element: white space, a comment, an instruction, or the root itself with all that is in it. */
function outside(scan: XmlScan, reader: XmlReader): void {
  const { bytes } = scan;
  if (isSpace[bytes[scan.at] ?? 0] === 1) {
    scan.at += 1;
    return;
  }
  if (bytes[scan.at] !== 0x3c) {
    fail(scan, 'text stands outside the root element', scan.at);
    return;
  }
  const next = bytes[scan.at + 1];
  if (next === 0x3f) instruction(scan, reader);
  else if (next !== 0x21) root(scan, reader);
  else if (startsWith(scan, '<!--')) comment(scan);
  else if (startsWith(scan, '<!DOCTYPE'))
    fail(scan, 'it holds a DOCTYPE, which is not read because it can change or swell the document', scan.at);
  else fail(scan, 'markup that begins with <! stands outside the root element', scan.at);
}

function root(scan: XmlScan, reader: XmlReader): void {
  if (scan.names[0] !== null) {
    fail(scan, 'a second element stands after the root element', scan.at);
    return;
  }
  if (!openTag(scan, reader)) return;
  scan.names[0] = scan.names[1] ?? null;
  while (scan.depth > 0 && scan.at < scan.end) if (!inside(scan, reader)) return;
  if (scan.depth > 0) fail(scan, `the document ends before <${openName(scan)}> is closed`, scan.end);
}

/** One step inside the root element. */
function inside(scan: XmlScan, reader: XmlReader): boolean {
  const { bytes } = scan;
  if (bytes[scan.at] !== 0x3c) return textRun(scan, reader);
  const next = bytes[scan.at + 1];
  if (next === 0x2f) return closeTag(scan, reader);
  if (next === 0x3f) return instruction(scan, reader);
  if (next !== 0x21) return openTag(scan, reader);
  if (startsWith(scan, '<!--')) return comment(scan);
  if (startsWith(scan, '<![CDATA[')) return cdata(scan, reader);
  return fail(scan, 'markup begins with <! that is neither a comment nor CDATA', scan.at);
}

function textRun(scan: XmlScan, reader: XmlReader): boolean {
  const { bytes, end } = scan;
  const from = scan.at;
  let at = from;
  while (at < end) {
    const byte = bytes[at] ?? 0;
    if (inText[byte] === 0) at += 1;
    else if (byte === 0x3c) break;
    else if (byte === 0x26) {
      at = reference(scan, at);
      if (at < 0) return false;
    } else if (byte === 0x5d) {
      if (bytes[at + 1] === 0x5d && bytes[at + 2] === 0x3e) return fail(scan, '"]]>" stands in text', at);
      at += 1;
    } else if (isIllegal(bytes, at)) return fail(scan, 'a character stands there that XML does not allow', at);
    else at += 3;
  }
  scan.at = at;
  reader.text(scan, from, at, false);
  return true;
}

/** Checks the reference that begins with the `&` at this place; answers the offset behind it, or -1. */
function reference(scan: XmlScan, ampersand: number): number {
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

function cdata(scan: XmlScan, reader: XmlReader): boolean {
  const from = scan.at + 9;
  const close = markupEnd(scan, from, 0x5d, 0x5d);
  if (close < 0) return fail(scan, 'a CDATA section is not closed', scan.at);
  scan.at = close + 3;
  reader.text(scan, from, close, true);
  return true;
}

function comment(scan: XmlScan): boolean {
  const { bytes } = scan;
  let at = scan.at + 4;
  for (; at < scan.end; at += 1) {
    const byte = bytes[at] ?? 0;
    if (inMarkup[byte] === 0) continue;
    if (byte === 0x2d && bytes[at + 1] === 0x2d) {
      if (bytes[at + 2] !== 0x3e) return fail(scan, '"--" stands inside a comment', at);
      scan.at = at + 3;
      return true;
    }
    if (byte !== 0x2d && byte !== 0x3f && byte !== 0x5d && isIllegal(bytes, at))
      return fail(scan, 'a character stands there that XML does not allow', at);
  }
  return fail(scan, 'a comment is not closed', scan.at);
}

function instruction(scan: XmlScan, reader: XmlReader): boolean {
  const { bytes } = scan;
  const from = scan.at + 2;
  let at = from;
  while (at < scan.end && inName[bytes[at] ?? 0] !== 0) at += 1;
  const target = bytes.toString('utf8', from, at);
  if (!isPlainName(target)) return fail(scan, 'a processing instruction has no proper name', scan.at);
  if (target.toLowerCase() === 'xml')
    return fail(scan, 'an XML declaration stands elsewhere than at the very start, or is misspelt', scan.at);
  if (isSpace[bytes[at] ?? 0] !== 1 && !(bytes[at] === 0x3f && bytes[at + 1] === 0x3e))
    return fail(scan, 'a processing instruction has no proper name', scan.at);
  const close = markupEnd(scan, at, 0x3f, 0x3f);
  if (close < 0) return fail(scan, 'a processing instruction is not closed', scan.at);
  reader.instruction(scan.at, close + 2);
  scan.at = close + 2;
  return true;
}

/** Offset of `?>` or `]]>` from here on, or -1; characters on the way are checked. */
function markupEnd(scan: XmlScan, from: number, first: number, second: number): number {
  const { bytes } = scan;
  for (let at = from; at < scan.end; at += 1) {
    const byte = bytes[at] ?? 0;
    if (inMarkup[byte] === 0) continue;
    if (byte === first) {
      if (first === 0x3f ? bytes[at + 1] === 0x3e : bytes[at + 1] === second && bytes[at + 2] === 0x3e) return at;
    } else if (byte !== 0x2d && byte !== 0x3f && byte !== 0x5d && isIllegal(bytes, at)) {
      fail(scan, 'a character stands there that XML does not allow', at);
      return -1;
    }
  }
  return -1;
}

const DECLARATION =
  /^<\?xml[ \t\r\n]+version[ \t\r\n]*=[ \t\r\n]*(?:"1\.[0-9]+"|'1\.[0-9]+')(?:[ \t\r\n]+encoding[ \t\r\n]*=[ \t\r\n]*(?:"[A-Za-z][A-Za-z0-9._-]*"|'[A-Za-z][A-Za-z0-9._-]*'))?(?:[ \t\r\n]+standalone[ \t\r\n]*=[ \t\r\n]*(?:"(?:yes|no)"|'(?:yes|no)'))?[ \t\r\n]*\?>/;

function declaration(scan: XmlScan): void {
  const match = DECLARATION.exec(scan.bytes.toString('latin1', 0, 500));
  if (match === null) fail(scan, 'the XML declaration at the start is not as it should be', 0);
  else scan.at = match[0].length;
}

function startsWith(scan: XmlScan, text: string): boolean {
  for (let at = 0; at < text.length; at += 1) if (scan.bytes[scan.at + at] !== text.charCodeAt(at)) return false;
  return true;
}

/** Reads a name from here; null, with the fault set, when there is none. */
function readName(scan: XmlScan, what: string): XmlName | null {
  const { bytes, end } = scan;
  const from = scan.at;
  let at = from;
  let hash = HASH_SEED;
  for (; at < end; at += 1) {
    const byte = bytes[at] ?? 0;
    if (inName[byte] === 0) break;
    hash = Math.imul(hash ^ byte, 0x01000193);
  }
  scan.at = at;
  const name = at === from ? null : nameOf(bytes, from, at, hash);
  if (name !== null && nameCount() - scan.namesBefore <= MOST_NAMES) return name;
  const shown = bytes.toString('utf8', from, Math.min(at, from + 60));
  if (name !== null) fail(scan, `it has more than ${String(MOST_NAMES)} different names`, from);
  else if (isName(shown)) fail(scan, `the ${what} "${shown}" has a colon in the wrong place`, from);
  else fail(scan, shown === '' ? `"<" does not begin a tag with a proper ${what}` : `"${shown}" is no proper ${what}`, from);
  return null;
}

function openTag(scan: XmlScan, reader: XmlReader): boolean {
  const { bytes, scope } = scan;
  scan.tagStart = scan.at;
  scan.at += 1;
  const nameStart = scan.at;
  const name = readName(scan, 'element name');
  if (name === null) return false;
  scan.depth += 1;
  if (scan.depth > DEEPEST) return fail(scan, `its elements are nested more than ${String(DEEPEST)} deep`, scan.tagStart);
  scan.nameStarts[scan.depth] = nameStart;
  scan.nameLengths[scan.depth] = scan.at - nameStart;
  scan.names[scan.depth] = name;
  enterElement(scope, scan.depth);
  scan.attributeCount = 0;
  let empty = false;
  for (;;) {
    const before = scan.at;
    while (isSpace[bytes[scan.at] ?? 0] === 1) scan.at += 1;
    const byte = bytes[scan.at];
    if (byte === 0x3e) {
      scan.at += 1;
      break;
    }
    if (byte === 0x2f && bytes[scan.at + 1] === 0x3e) {
      scan.at += 2;
      empty = true;
      break;
    }
    if (scan.at >= scan.end) return fail(scan, `the tag <${openName(scan)} is not closed`, scan.tagStart);
    if (scan.at === before) return fail(scan, `the tag <${openName(scan)} is not closed, or white space is missing in it`, scan.at);
    if (!attribute(scan)) return false;
  }
  if (!namesAgree(scan, name)) return false;
  reader.open(scan, name);
  return empty ? leave(scan, reader, name) : true;
}

function attribute(scan: XmlScan): boolean {
  const { bytes, end } = scan;
  const nameAt = scan.at;
  const name = readName(scan, 'attribute name');
  if (name === null) return false;
  while (isSpace[bytes[scan.at] ?? 0] === 1) scan.at += 1;
  if (bytes[scan.at] !== 0x3d) return fail(scan, `the attribute "${name.local}" has no value`, nameAt);
  scan.at += 1;
  while (isSpace[bytes[scan.at] ?? 0] === 1) scan.at += 1;
  const quote = bytes[scan.at];
  if (quote !== 0x22 && quote !== 0x27) return fail(scan, `the value of the attribute "${name.local}" has no quotes`, scan.at);
  const from = scan.at + 1;
  let at = from;
  for (;;) {
    const byte = bytes[at] ?? 0;
    if (at >= end) return fail(scan, `the value of the attribute "${name.local}" is not closed`, nameAt);
    if (inValue[byte] === 0) at += 1;
    else if (byte === quote) break;
    else if (byte === 0x22 || byte === 0x27) at += 1;
    else if (byte === 0x3c) return fail(scan, `"<" stands in the value of the attribute "${name.local}"`, at);
    else if (byte === 0x26) {
      at = reference(scan, at);
      if (at < 0) return false;
    } else if (isIllegal(bytes, at)) return fail(scan, 'a character stands there that XML does not allow', at);
    else at += 3;
  }
  scan.at = at + 1;
  scan.attributeNames[scan.attributeCount] = name;
  scan.valueStarts[scan.attributeCount] = from;
  scan.valueEnds[scan.attributeCount] = at;
  scan.attributeCount += 1;
  if (name.prefix !== XMLNS_PREFIX && !(name.prefix === NO_PREFIX && name.local === 'xmlns')) return true;
  const uri = decodeReferences(bytes.toString('utf8', from, at));
  const says = bindPrefix(scan.scope, name.prefix === NO_PREFIX ? NO_PREFIX : prefixNumber(name.local), uri);
  return says === null ? true : fail(scan, says, nameAt);
}

/** Every prefix must be declared, and no two attributes may have the same name, written out in full. */
function namesAgree(scan: XmlScan, element: XmlName): boolean {
  const { scope, attributeNames, attributeCount } = scan;
  if (element.prefix === XMLNS_PREFIX) return fail(scan, 'an element has the prefix "xmlns"', scan.tagStart);
  if (element.prefix > XML_PREFIX && !isBound(scope, element.prefix))
    return fail(scan, `the prefix of <${openName(scan)}> is not declared`, scan.tagStart);
  for (let at = 0; at < attributeCount; at += 1) {
    const { prefix, local } = attributeNames[at] as XmlName;
    if (prefix > XMLNS_PREFIX && !isBound(scope, prefix))
      return fail(scan, `the prefix of the attribute "${local}" is not declared`, scan.tagStart);
  }
  return attributeCount < 2 || attributesDiffer(scan);
}

function attributesDiffer(scan: XmlScan): boolean {
  const { scope, attributeNames, attributeCount } = scan;
  if (attributeCount > 16) return manyAttributesDiffer(scan);
  for (let a = 1; a < attributeCount; a += 1) {
    const first = attributeNames[a] as XmlName;
    for (let b = 0; b < a; b += 1) {
      const second = attributeNames[b] as XmlName;
      if (first.localNumber !== second.localNumber) continue;
      if (
        first.prefix !== second.prefix &&
        (first.prefix === NO_PREFIX || second.prefix === NO_PREFIX || !sameNamespace(scope, first.prefix, second.prefix))
      )
        continue;
      return fail(scan, `<${openName(scan)}> has the attribute "${first.local}" twice`, scan.tagStart);
    }
  }
  return true;
}

function manyAttributesDiffer(scan: XmlScan): boolean {
  const seen = new Set<string>();
  for (let at = 0; at < scan.attributeCount; at += 1) {
    const name = scan.attributeNames[at] as XmlName;
    const key = `${name.prefix === NO_PREFIX ? '' : (scan.scope.uris[name.prefix] ?? '')} ${String(name.localNumber)} ${name.prefix === NO_PREFIX ? '' : 'p'}`;
    if (seen.has(key)) return fail(scan, `<${openName(scan)}> has the attribute "${name.local}" twice`, scan.tagStart);
    seen.add(key);
  }
  return true;
}

function closeTag(scan: XmlScan, reader: XmlReader): boolean {
  const { bytes, depth } = scan;
  scan.tagStart = scan.at;
  const from = scan.at + 2;
  const start = scan.nameStarts[depth] ?? 0;
  const length = scan.nameLengths[depth] ?? 0;
  let at = 0;
  while (at < length && bytes[from + at] === bytes[start + at]) at += 1;
  let after = from + at;
  if (at < length || inName[bytes[after] ?? 0] !== 0) {
    while (after < scan.end && inName[bytes[after] ?? 0] !== 0) after += 1;
    return fail(
      scan,
      `</${bytes.toString('utf8', from, Math.min(after, from + 60))}> stands where <${openName(scan)}> is open`,
      scan.tagStart,
    );
  }
  while (isSpace[bytes[after] ?? 0] === 1) after += 1;
  if (bytes[after] !== 0x3e) return fail(scan, `the tag </${openName(scan)} is not closed`, scan.tagStart);
  scan.at = after + 1;
  return leave(scan, reader, scan.names[depth] as XmlName);
}

function leave(scan: XmlScan, reader: XmlReader, name: XmlName): boolean {
  reader.close(scan, name);
  leaveElement(scan.scope, scan.depth);
  scan.depth -= 1;
  return true;
}

/** The innermost open element's name as written. */
function openName(scan: XmlScan): string {
  const start = scan.nameStarts[scan.depth] ?? 0;
  return scan.bytes.toString('utf8', start, start + Math.min(60, scan.nameLengths[scan.depth] ?? 0));
}

/** The value of an attribute of the element just opened, by local name, one without prefix first; null when it is not there. */
export function attributeText(scan: XmlScan, local: string): string | null {
  let found = -1;
  for (let at = 0; at < scan.attributeCount; at += 1) {
    const name = scan.attributeNames[at] as XmlName;
    if (name.local !== local || name.prefix === XMLNS_PREFIX) continue;
    if (name.prefix === NO_PREFIX) return textBetween(scan, at);
    if (found < 0) found = at;
  }
  return found < 0 ? null : textBetween(scan, found);
}

function textBetween(scan: XmlScan, at: number): string {
  return decodeReferences(scan.bytes.toString('utf8', scan.valueStarts[at], scan.valueEnds[at]));
}
