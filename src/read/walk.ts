import { type BatchRoot, batchRoot } from './batch-root.js';
import { systemReason } from './file-bytes.js';
import { type Entry, leadsToFolder, readFolder } from './folder-entries.js';

/** An entry of a batch folder that is not itself a folder. Paths are relative to the batch, `/` separated, as on disk. */
export interface BatchFile {
  /** A document packed with gzip goes by its name without `.gz`. */
  readonly path: string;
  /** Where it lies on this machine. */
  readonly location: string;
  readonly kind: 'file' | 'link' | 'other';
}

/** A folder of a batch. Only in one that is `read` was anything looked at. */
export interface BatchFolder {
  readonly path: string;
  readonly is: 'read' | 'link' | 'closed' | 'not UTF-8' | 'hidden';
  /** Why it could not be opened. */
  readonly reason?: string;
}

/** A file that is not read at all, because of its name: it begins with a dot, is not UTF-8, or means the same as another's. */
export interface PassedOver {
  readonly path: string;
  readonly because: 'hidden' | 'not UTF-8' | 'same name' | 'packed twice';
}

/** Everything below the batch folders, by name. */
export interface BatchIndex {
  /** What the folders call the batch (the first of several). */
  readonly name: string;
  readonly roots: readonly BatchRoot[];
  readonly files: readonly BatchFile[];
  /** By path in lower case and normal form C: vendors' systems do not agree about either. */
  readonly byKey: ReadonlyMap<string, BatchFile>;
  readonly folders: readonly BatchFolder[];
  readonly passedOver: readonly PassedOver[];
  /** How many documents are packed with gzip. */
  readonly packed: number;
}

/** A path as it is looked up: normal form C, lower case. */
export function pathKey(path: string): string {
  return path.normalize('NFC').toLowerCase();
}

interface Found {
  readonly byKey: Map<string, BatchFile>;
  readonly folders: Map<string, BatchFolder>;
  readonly passedOver: PassedOver[];
}

/**
 * Lists what lies in the batch folders without following links. With several folders a later one's files take the place of earlier
 * ones with the same path below the batch. Answers a sentence where a folder cannot be read at all.
 */
export function walkBatch(given: readonly string[]): BatchIndex | { readonly refused: string } {
  const found: Found = { byKey: new Map(), folders: new Map(), passedOver: [] };
  const roots: BatchRoot[] = [];
  for (const folder of given) {
    const root = batchRoot(folder);
    if ('refused' in root) return root;
    roots.push(root);
    walkFolder(root.location, found);
  }
  const files = [...found.byKey.values()].sort((a, b) => (a.path < b.path ? -1 : a.path > b.path ? 1 : 0));
  const packed = files.filter((file) => PACKED.test(file.location));
  // A document may be named with the ending under which it is packed.
  for (const file of packed) found.byKey.set(pathKey(`${file.path}.gz`), file);
  const folders = [...found.folders.values()].sort((a, b) => (a.path < b.path ? -1 : 1));
  return { name: roots[0]?.name ?? '', roots, files, byKey: found.byKey, folders, passedOver: found.passedOver, packed: packed.length };
}

/** Documents that may come packed. */
const PACKED = /\.xml\.gz$/i;

function walkFolder(root: string, { byKey, folders, passedOver }: Found): void {
  const seen = new Set<string>();
  const waiting = [''];
  for (let at = waiting.pop(); at !== undefined; at = waiting.pop()) {
    const pathOf = (name: string): string => (at === '' ? name : `${at}/${name}`);
    let entries: readonly Entry[];
    try {
      entries = readFolder(at === '' ? root : `${root}/${at}`);
    } catch (error) {
      folders.set(at, { path: at, is: 'closed', reason: systemReason(error) });
      continue;
    }
    if (at !== '') folders.set(at, { path: at, is: 'read' });
    for (const entry of entries) {
      const path = pathOf(entry.name);
      const isFolder = entry.kind === 'folder' || (entry.kind === 'link' && leadsToFolder(`${root}/${path}`));
      const hidden = entry.name.startsWith('.');
      if (isFolder) {
        if (entry.kind === 'folder' && entry.isUtf8 && !hidden) waiting.push(path);
        else folders.set(path, { path, is: hidden ? 'hidden' : entry.isUtf8 ? 'link' : 'not UTF-8' });
      } else if (!entry.isUtf8) passedOver.push({ path, because: 'not UTF-8' });
      else if (hidden) passedOver.push({ path, because: 'hidden' });
      else {
        const plain = PACKED.test(path) ? path.slice(0, -'.gz'.length) : path;
        const key = pathKey(plain);
        if (seen.has(key)) passedOver.push({ path, because: plain === path ? 'same name' : 'packed twice' });
        else byKey.set(key, { path: plain, location: `${root}/${path}`, kind: entry.kind });
        seen.add(key);
      }
    }
  }
}

/** The last part of a path. */
export function lastPart(path: string): string {
  return path.slice(path.lastIndexOf('/') + 1);
}

/** The folder part of a path, empty where there is none. */
export function folderOf(path: string): string {
  return path.includes('/') ? path.slice(0, path.lastIndexOf('/')) : '';
}
