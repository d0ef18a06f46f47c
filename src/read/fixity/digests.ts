import { createHash } from 'node:crypto';
import { constants } from 'node:fs';
import { open } from 'node:fs/promises';
import { systemReason } from '../file-bytes.js';

/** The digests of a file by algorithm, in lower case, with its size; or why it cannot be read. */
export type FileDigests =
  | { readonly ok: true; readonly digests: ReadonlyMap<string, string>; readonly size: number }
  | { readonly ok: false; readonly says: string };

/** Bytes read at a time. */
const PIECE = 1024 * 1024;

/** Reads a file once, piece by piece, for all the digests wanted; where none is, only its size is asked for. No link is followed and no pipe waited for. */
export async function digestsOf(location: string, algorithms: ReadonlySet<string>): Promise<FileDigests> {
  try {
    const handle = await open(location, constants.O_RDONLY | constants.O_NOFOLLOW | constants.O_NONBLOCK);
    try {
      const stat = await handle.stat();
      if (!stat.isFile()) return { ok: false, says: 'it is not a regular file' };
      if (algorithms.size === 0) return { ok: true, digests: new Map(), size: stat.size };
      const hashes = [...algorithms].map((algorithm) => ({ algorithm, hash: createHash(algorithm) }));
      const buffer = Buffer.allocUnsafe(PIECE);
      let size = 0;
      for (;;) {
        const { bytesRead } = await handle.read(buffer, 0, PIECE, size);
        if (bytesRead === 0) break;
        size += bytesRead;
        for (const { hash } of hashes) hash.update(buffer.subarray(0, bytesRead));
      }
      return { ok: true, digests: new Map(hashes.map(({ algorithm, hash }) => [algorithm, hash.digest('hex')])), size };
    } finally {
      await handle.close();
    }
  } catch (error) {
    return { ok: false, says: systemReason(error) };
  }
}
