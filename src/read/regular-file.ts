import { lstat, readFile, stat } from 'node:fs/promises';
import { UserMistake } from './mistake.js';

/** Why a file that the user named cannot be read, in words, by the system's error code. */
const reasons: ReadonlyMap<string, string> = new Map([
  ['ENOENT', 'there is no such file'],
  ['ENOTDIR', 'a part of the path is a file, not a folder'],
  ['EACCES', 'you have no permission to read it'],
  ['EPERM', 'you have no permission to read it'],
  ['EISDIR', 'it is a folder, not a file'],
  ['ELOOP', 'its links lead in a circle'],
  ['ENAMETOOLONG', 'its name is too long'],
]);

/**
 * The bytes of a file that the user named. Only a plain file is opened, because reading a pipe or a device may never end; a link to
 * a plain file counts as one unless `links` is `refused`. Throws UserMistake for anything else, and for more than `limit` bytes.
 */
export async function readRegularFile(path: string, limit: number, links: 'followed' | 'refused' = 'followed'): Promise<Buffer> {
  try {
    const found = await (links === 'followed' ? stat(path) : lstat(path));
    if (found.isDirectory()) throw new UserMistake(`${path}: this is a folder; a file is needed here.`);
    if (!found.isFile())
      throw new UserMistake(`${path}: this is not a plain file (a link, pipe or device); save the content as a file first.`);
    if (found.size > limit) throw tooLarge(path, found.size, limit);
    const bytes = await readFile(path);
    // It may have grown since.
    if (bytes.length > limit) throw tooLarge(path, bytes.length, limit);
    return bytes;
  } catch (error) {
    if (error instanceof UserMistake) throw error;
    const code = error instanceof Error && 'code' in error && typeof error.code === 'string' ? error.code : '';
    const reason = reasons.get(code) ?? (error instanceof Error ? error.message : String(error));
    throw new UserMistake(`${path}: cannot be read: ${reason}.`);
  }
}

function tooLarge(path: string, size: number, limit: number): UserMistake {
  return new UserMistake(`${path}: the file has ${size} bytes; the most that is read here is ${limit} bytes.`);
}
