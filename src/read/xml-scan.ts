import { inMarkup, inName, inText, isIllegal, isPlainName, isSpace } from './xml-characters.js';
import { openNameBook } from './xml-names.js';
import { fail, MOST_PARTS, newScan, openName, reference, refuse, type XmlFault, type XmlReader, type XmlScan } from './xml-position.js';
import { closeTag, openTag } from './xml-tags.js';

/**
 * Reads a document from first byte to last and tells where and how it breaks XML 1.0 (fifth edition) or Namespaces in XML 1.0 (third
 * edition), holds a DOCTYPE, or more than `mostParts` elements and attributes; null when it does not. The bytes must be UTF-8 and known to be so, without byte order mark.
 */
export function scanXml(bytes: Buffer, reader: XmlReader, mostParts = MOST_PARTS): XmlFault | null {
  openNameBook();
  const scan = newScan(bytes, mostParts);
  if (startsWith(scan, '<?xml') && isSpace[bytes[5] ?? 0] === 1) declaration(scan);
  while (scan.fault === null && scan.depth === 0 && scan.at < scan.end) outside(scan, reader);
  if (scan.fault === null && scan.names[0] === null) fail(scan, 'it holds no element', scan.end);
  return scan.fault === null ? null : { says: scan.fault, offset: scan.faultAt, refused: scan.refused };
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
    refuse(scan, 'has a document type (DOCTYPE), which is not read because it can change or swell the document', scan.at);
  else fail(scan, 'markup that begins with <! stands outside the root element', scan.at);
}

function root(scan: XmlScan, reader: XmlReader): void {
  if (scan.names[0] !== null) {
    fail(scan, 'a second element stands after the root element', scan.at);
    return;
  }
  if (!openTag(scan, reader)) return;
  scan.names[0] = scan.names[1] ?? null;
  const { ahead } = reader;
  while (scan.depth > 0 && scan.at < scan.end) {
    if (ahead?.(scan) === true) continue;
    if (!inside(scan, reader)) return;
  }
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
  return scan.fault === null;
}

function cdata(scan: XmlScan, reader: XmlReader): boolean {
  const from = scan.at + 9;
  const close = markupEnd(scan, from, 0x5d, 0x5d);
  if (close < 0) return fail(scan, 'a CDATA section is not closed', scan.at);
  scan.at = close + 3;
  reader.text(scan, from, close, true);
  return scan.fault === null;
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
