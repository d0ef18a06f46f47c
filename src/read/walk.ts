import { type BatchRoot, batchRoot } from './batch-root.js';
import { systemReason } from './file-bytes.js';
import { type Entry, leadsToFolder, readFolder } from './folder-entries.js';

/** An entry of a batch folder that is not itself a folder. Paths are relative to the batch, `/` separated, as on disk. */
export interface BatchFile {
  /** A document packed with gzip goes by its name without `.gz`. */
  readonly path: string;
  /** The folder part of the path, empty where there is none, and the last part. */
  readonly folder: string;
  readonly name: string;
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
  readonly location: string;
  readonly because: 'hidden' | 'not UTF-8' | 'same name' | 'packed twice' | 'sent again';
}

/** Everything below the batch folders, by name. */
export interface BatchIndex {
  /** What the folders call the batch (the first of several). */
  readonly name: string;
  readonly roots: readonly BatchRoot[];
  readonly files: readonly BatchFile[];
  /** The same by the folder in which they lie directly. */
  readonly byFolder: ReadonlyMap<string, readonly BatchFile[]>;
  /** By path in lower case and normal form C: vendors' systems do not agree about either. */
  readonly byKey: ReadonlyMap<string, BatchFile>;
  readonly folders: readonly BatchFolder[];
  readonly passedOver: readonly PassedOver[];
  /** How many documents are packed with gzip. */
  readonly packed: number;
}

/** What lies in the folder of a bag beside its payload. */
export type BesidePayload = Pick<BatchIndex, 'files' | 'folders' | 'passedOver'>;

/** A path as it is looked up: normal form C, lower case. */
export function pathKey(path: string): string {
  // Nearly every path is in ASCII, which is its own normal form.
  return (/^[ -~]*$/.test(path) ? path : path.normalize('NFC')).toLowerCase();
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
  return {
    name: roots[0]?.name ?? '',
    roots,
    files,
    byFolder: byFolder(files),
    byKey: found.byKey,
    folders,
    passedOver: found.passedOver,
    packed: packed.length,
  };
}

function byFolder(files: readonly BatchFile[]): ReadonlyMap<string, readonly BatchFile[]> {
  const folders = new Map<string, BatchFile[]>();
  for (const file of files) {
    const own = folders.get(file.folder);
    if (own === undefined) folders.set(file.folder, [file]);
    else own.push(file);
  }
  return folders;
}

/** A path with a part that begins with a dot. */
const HIDDEN = /(?:^|\/)\./;

/** Documents that may come packed. */
const PACKED = /\.xml\.gz$/i;

/** What lies in the folder of a bag beside its payload: its own files, and whatever else. Paths begin with `../`, since the batch is the payload. */
export function walkBesidePayload(bag: NonNullable<BatchRoot['bag']>): BesidePayload {
  const found: Found = { byKey: new Map(), folders: new Map(), passedOver: [] };
  walkFolder(bag.location, found, bag.payload);
  const above = <T extends { readonly path: string }>(one: T): T => ({ ...one, path: `../${one.path}` });
  return {
    files: [...found.byKey.values()].map((file) => ({ ...above(file), folder: file.folder === '' ? '..' : `../${file.folder}` })),
    folders: [...found.folders.values()].map(above),
    passedOver: found.passedOver.map(above),
  };
}

/** Lists a folder; of what lies directly in it, the folder called `without` is left out. */
function walkFolder(root: string, { byKey, folders, passedOver }: Found, without: string | null = null): void {
  const seen = new Set<string>();
  const waiting = [''];
  for (let at = waiting.pop(); at !== undefined; at = waiting.pop()) {
    const pathOf = (name: string): string => (at === '' ? name : `${at}/${name}`);
    let entries: readonly Entry[];
    try {
      entries = readFolder(at === '' ? root : `${root}/${at}`);
    } catch (error) {
      folders.set(at, { path: at, is: HIDDEN.test(at) ? 'hidden' : 'closed', reason: systemReason(error) });
      continue;
    }
    const isHidden = at !== '' && HIDDEN.test(at);
    if (at !== '') folders.set(at, { path: at, is: isHidden ? 'hidden' : 'read' });
    for (const entry of entries) {
      if (at === '' && entry.name === without && entry.kind === 'folder') continue;
      const path = pathOf(entry.name);
      const location = `${root}/${path}`;
      const isFolder = entry.kind === 'folder' || (entry.kind === 'link' && leadsToFolder(location));
      const hidden = isHidden || entry.name.startsWith('.');
      if (isFolder) {
        if (entry.kind === 'folder' && entry.isUtf8) waiting.push(path);
        else folders.set(path, { path, is: hidden ? 'hidden' : entry.isUtf8 ? 'link' : 'not UTF-8' });
      } else if (!entry.isUtf8) passedOver.push({ path, location, because: hidden ? 'hidden' : 'not UTF-8' });
      else if (hidden) passedOver.push({ path, location, because: 'hidden' });
      else {
        const plain = PACKED.test(path) ? path.slice(0, -'.gz'.length) : path;
        const key = pathKey(plain);
        const earlier = byKey.get(key);
        if (seen.has(key)) passedOver.push({ path, location, because: plain === path ? 'same name' : 'packed twice' });
        else {
          if (earlier !== undefined)
            passedOver.push({ path: `${earlier.path} (earlier folder)`, location: earlier.location, because: 'sent again' });
          byKey.set(key, { path: plain, folder: at, name: lastPart(plain), location, kind: entry.kind });
        }
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
