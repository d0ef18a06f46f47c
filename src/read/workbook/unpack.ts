import { crc32, inflateRawSync } from 'node:zlib';
import type { ZipEntry } from './directory.js';

/** The bytes of a part, or a half sentence that says why they cannot be had. */
export type Unpacked = { readonly ok: true; readonly bytes: Buffer } | { readonly ok: false; readonly says: string };

/** A sheet of 200,000 rows has about 50 MB. */
export const LARGEST_PART = 128 * 1024 * 1024;
/** Sheets shrink to a tenth, very even ones to a hundredth; DEFLATE ends at about 1,030. */
const LARGEST_RATIO = 400;
/** Below this size a ratio says nothing. */
const SMALL = 1024 * 1024;
const LOCAL = 0x04034b50;
const LOCAL_SIZE = 30;

/** Unpacks one part. What the list says of its size is believed only as far as the bytes bear it out, and never beyond the limit. */
export function unpack(archive: Buffer, entry: ZipEntry): Unpacked {
  if (entry.encrypted) return refused('is encrypted; save the workbook without a password');
  if (entry.size > LARGEST_PART)
    return refused(`would have ${String(entry.size)} bytes when unpacked, more than any collation record needs`);
  if (entry.size > SMALL && entry.size > entry.packedSize * LARGEST_RATIO)
    return refused(
      `would swell to ${String(entry.size)} bytes, ${String(Math.round(entry.size / Math.max(1, entry.packedSize)))} times its size`,
    );
  if (entry.method !== 0 && entry.method !== 8) return refused('is packed in a way that workbooks do not use');
  const packed = packedBytes(archive, entry);
  if (packed === null) return refused('lies outside the file, which was probably cut off or damaged');
  const bytes = entry.method === 0 ? packed : inflated(packed, entry.size);
  if (bytes === null) return refused('is damaged, or larger than it says');
  if (bytes.length !== entry.size) return refused(`says that it has ${String(entry.size)} bytes, but has ${String(bytes.length)}`);
  return crc32(bytes) === entry.crc32 ? { ok: true, bytes } : refused('is damaged: its check sum is another');
}

function packedBytes(archive: Buffer, { offset, packedSize }: ZipEntry): Buffer | null {
  if (offset + LOCAL_SIZE > archive.length || archive.readUInt32LE(offset) !== LOCAL) return null;
  const start = offset + LOCAL_SIZE + archive.readUInt16LE(offset + 26) + archive.readUInt16LE(offset + 28);
  return start + packedSize > archive.length ? null : archive.subarray(start, start + packedSize);
}

/** Null for bytes that are no DEFLATE stream (RFC 1951), and as soon as more than `size` bytes come out. */
function inflated(packed: Buffer, size: number): Buffer | null {
  try {
    return inflateRawSync(packed, { maxOutputLength: Math.max(1, size) });
  } catch {
    return null;
  }
}

function refused(says: string): Unpacked {
  return { ok: false, says };
}
