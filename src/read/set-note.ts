import { readFile } from 'node:fs/promises';
import { basename, dirname, join } from 'node:path';

/** The note of a set of files that is whole under temporary names and is being put in place: from when it stands there, the new set counts. */
export const SET_NOTE = '.reeltally-set.json';

/** What the note says: who put the set there, which names its files get, and which files of an earlier set go. */
export interface FileSet {
  readonly pid: number;
  readonly files: readonly string[];
  readonly removed: readonly string[];
}

/** The temporary name of a file that this process writes. */
export function temporaryName(name: string, pid: number): string {
  return `.${name}.reeltally-${String(pid)}.tmp`;
}

/** The note in a folder; null where none can be read there. */
export async function fileSetIn(folder: string): Promise<FileSet | null> {
  try {
    const value: unknown = JSON.parse(await readFile(join(folder, SET_NOTE), 'utf8'));
    return isFileSet(value) ? value : null;
  } catch {
    return null;
  }
}

/** Where a file lies that a run was stopped from putting in place: under its temporary name; else null. */
export async function unsettledPath(path: string): Promise<string | null> {
  const set = await fileSetIn(dirname(path));
  return set?.files.includes(basename(path)) === true ? join(dirname(path), temporaryName(basename(path), set.pid)) : null;
}

function isFileSet(value: unknown): value is FileSet {
  if (typeof value !== 'object' || value === null) return false;
  const { pid, files, removed } = value as Readonly<Record<string, unknown>>;
  return Number.isInteger(pid) && isNames(files) && isNames(removed);
}

/** Names of files of this very folder, and nothing that leads elsewhere. */
function isNames(value: unknown): boolean {
  return (
    Array.isArray(value) &&
    value.every((name) => typeof name === 'string' && name !== '' && basename(name) === name && !/^\.{1,2}$/.test(name))
  );
}
