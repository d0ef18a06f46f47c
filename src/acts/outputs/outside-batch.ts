import { realpath } from 'node:fs/promises';
import { basename, dirname, join, relative, resolve, sep } from 'node:path';
import { UserMistake } from '../../read/mistake.js';

/** Throws UserMistake where a folder of results would lie in a folder of the batch: the next verification would count the program's own files as the vendor's. */
export async function refuseInBatch(folder: string, batches: readonly string[]): Promise<void> {
  const out = await realPlace(folder);
  for (const batch of batches) {
    const way = relative(await realPlace(batch), out);
    if (way === '..' || way.startsWith(`..${sep}`) || resolve(way) === way) continue;
    throw new UserMistake(
      `${folder} lies in the folder of the batch, ${batch}: what is written there would be counted among the vendor's files. Give a folder beside it with --out.`,
    );
  }
}

/** Where a path leads on the disk, links followed as far as something is there. */
async function realPlace(path: string): Promise<string> {
  const whole = resolve(path);
  const real = await realpath(whole).catch(() => null);
  if (real !== null || dirname(whole) === whole) return real ?? whole;
  return join(await realPlace(dirname(whole)), basename(whole));
}
