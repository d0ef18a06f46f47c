import type { Reading } from '../reading.js';
import { pathKey } from '../walk.js';

/** A digest of a file as a document or a bag's manifest states it. */
export interface StatedDigest {
  /** Path in the batch, as on disk. */
  readonly path: string;
  readonly location: string;
  /** As node:crypto calls it, such as `sha256`; null where the program does not know the one that is named in `named`. */
  readonly algorithm: string | null;
  readonly named: string;
  /** Lower case. */
  readonly digest: string;
  /** Bytes, where they are stated too. */
  readonly size: number | null;
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

/** Notes what a document states of a file that came. Each is one of the pairs that METS (file/@CHECKSUMTYPE, @CHECKSUM) or PREMIS (messageDigestAlgorithm, messageDigest) give. */
export function noteStated(
  reading: Reading,
  path: string | null,
  pairs: readonly { readonly algorithm: string | null; readonly digest: string | null }[],
  size: string | null,
): void {
  const file = path === null ? undefined : reading.index.byKey.get(pathKey(path));
  if (file?.kind !== 'file') return;
  const seen = new Set<string>();
  for (const { algorithm, digest } of pairs) {
    if (digest === null || digest.trim() === '') continue;
    const named = algorithm ?? 'an algorithm that is not named';
    const text = digest.trim().toLowerCase();
    const known = algorithmOf(named);
    const key = `${named.toLowerCase().replace(/[^a-z0-9]/g, '')}:${text}`;
    if (seen.has(key)) continue;
    seen.add(key);
    const bytes = size !== null && /^\d{1,15}$/.test(size.trim()) ? Number(size) : null;
    reading.stated.push({ path: file.path, location: file.location, algorithm: known, named, digest: text, size: bytes });
  }
}
