import { readFile, stat } from 'node:fs/promises';
import { systemReason } from './file-bytes.js';
import { UserMistake } from './mistake.js';
import { unsettledPath } from './set-note.js';

/**
 * The bytes of a file that the user named. Only a plain file, or a link to one, is opened, because reading a pipe or a device may
 * never end. Where a run was stopped while it put its files in place, the new file is read. Throws UserMistake for anything else, and for more than `limit` bytes.
 */
export async function readRegularFile(path: string, limit: number): Promise<Buffer> {
  const newer = await unsettledPath(path);
  // It may have been put in place since.
  if (newer !== null && (await stat(newer).catch(() => null)) !== null)
    return readRegularFile(newer, limit).catch(() => plainFile(path, limit));
  return plainFile(path, limit);
}

async function plainFile(path: string, limit: number): Promise<Buffer> {
  try {
    const found = await stat(path);
    if (found.isDirectory()) throw new UserMistake(`${path}: this is a folder; a file is needed here.`);
    if (!found.isFile()) throw new UserMistake(`${path}: this is not a plain file but a pipe or device; save the content as a file first.`);
    if (found.size > limit) throw tooLarge(path, found.size, limit);
    const bytes = await readFile(path);
    // It may have grown since.
    if (bytes.length > limit) throw tooLarge(path, bytes.length, limit);
    return bytes;
  } catch (error) {
    if (error instanceof UserMistake) throw error;
    throw new UserMistake(`${path}: cannot be read: ${systemReason(error)}.`);
  }
}

function tooLarge(path: string, size: number, limit: number): UserMistake {
  return new UserMistake(`${path}: the file has ${size} bytes; the most that is read here is ${limit} bytes.`);
}
