import { type Dirent, lstatSync, readdirSync } from 'node:fs';
import { systemReason } from './file-bytes.js';

/** An entry of a batch folder that is not itself a folder. Paths are relative to the batch, `/` separated, as on disk. */
export interface BatchFile {
  readonly path: string;
  /** Where it lies on this machine. */
  readonly location: string;
  readonly kind: 'file' | 'link' | 'other';
}

/** Everything below the batch folders, by name. */
export interface BatchIndex {
  /** Name of the batch folder (the first of several). */
  readonly name: string;
  readonly files: readonly BatchFile[];
  /** By path in lower case and normal form C: vendors' systems do not agree about either. */
  readonly byKey: ReadonlyMap<string, BatchFile>;
  readonly remarks: readonly string[];
  /** Names that are not UTF-8 and end in .xml, so that a document may be lost; and folders that cannot be opened. */
  readonly unreadable: readonly { readonly path: string; readonly says: string }[];
}

/** A path as it is looked up: normal form C, lower case. */
export function pathKey(path: string): string {
  return path.normalize('NFC').toLowerCase();
}

/**
 * Lists what lies in the batch folders without following links. With several folders a later one's files take the place of earlier
 * ones with the same path below the batch. Answers a sentence where a folder cannot be read at all.
 */
export function walkBatch(folders: readonly string[]): BatchIndex | { readonly refused: string } {
  const byKey = new Map<string, BatchFile>();
  const remarks: string[] = [];
  const unreadable: { path: string; says: string }[] = [];
  let hidden = 0;
  let name: string | null = null;
  for (const folder of folders) {
    const root = batchRoot(folder);
    if (typeof root !== 'string') return root;
    name ??= lastPart(root);
    const seen = new Set<string>();
    const waiting = [''];
    for (let at = waiting.pop(); at !== undefined; at = waiting.pop()) {
      let entries: readonly Entry[];
      try {
        entries = readFolder(at === '' ? root : `${root}/${at}`);
      } catch (error) {
        unreadable.push({ path: at, says: `The folder "${at}" cannot be opened: ${systemReason(error)}.` });
        continue;
      }
      for (const entry of entries) {
        const path = at === '' ? entry.name : `${at}/${entry.name}`;
        if (!entry.isUtf8) {
          const says = `A name in the folder "${at === '' ? '.' : at}" is not UTF-8 (it shows as "${entry.name}"), so it cannot be named in XML. Rename it.`;
          if (/\.xml$/i.test(entry.name)) unreadable.push({ path, says });
          else remarks.push(says);
        } else if (entry.name.startsWith('.')) hidden += 1;
        else if (entry.kind === 'folder') waiting.push(path);
        else {
          const key = pathKey(path);
          const twin = seen.has(key) ? byKey.get(key) : undefined;
          if (twin !== undefined)
            remarks.push(
              `"${twin.path}" and "${path}" differ only in capital letters or in how accents are encoded; only the first is read.`,
            );
          else byKey.set(key, { path, location: `${root}/${path}`, kind: entry.kind });
          seen.add(key);
        }
      }
    }
  }
  if (hidden > 0) remarks.push(`Names that begin with a dot were passed over: ${String(hidden)}.`);
  const files = [...byKey.values()].sort((a, b) => (a.path < b.path ? -1 : a.path > b.path ? 1 : 0));
  return { name: name ?? '', files, byKey, remarks, unreadable };
}

/** The folder in which the batch begins: below a wrapper that holds only the batch folder, and below the `data` folder of a BagIt bag (RFC 8493). */
function batchRoot(folder: string): string | { readonly refused: string } {
  let root = folder.replace(/(?<=.)\/+$/, '');
  try {
    if (!lstatSync(`${root}/`).isDirectory()) return { refused: `The batch "${folder}" is not a folder.` };
    for (let level = 0; level < 3; level += 1) {
      const entries = readFolder(root).filter((entry) => !entry.name.startsWith('.'));
      const only = entries.length === 1 ? entries[0] : undefined;
      const names = new Set(entries.map((entry) => entry.name));
      if (names.has('bagit.txt') && names.has('data')) root = `${root}/data`;
      else if (only?.kind === 'folder' && /^(?:batch_.+|b\d.*-rt\d{1,3}|data)$/i.test(only.name)) root = `${root}/${only.name}`;
      else break;
    }
    return root;
  } catch (error) {
    return { refused: `The batch folder "${folder}" cannot be read: ${systemReason(error)}.` };
  }
}

interface Entry {
  readonly name: string;
  readonly isUtf8: boolean;
  readonly kind: 'file' | 'link' | 'other' | 'folder';
}

function readFolder(path: string): readonly Entry[] {
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

/** The last part of a path. */
export function lastPart(path: string): string {
  return path.slice(path.lastIndexOf('/') + 1);
}

/** The folder part of a path, empty where there is none. */
export function folderOf(path: string): string {
  return path.includes('/') ? path.slice(0, path.lastIndexOf('/')) : '';
}
