import { inValue, isIllegal, isSpace } from './xml-characters.js';
import { readName } from './xml-name-reader.js';
import { NO_PREFIX, prefixNumber, XML_PREFIX, XMLNS_PREFIX, type XmlName } from './xml-names.js';
import { bindPrefix, isBound, sameNamespace } from './xml-namespaces.js';
import { fail, LONGEST_TEXT, openName, reference, refuseText, type XmlScan } from './xml-position.js';
import { valueBetween } from './xml-text.js';

/** Reads one attribute; a declaration of a namespace holds from here on. */
export function attribute(scan: XmlScan): boolean {
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
  if (at - from > LONGEST_TEXT) return refuseText(scan, 'attribute', nameAt);
  scan.at = at + 1;
  scan.attributeNames[scan.attributeCount] = name;
  scan.valueStarts[scan.attributeCount] = from;
  scan.valueEnds[scan.attributeCount] = at;
  scan.attributeCount += 1;
  if (name.prefix !== XMLNS_PREFIX && !(name.prefix === NO_PREFIX && name.local === 'xmlns')) return true;
  const uri = valueBetween(bytes, from, at);
  const says = bindPrefix(scan.scope, name.prefix === NO_PREFIX ? NO_PREFIX : prefixNumber(name.local), uri);
  return says === null ? true : fail(scan, says, nameAt);
}

/** Every prefix must be declared, and no two attributes may have the same name, written out in full. */
export function namesAgree(scan: XmlScan, element: XmlName): boolean {
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

/** The value of an attribute of the element just opened, by local name, one without prefix first; null when it is not there. */
export function attributeText(scan: XmlScan, local: string): string | null {
  let found = -1;
  for (let at = 0; at < scan.attributeCount; at += 1) {
    const name = scan.attributeNames[at] as XmlName;
    if (name.local !== local || name.prefix === XMLNS_PREFIX) continue;
    if (name.prefix === NO_PREFIX) return attributeValue(scan, at);
    if (found < 0) found = at;
  }
  return found < 0 ? null : attributeValue(scan, found);
}

/** The value of an attribute of the element just opened, by its place among them. */
export function attributeValue(scan: XmlScan, at: number): string {
  return valueBetween(scan.bytes, scan.valueStarts[at] ?? 0, scan.valueEnds[at] ?? 0);
}
