import { closeSync, constants, fstatSync, lstatSync, openSync, readSync } from 'node:fs';
import { gunzipSync, constants as zlib } from 'node:zlib';

/** Size in bytes above which a document is not read unless the caller allows more. */
export const SIZE_CAP = 64 * 1024 * 1024;

/** The bytes of a file, or why they cannot be had. */
export type FileBytes = { readonly ok: true; readonly bytes: Buffer } | { readonly ok: false; readonly says: string };

/** One buffer for all documents: fresh memory for each would cost more than reading it. */
let reused = Buffer.allocUnsafe(1024 * 1024);

/** Reads a regular file whole, and unpacks it where its name ends in `.gz`. The bytes may lie in a buffer that the next call writes over: take what is wanted first. */
export function readFileBytes(path: string, cap: number = SIZE_CAP): FileBytes {
  const file = storedBytes(path, cap);
  return file.ok && isPacked(path) ? unpacked(file.bytes, cap) : file;
}

function isPacked(path: string): boolean {
  return /\.gz$/i.test(path);
}

/** However much the bytes claim to hold (RFC 1952), no more than `cap` bytes are made of them. */
function unpacked(bytes: Buffer, cap: number): FileBytes {
  try {
    return { ok: true, bytes: gunzipSync(bytes, { maxOutputLength: cap }) };
  } catch (error) {
    const tooLarge = error instanceof Error && 'code' in error && error.code === 'ERR_BUFFER_TOO_LARGE';
    return {
      ok: false,
      says: tooLarge
        ? `Unpacked it has more than ${String(cap)} bytes; documents above that are not read.`
        : 'It is packed with gzip, but cannot be unpacked: it is damaged or cut off.',
    };
  }
}

function storedBytes(path: string, cap: number): FileBytes {
  try {
    // A link is not followed, and a pipe does not make the program wait.
    const handle = openSync(path, constants.O_RDONLY | constants.O_NOFOLLOW | constants.O_NONBLOCK);
    try {
      const stat = fstatSync(handle);
      if (!stat.isFile()) return { ok: false, says: NO_FILE };
      const { size } = stat;
      if (size > cap) return { ok: false, says: `It has ${String(size)} bytes; documents above ${String(cap)} bytes are not read.` };
      if (size > reused.length) reused = Buffer.allocUnsafe(Math.min(cap, size * 2));
      let length = 0;
      while (length < size) {
        const count = readSync(handle, reused, length, size - length, length);
        if (count === 0) break;
        length += count;
      }
      return { ok: true, bytes: reused.subarray(0, length) };
    } finally {
      closeSync(handle);
    }
  } catch (error) {
    return { ok: false, says: whatElse(path) ?? `It cannot be read: ${systemReason(error)}.` };
  }
}

const NO_FILE = 'It is not a regular file.';

/** What stands in the place of a file that cannot be opened, where that is the reason; null where it is not, or nothing can be told. */
function whatElse(path: string): string | null {
  try {
    const stat = lstatSync(path);
    if (stat.isSymbolicLink()) return 'It is a link to another place and not a file. Send the file itself.';
    return stat.isFile() ? null : NO_FILE;
  } catch {
    return null;
  }
}

/** The first bytes of a file, for a look at what it is; null when it cannot be read. Not the reused buffer. */
export function readFirstBytes(path: string, count: number): Buffer | null {
  try {
    if (!lstatSync(path).isFile()) return null;
    const handle = openSync(path, constants.O_RDONLY | constants.O_NOFOLLOW | constants.O_NONBLOCK);
    try {
      const bytes = Buffer.alloc(count);
      const read = bytes.subarray(0, readSync(handle, bytes, 0, count, 0));
      // What was read is cut off somewhere; what it holds so far is wanted all the same.
      return isPacked(path) ? gunzipSync(read, { finishFlush: zlib.Z_SYNC_FLUSH, maxOutputLength: SIZE_CAP }) : read;
    } finally {
      closeSync(handle);
    }
  } catch {
    return null;
  }
}

/** A system error in words. */
export function systemReason(error: unknown): string {
  const code = error instanceof Error && 'code' in error ? String(error.code) : '';
  if (code === 'ENOENT') return 'there is no such file';
  if (code === 'EACCES' || code === 'EPERM') return 'permission is denied';
  if (code === 'EISDIR' || code === 'ENOTDIR') return 'a folder stands where a file should be, or the reverse';
  if (code === 'ELOOP') return 'links lead round in a circle';
  return code === '' ? 'the system gave no reason' : `the system answers ${code}`;
}
