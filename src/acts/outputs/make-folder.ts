import { mkdir, stat } from 'node:fs/promises';
import { dirname, resolve } from 'node:path';

/**
 * Makes a folder and those above it, where they are not there. Node's own way of making all at once never ends where the system lets nothing be made
 * (below /proc), and says of a disk that can only be read that nothing is there. Throws the system's error.
 */
export async function makeFolder(path: string): Promise<void> {
  const wanted = resolve(path);
  const missing: string[] = [];
  for (let at = wanted; (await stat(at).catch(() => null)) === null; at = dirname(at)) {
    missing.unshift(at);
    if (at === dirname(at)) break;
  }
  for (const folder of missing)
    await mkdir(folder).catch((error: unknown) => {
      // Somebody else may have made it meanwhile.
      if (!(error instanceof Error && 'code' in error && error.code === 'EEXIST')) throw error;
    });
  // A file in the place of the folder, or a link to nowhere.
  if (!(await stat(wanted)).isDirectory()) throw Object.assign(new Error(`${wanted} is no folder`), { code: 'ENOTDIR' });
}
