import { readFileBytes } from '../file-bytes.js';
import { glanceAtRoot } from '../kinds.js';
import { noteUnreadable, openXml, problem, type Reading } from '../reading.js';
import { withoutMark } from '../variants.js';
import { type BatchFile, type BatchFolder, folderOf, lastPart, type PassedOver, pathKey } from '../walk.js';
import { isPageFile, UNREAD, whatItIs } from './kinds-of-things.js';

/** From so many folders on, the same omission is one slip of the whole return. */
const EVERYWHERE = 3;

/**
 * Accounts for all that no document and no layout laid claim to, once everything else is read: pictures and page text that no document names
 * are a problem, damaged XML is one wherever it lies, and the rest is noted as not compared.
 */
export async function accountForRest(reading: Reading): Promise<void> {
  const { index, received } = reading;
  const unlisted: BatchFile[] = [];
  for (const file of index.files) {
    if (received.fateOf(file.path) !== null) continue;
    if (isUnlisted(reading, file)) unlisted.push(file);
    await reading.onDocument();
  }
  for (const entry of index.passedOver) passOver(reading, entry, unlisted);
  noteUnlisted(reading, unlisted);
  for (const { place } of reading.problems)
    if (place.document !== undefined && received.fateOf(place.document) !== null) received.file(place.document, 'found');
  for (const folder of index.folders) unreadFolder(reading, folder);
  settleFolders(reading);
}

/** Settles one file that nothing claimed; true where it is a page's and ought to be named by a document. */
function isUnlisted(reading: Reading, file: BatchFile): boolean {
  const { received } = reading;
  if (isPageFile(file.path)) return true;
  if (file.kind !== 'file' || !/\.xml$/i.test(file.path)) received.file(file.path, 'unchecked', whatItIs(file));
  else if (isSecondCopy(reading, file, withoutMark(file.path))) return false;
  else if (glanceAtRoot(file)?.name.toLowerCase() === 'alto') return true;
  else {
    const document = openXml(reading, file);
    if (document.ok) received.file(file.path, 'unchecked', UNREAD.xml);
    else noteUnreadable(reading, file.path, document.says, document.line);
  }
  return false;
}

/** Whether a file is a second copy of a document that was read, under a later name or packed; where it is another document than that one, it is a problem. */
function isSecondCopy({ index, received, problems }: Reading, file: Pick<BatchFile, 'path' | 'location'>, plainPath: string): boolean {
  const original = index.byKey.get(pathKey(plainPath));
  if (original === undefined || original.location === file.location || !received.isDocument(original.path)) return false;
  const [first, second] = [bytesOf(original.location), bytesOf(file.location)];
  if (first !== null && second?.equals(first) === true) received.file(file.path, 'unchecked', UNREAD.copy);
  else {
    received.file(file.path, 'found');
    problems.push(
      problem(
        'documents-disagree',
        `"${original.path}" was read; "${file.path}" beside it goes by the same name and is another document.`,
        {
          field: 'copy of the document',
          instruction: 'Send one copy of each document, or copies that are the same.',
          place: { document: file.path },
        },
      ),
    );
  }
  return true;
}

/** The bytes of a document, unpacked, in memory of their own; null where they cannot be had. */
function bytesOf(location: string): Buffer | null {
  const file = readFileBytes(location);
  return file.ok ? Buffer.from(file.bytes) : null;
}

function passOver(reading: Reading, { path, location, because }: PassedOver, unlisted: BatchFile[]): void {
  if ((because === 'packed twice' || because === 'same name') && isSecondCopy(reading, { path, location }, path.replace(/\.gz$/i, '')))
    return;
  if (because === 'not UTF-8' && /\.xml$/i.test(path)) {
    reading.received.file(path, 'found');
    const says = `A name in the folder "${folderOf(path) === '' ? '.' : folderOf(path)}" is not UTF-8 (it shows as "${lastPart(path)}"), so it cannot be named in XML.`;
    const instruction = 'Rename the file, and send it again.';
    reading.problems.push(problem('document-unreadable', says, { instruction, returned: path, place: { document: path } }));
  } else if (because === 'not UTF-8' && isPageFile(path))
    unlisted.push({ path, folder: folderOf(path), name: lastPart(path), location: '', kind: 'other' });
  else reading.received.file(path, 'unchecked', UNREAD[because]);
}

/** One problem for each folder, or one for a kind of file in the whole batch where it is so in many folders. */
function noteUnlisted(reading: Reading, files: readonly BatchFile[]): void {
  const mayBeNamed = namedByTheUnreadable(reading);
  const told = files.filter((file) => {
    if (!mayBeNamed(file)) return true;
    reading.received.file(file.path, 'unchecked', UNREAD.unread);
    return false;
  });
  for (const file of told) reading.received.file(file.path, 'found');
  const byEnding = grouped(told, ({ path }) => lastPart(path).slice(lastPart(path).lastIndexOf('.')).toLowerCase());
  const rest: BatchFile[] = [];
  for (const own of byEnding.values()) {
    const folders = new Set(own.map(({ path }) => folderOf(path))).size;
    if (folders >= EVERYWHERE) reading.problems.push(notListed(own, folders));
    else rest.push(...own);
  }
  rest.sort((a, b) => (a.path < b.path ? -1 : 1));
  for (const group of grouped(rest, ({ path }) => folderOf(path)).values()) reading.problems.push(notListed(group, 1));
}

/** Whether the document that would name a file may be one that cannot be read: the nearest folder with documents, from the file upwards, holds such a one. */
function namedByTheUnreadable({ received, problems, index }: Reading): (file: BatchFile) => boolean {
  const unreadable = new Set(problems.flatMap(({ code, place }) => (code === 'document-unreadable' ? (place.document ?? []) : [])));
  const folders = new Map<string, boolean>();
  for (const { path } of index.files) {
    if (!received.isDocument(path)) continue;
    const folder = folderOf(path);
    folders.set(folder, (folders.get(folder) ?? false) || unreadable.has(path));
  }
  return ({ path }) => {
    for (let folder = folderOf(path); ; folder = folderOf(folder)) {
      const known = folders.get(folder);
      if (known !== undefined || folder === '') return known ?? false;
    }
  };
}

function grouped(files: readonly BatchFile[], keyOf: (file: BatchFile) => string): ReadonlyMap<string, readonly BatchFile[]> {
  const groups = new Map<string, BatchFile[]>();
  for (const file of files) {
    const group = groups.get(keyOf(file));
    if (group === undefined) groups.set(keyOf(file), [file]);
    else group.push(file);
  }
  return groups;
}

function notListed(group: readonly BatchFile[], folders: number): ReturnType<typeof problem> {
  const names = group.slice(0, 3).map((file) => `"${file.path}"`);
  const list = group.length > 3 ? `${names.join(', ')} and ${String(group.length - 3)} more` : names.join(', ');
  const where = folders > 1 ? ` in ${String(folders)} folders` : '';
  const [was, it] = group.length === 1 ? ['was', 'it'] : ['were', 'them'];
  return problem('file-not-listed', `${list}${where} ${was} sent, but no document names ${it}.`, {
    field: 'file',
    instruction: `Name ${it} in the document of the page that ${group.length === 1 ? 'it shows' : 'they show'}, or take ${it} out of the batch.`,
    returned: list,
    place: { document: group[0]?.path ?? '' },
  });
}

/** Folders in which nobody could look are a problem: whatever lies there was not read. */
function unreadFolder(reading: Reading, { path, is, reason }: BatchFolder): void {
  const { received } = reading;
  if (is === 'read') return;
  if (is === 'hidden') {
    received.folder(path, 'unchecked', UNREAD.hidden);
    return;
  }
  received.folder(path, 'found');
  const sentence =
    is === 'link'
      ? `The folder "${path}" is a link to another place. Links are not followed, so nothing that lies there was read.`
      : is === 'closed'
        ? `The folder "${path === '' ? '.' : path}" cannot be opened: ${reason ?? 'the system gave no reason'}. Nothing that lies there was read.`
        : `The name of the folder "${path}" is not UTF-8 (it shows as "${lastPart(path)}"), so no document can name what lies there, and nothing of it was read.`;
  const instruction =
    is === 'not UTF-8' ? 'Rename the folder, and send it again.' : `Send the folder "${path}" itself, with what lies in it.`;
  reading.problems.push(problem('document-unreadable', sentence, { instruction, returned: path, place: { document: path } }));
}

/** A folder was compared where anything in it was, at any depth. */
function settleFolders(reading: Reading): void {
  const { index, received } = reading;
  const inside = new Map<string, 'compared' | 'found' | 'unchecked'>();
  for (const file of [...index.files, ...index.passedOver]) {
    const fate = received.fateOf(file.path) ?? 'unchecked';
    for (let folder = folderOf(file.path); folder !== ''; folder = folderOf(folder)) {
      const known = inside.get(folder);
      if (known === 'compared' || known === fate) break;
      if (known === undefined || fate !== 'unchecked') inside.set(folder, fate);
    }
  }
  for (const { path, is } of index.folders) {
    if (is !== 'read') continue;
    const fate = inside.get(path) ?? 'unchecked';
    received.folder(path, fate, fate === 'unchecked' ? (inside.has(path) ? UNREAD.folder : UNREAD.empty) : undefined);
  }
}
