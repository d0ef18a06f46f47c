import { realpath } from 'node:fs/promises';
import { basename, dirname, join, relative, resolve, sep } from 'node:path';
import { DOSSIER_FILE } from '../../dossier/places.js';
import { UserMistake } from '../../read/mistake.js';
import { returnAbove } from '../../read/return-above.js';

/** Throws UserMistake where a folder lies in a folder of the batch: the next verification would count the program's own files as the vendor's. */
export async function refuseInBatch(folder: string, batches: readonly string[]): Promise<void> {
  const out = await realPlace(folder);
  for (const batch of batches) {
    const way = relative(await realPlace(batch), out);
    if (way === '..' || way.startsWith(`..${sep}`) || resolve(way) === way) continue;
    throw inBatch(folder, batch);
  }
}

/** Throws UserMistake where a folder lies in what a vendor sent, whatever the command knows of it. Everything that is written goes through here. */
export async function refuseInReturn(folder: string): Promise<void> {
  const found = returnAbove(await realPlace(folder), (names) => names.includes(DOSSIER_FILE));
  if (found !== null) throw inBatch(folder, found);
}

function inBatch(folder: string, batch: string): UserMistake {
  return new UserMistake(
    `${folder} lies in the folder of the batch, ${batch}: what is written there would be counted among the vendor's files. Give a folder beside it with --out, or first copy the file that is read here to a place of your own.`,
  );
}

/** Where a path leads on the disk, links followed as far as something is there. */
async function realPlace(path: string): Promise<string> {
  const whole = resolve(path);
  const real = await realpath(whole).catch(() => null);
  if (real !== null || dirname(whole) === whole) return real ?? whole;
  return join(await realPlace(dirname(whole)), basename(whole));
}
