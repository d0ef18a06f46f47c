import { attribute, namesAgree } from './xml-attributes.js';
import { inName, isSpace } from './xml-characters.js';
import { readName } from './xml-name-reader.js';
import type { XmlName } from './xml-names.js';
import { enterElement, leaveElement } from './xml-namespaces.js';
import { DEEPEST, fail, MOST_PARTS, openName, refuse, type XmlReader, type XmlScan } from './xml-position.js';

/** Reads a start tag with its attributes, or an empty element whole. */
export function openTag(scan: XmlScan, reader: XmlReader): boolean {
  const { bytes, scope } = scan;
  scan.tagStart = scan.at;
  scan.at += 1;
  const nameStart = scan.at;
  const name = readName(scan, 'element name');
  if (name === null) return false;
  scan.depth += 1;
  if (scan.depth > DEEPEST)
    return refuse(scan, `nests its elements more than ${String(DEEPEST)} deep, and no document of a newspaper does`, scan.tagStart);
  scan.nameStarts[scan.depth] = nameStart;
  scan.nameLengths[scan.depth] = scan.at - nameStart;
  scan.names[scan.depth] = name;
  enterElement(scope, scan.depth);
  scan.attributeCount = 0;
  let empty = false;
  for (;;) {
    const before = scan.at;
    let at = before;
    while (isSpace[bytes[at] ?? 0] === 1) at += 1;
    const byte = bytes[at];
    if (byte === 0x3e) {
      scan.at = at + 1;
      break;
    }
    if (byte === 0x2f && bytes[at + 1] === 0x3e) {
      scan.at = at + 2;
      empty = true;
      break;
    }
    scan.at = at;
    if (at >= scan.end) return fail(scan, `the tag <${openName(scan)} is not closed`, scan.tagStart);
    if (at === before) return fail(scan, `the tag <${openName(scan)} is not closed, or white space is missing in it`, at);
    if (!attribute(scan)) return false;
  }
  if (!namesAgree(scan, name)) return false;
  scan.partsLeft -= 1 + scan.attributeCount;
  if (scan.partsLeft < 0)
    return refuse(scan, `has more than ${String(MOST_PARTS)} elements and attributes, and no document of a newspaper does`, scan.tagStart);
  reader.open(scan, name);
  return empty ? leave(scan, reader, name) : true;
}

/** Reads an end tag, which must be that of the innermost open element. */
export function closeTag(scan: XmlScan, reader: XmlReader): boolean {
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
