import { inName, isName } from './xml-characters.js';
import { nameCount, nameOf, type XmlName } from './xml-names.js';
import { fail, type XmlScan } from './xml-position.js';

/** How many different names one document may bring. */
const MOST_NAMES = 100_000;
/** Where the hash of a name begins (FNV-1a, 32 bit). */
const HASH_SEED = 0x811c9dc5;

/** Reads a name from here; null, with the fault set, when there is none. */
export function readName(scan: XmlScan, what: string): XmlName | null {
  const { bytes, end, lastName } = scan;
  const from = scan.at;
  const guess = lastName === null ? null : lastName.next;
  if (guess !== null && standsAt(guess.bytes, bytes, from)) {
    scan.at = from + guess.bytes.length;
    scan.lastName = guess;
    return guess;
  }
  let at = from;
  let hash = HASH_SEED;
  for (; at < end; at += 1) {
    const byte = bytes[at] ?? 0;
    if (inName[byte] === 0) break;
    hash = Math.imul(hash ^ byte, 0x01000193);
  }
  scan.at = at;
  const name = at === from ? null : nameOf(bytes, from, at, hash);
  if (name !== null && nameCount() - scan.namesBefore <= MOST_NAMES) {
    if (lastName !== null) lastName.next = name;
    scan.lastName = name;
    return name;
  }
  const shown = bytes.toString('utf8', from, Math.min(at, from + 60));
  if (name !== null) fail(scan, `it has more than ${String(MOST_NAMES)} different names`, from);
  else if (isName(shown)) fail(scan, `the ${what} "${shown}" has a colon in the wrong place`, from);
  else fail(scan, shown === '' ? `"<" does not begin a tag with a proper ${what}` : `"${shown}" is not a proper ${what}`, from);
  return null;
}

/** Whether a known name stands here, to its last byte. Documents repeat themselves, so the name that followed last time is tried first. */
function standsAt(known: Uint8Array, bytes: Uint8Array, from: number): boolean {
  const { length } = known;
  for (let at = 0; at < length; at += 1) if (known[at] !== bytes[from + at]) return false;
  return inName[bytes[from + length] ?? 0] === 0;
}
