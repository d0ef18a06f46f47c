import { basename, dirname, join } from 'node:path';
import { BATCH_NAME, DELIVERY, isBag, PAYLOAD } from './batch-root.js';
import { type Entry, readFolder } from './folder-entries.js';
import { glanceAtRoot } from './kinds.js';

/** First elements of documents that vendors send and that this program puts nowhere but in the list of expected documents. */
const VENDOR_ROOTS: ReadonlySet<string> = new Set(['mets', 'mods', 'modsCollection', 'batch']);
/** So many documents of a folder are looked at: one is enough to know it. */
const LOOKED_AT = 20;
/** From the folder of a batch over reel and issue to a document. */
const DEEPEST = 3;

/**
 * The nearest folder, from this one upwards, that a vendor sent or that lies in what a vendor sent: it holds documents of a return, or is a bag, or bears the name of a
 * batch and holds such folders. Null where there is none; above a folder that `isOurs` nothing is looked at. Nothing is read but the beginnings of documents.
 */
export function returnAbove(folder: string, isOurs: (names: readonly string[]) => boolean): string | null {
  for (let at = folder; ; at = dirname(at)) {
    const entries = entriesOf(at);
    if (isOurs(entries.map(({ name }) => name))) return null;
    if (isReturn(at, entries)) return at;
    if (dirname(at) === at) return null;
  }
}

function isReturn(folder: string, entries: readonly Entry[]): boolean {
  if (isBag(entries) || holdsDocument(folder, entries)) return true;
  const name = basename(folder);
  if (!BATCH_NAME.test(name)) return false;
  // a library may call a folder of its own after the batch, but hardly with the count of the delivery
  return DELIVERY.test(name)
    ? holdsBelow(folder, entries, DEEPEST)
    : entries.some((entry) => PAYLOAD.test(entry.name) && holdsDocument(join(folder, entry.name), entriesOf(join(folder, entry.name))));
}

function holdsBelow(folder: string, entries: readonly Entry[], depth: number): boolean {
  return entries.some(({ name, kind }) => {
    if (kind !== 'folder') return false;
    const [below, own] = [join(folder, name), entriesOf(join(folder, name))];
    return holdsDocument(below, own) || (depth > 1 && holdsBelow(below, own, depth - 1));
  });
}

function holdsDocument(folder: string, entries: readonly Entry[]): boolean {
  const documents = entries.filter(({ name, kind }) => kind === 'file' && /\.xml$/i.test(name)).slice(0, LOOKED_AT);
  return documents.some(({ name }) => {
    const location = join(folder, name);
    return VENDOR_ROOTS.has(glanceAtRoot({ path: name, folder: '', name, location, kind: 'file' })?.name ?? '');
  });
}

/** What cannot be looked at holds nothing here; whoever writes there will be told. */
function entriesOf(folder: string): readonly Entry[] {
  try {
    return readFolder(folder);
  } catch {
    return [];
  }
}
