import { readdir, rename, rm, writeFile } from 'node:fs/promises';
import { dirname, join } from 'node:path';
import { pid } from 'node:process';
import { UserMistake } from '../../read/mistake.js';
import { makeFolder } from './make-folder.js';
import { refuseInReturn } from './outside-batch.js';
import { systemReason } from './system-reason.js';

/** A file below a folder, its path with `/`. */
export interface TreeFile {
  readonly path: string;
  readonly text: string;
}

/**
 * Writes XML documents into a new folder, whole or not at all: first under another name beside it, then renamed. With `replace` an earlier one goes, but
 * only where it holds nothing but XML, so that images are never deleted. Throws UserMistake.
 */
export async function writeTree(folder: string, files: readonly TreeFile[], replace: boolean): Promise<void> {
  await refuseTree(folder, replace);
  const temporary = join(dirname(folder), `.expected-return.reeltally-${String(pid)}.tmp`);
  try {
    await rm(temporary, { recursive: true, force: true });
    for (const { path, text } of files) {
      await makeFolder(dirname(join(temporary, path)));
      // Two documents of one name would be a fault of the names, and never one document over the other.
      await writeFile(join(temporary, path), text, { flag: 'wx' });
    }
    await putInPlace(temporary, folder, replace);
  } catch (error) {
    await rm(temporary, { recursive: true, force: true }).catch(() => undefined);
    throw new UserMistake(`The documents could not be written to ${folder}: ${systemReason(error)}.`);
  }
}

/** The earlier folder is moved aside first and deleted last, so that it is whole, old or new, whenever the work ends in between. */
async function putInPlace(temporary: string, folder: string, replace: boolean): Promise<void> {
  if (!replace) return rename(temporary, folder);
  const aside = `${temporary}.old`;
  await rm(aside, { recursive: true, force: true });
  const moved = await rename(folder, aside).then(
    () => true,
    () => false,
  );
  try {
    await rename(temporary, folder);
  } catch (error) {
    if (moved) await rename(aside, folder);
    throw error;
  }
  await rm(aside, { recursive: true, force: true });
}

/** Throws UserMistake where the folder lies in what a vendor sent, or is there and may not be replaced. */
export async function refuseTree(folder: string, replace: boolean): Promise<void> {
  await refuseInReturn(dirname(folder));
  const found = await readdir(folder, { recursive: true, withFileTypes: true }).catch(() => null);
  if (found === null) return;
  if (!replace) throw new UserMistake(`${folder} is there already. Give another folder with --out, or --replace to write it again.`);
  const other = found.find((entry) => !entry.isDirectory() && !/\.xml$/i.test(entry.name));
  if (other !== undefined)
    throw new UserMistake(`${folder} holds ${other.name}, which no list of expected documents has. Move it away; nothing was deleted.`);
}
