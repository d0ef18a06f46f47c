import type { Reading } from '../reading.js';
import { pathKey } from '../walk.js';

/** What a document or a bag's manifest states of the bytes of a file: a digest, or how many there are. */
export interface StatedOfFile {
  /** Path in the batch, as on disk. */
  readonly path: string;
  readonly location: string;
  readonly digest: StatedDigest | null;
  readonly size: StatedSize | null;
}

/** A digest as it is stated. */
export interface StatedDigest {
  /** As node:crypto calls it, such as `sha256`; null where the program does not know the one that is named in `named`. */
  readonly algorithm: string | null;
  readonly named: string;
  /** Lower case; empty where nothing stands in its place. */
  readonly text: string;
}

/** A number of bytes as it is stated; null where it is no number. */
export interface StatedSize {
  readonly text: string;
  readonly bytes: number | null;
}

/** What stands in metadata of the bytes of one file: pairs of algorithm and digest, and sizes. */
export interface FileStatements {
  readonly digests: readonly { readonly algorithm: string | null; readonly digest: string | null }[];
  readonly sizes: readonly string[];
}

/** The algorithms of METS CHECKSUMTYPE, of PREMIS and of RFC 8493 (section 2.4) that are computed, without hyphens and in lower case, with the hexadecimal digits that each has. */
const ALGORITHMS: ReadonlyMap<string, number> = new Map([
  ['md5', 32],
  ['sha1', 40],
  ['sha224', 56],
  ['sha256', 64],
  ['sha384', 96],
  ['sha512', 128],
]);

/** The name that node:crypto has for an algorithm, null for one that is not computed. */
export function algorithmOf(named: string): string | null {
  const bare = named.toLowerCase().replace(/[^a-z0-9]/g, '');
  return ALGORITHMS.has(bare) ? bare : null;
}

/** Whether a text can be the digest at all: real documents hold Base64 or nothing in its place too. */
export function isDigest(algorithm: string, digest: string): boolean {
  return digest.length === ALGORITHMS.get(algorithm) && /^[0-9a-f]+$/.test(digest);
}

/** Local names of the elements that state the bytes of a file: PREMIS and MIX 1.0 to 2.0 fixity, PREMIS `size`, MIX `FileSize` (0.2) and `fileSize` (1.0, 2.0). */
export const BYTE_LEAVES: readonly string[] = ['messageDigestAlgorithm', 'messageDigest', 'size', 'FileSize', 'fileSize'];

/** Gathers the statements of a section from its leaves in document order: an algorithm stands before its digest (PREMIS 1.0 to 3.0, MIX 2.0). */
export function statementsIn(leaves: readonly { readonly name: string; readonly text: string }[]): FileStatements {
  const digests: { algorithm: string | null; digest: string }[] = [];
  const sizes: string[] = [];
  let algorithm: string | null = null;
  for (const { name, text } of leaves) {
    if (name === 'messageDigestAlgorithm') algorithm = text;
    else if (name === 'messageDigest') {
      digests.push({ algorithm, digest: text });
      algorithm = null;
    } else if (BYTE_LEAVES.includes(name)) sizes.push(text);
  }
  return { digests, sizes };
}

/** Notes what a document states of a file that came: on its entry (METS file/@CHECKSUMTYPE, @CHECKSUM, @SIZE) or in its technical metadata. */
export function noteStated(reading: Reading, path: string | null, { digests, sizes }: FileStatements): void {
  const file = path === null ? undefined : reading.index.byKey.get(pathKey(path));
  if (file?.kind !== 'file') return;
  const { location } = file;
  const seen = new Set<string>();
  const isNew = (key: string): boolean => !seen.has(key) && seen.add(key).has(key);
  for (const { algorithm, digest } of digests) {
    if (digest === null) continue;
    const named = algorithm === null || algorithm.trim() === '' ? 'an algorithm that is not named' : algorithm.trim();
    const text = digest.trim().toLowerCase();
    if (isNew(`${named.toLowerCase().replace(/[^a-z0-9]/g, '')}:${text}`))
      reading.stated.push({ path: file.path, location, digest: { algorithm: algorithmOf(named), named, text }, size: null });
  }
  for (const size of sizes) {
    const text = size.trim();
    if (text === '' || !isNew(`size ${text}`)) continue;
    reading.stated.push({ path: file.path, location, digest: null, size: { text, bytes: /^\d{1,15}$/.test(text) ? Number(text) : null } });
  }
}
