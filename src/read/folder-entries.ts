import { type Dirent, readdirSync, statSync } from 'node:fs';

/** One name in a folder. `isUtf8` is false where the bytes of the name are not; `name` then shows them as well as can be. */
export interface Entry {
  readonly name: string;
  readonly isUtf8: boolean;
  readonly kind: 'file' | 'link' | 'other' | 'folder';
}

/** What lies in a folder, in the order of the names; nothing is opened and no link followed. Throws what the system throws. */
export function readFolder(path: string): readonly Entry[] {
  const entries = readdirSync(path, { withFileTypes: true, encoding: 'buffer' }) as unknown as readonly (Dirent & {
    readonly name: unknown;
  })[];
  const read = entries.map((entry) => {
    const bytes = Buffer.isBuffer(entry.name) ? entry.name : Buffer.from(entry.name);
    const name = bytes.toString('utf8');
    return { name, isUtf8: Buffer.from(name, 'utf8').equals(bytes), kind: kindOf(entry) };
  });
  return read.sort((a, b) => (a.name < b.name ? -1 : a.name > b.name ? 1 : 0));
}

function kindOf(entry: Dirent): Entry['kind'] {
  if (entry.isSymbolicLink()) return 'link';
  if (entry.isDirectory()) return 'folder';
  return entry.isFile() ? 'file' : 'other';
}

/** Whether a link leads to a folder; nothing in it is looked at. */
export function leadsToFolder(link: string): boolean {
  try {
    return statSync(link).isDirectory();
  } catch {
    return false;
  }
}
