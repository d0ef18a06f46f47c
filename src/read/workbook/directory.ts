/** One file in a ZIP archive, as the central directory lists it (PKWARE APPNOTE 6.3.10, section 4.3.12). */
export interface ZipEntry {
  readonly name: string;
  /** 0 stored, 8 deflated; nothing else is used in workbooks (ECMA-376 part 2, annex B). */
  readonly method: number;
  readonly encrypted: boolean;
  readonly crc32: number;
  readonly packedSize: number;
  readonly size: number;
  /** Where its local header begins. */
  readonly offset: number;
}

/** The list of an archive, or a half sentence that says why there is none. */
export type Directory = { readonly ok: true; readonly entries: readonly ZipEntry[] } | { readonly ok: false; readonly says: string };

const END = 0x06054b50;
const LISTED = 0x02014b50;
const END_SIZE = 22;
const LISTED_SIZE = 46;
/** The comment behind the end record has 16 bits for its length. */
const LONGEST_COMMENT = 0xffff;
/** Workbooks of many sheets hold a few hundred parts. */
const MOST_ENTRIES = 5000;

/** Reads the list at the end of a ZIP archive. Nothing is unpacked, and every number in it is held against the bytes there are. */
export function readDirectory(bytes: Buffer): Directory {
  const end = endRecord(bytes);
  if (end < 0) return refused('the list of its parts is missing at the end, so the file was probably cut off on its way');
  const count = bytes.readUInt16LE(end + 10);
  const start = bytes.readUInt32LE(end + 16);
  if (count === 0xffff || start === 0xffffffff) return refused('it is packed as an archive for more than 4 GB');
  if (count > MOST_ENTRIES) return refused(`it holds ${String(count)} parts, and no workbook needs more than ${String(MOST_ENTRIES)}`);
  const entries: ZipEntry[] = [];
  const names = new Set<string>();
  let at = start;
  for (let index = 0; index < count; index += 1) {
    if (at + LISTED_SIZE > end || bytes.readUInt32LE(at) !== LISTED) return refused('the list of its parts is damaged');
    const nameLength = bytes.readUInt16LE(at + 28);
    const next = at + LISTED_SIZE + nameLength + bytes.readUInt16LE(at + 30) + bytes.readUInt16LE(at + 32);
    if (next > end) return refused('the list of its parts is damaged');
    const name = bytes.toString('utf8', at + LISTED_SIZE, at + LISTED_SIZE + nameLength);
    // Part names differ in more than their case (ECMA-376 part 2, section 6.2.2.3): two of one name would be two truths.
    if (names.has(partKey(name))) return refused(`it holds the part "${name.slice(0, 80)}" twice`);
    names.add(partKey(name));
    entries.push({
      name,
      method: bytes.readUInt16LE(at + 10),
      encrypted: (bytes.readUInt16LE(at + 8) & 1) === 1,
      crc32: bytes.readUInt32LE(at + 16),
      packedSize: bytes.readUInt32LE(at + 20),
      size: bytes.readUInt32LE(at + 24),
      offset: bytes.readUInt32LE(at + 42),
    });
    at = next;
  }
  return { ok: true, entries };
}

/** Names of parts are compared without regard to ASCII case, and some programs write `\` between folders. */
export function partKey(name: string): string {
  return name.replaceAll('\\', '/').replace(/^\//, '').toLowerCase();
}

function endRecord(bytes: Buffer): number {
  const lowest = Math.max(0, bytes.length - END_SIZE - LONGEST_COMMENT);
  for (let at = bytes.length - END_SIZE; at >= lowest; at -= 1) {
    if (bytes[at] === 0x50 && bytes.readUInt32LE(at) === END) return at;
  }
  return -1;
}

function refused(says: string): Directory {
  return { ok: false, says };
}
