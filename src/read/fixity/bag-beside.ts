import { readFileBytes } from '../file-bytes.js';
import { problem, type Reading } from '../reading.js';
import { isPageFile, UNREAD, whatItIs } from '../received/kinds-of-things.js';
import { type BatchFile, type BesidePayload, folderOf, lastPart } from '../walk.js';
import { isBagFile, tagLists } from './bag-tags.js';
import { algorithmOf } from './stated.js';

const BESIDE = { what: 'folders of the bag beside its payload', why: 'The batch is the payload.' };
const MOST_PLACES = 3;

/** Accounts for everything in a bag that is not its payload. Nothing of a batch is read there: what belongs to pages, and documents, are one problem. */
export function accountForTagFiles(reading: Reading, payload: string, beside: BesidePayload): void {
  const { received } = reading;
  const tags = tagLists(reading, beside);
  const stray: BatchFile[] = [];
  for (const file of beside.files) {
    for (const { algorithm, digest } of tags.get(file.path.slice('../'.length)) ?? []) {
      const { path, location } = file;
      reading.stated.push({ path, location, digest: { algorithm: algorithmOf(algorithm), named: algorithm, text: digest }, size: null });
    }
    if (isBagFile(file.path)) claim(reading, file);
    else if (isPageFile(file.path) || /\.xml$/i.test(file.path)) stray.push(file);
    else received.file(file.path, 'unchecked', whatItIs(file));
  }
  for (const { path, because } of beside.passedOver) received.file(path, 'unchecked', UNREAD[because]);
  for (const { path } of stray) received.file(path, 'found');
  noteStray(reading, payload, stray);
  const holding = new Set(stray.flatMap(({ path }) => foldersAround(path)));
  for (const { path } of beside.folders) {
    if (holding.has(path)) received.folder(path, 'found');
    else received.folder(path, 'unchecked', BESIDE);
  }
}

function foldersAround(path: string): readonly string[] {
  const folder = folderOf(path);
  return folder === '' ? [] : [folder, ...foldersAround(folder)];
}

/** A file that the bag brings by its own right was read, or cannot be. */
function claim({ received, problems }: Reading, file: BatchFile): void {
  const read = readFileBytes(file.location);
  received.file(file.path, read.ok ? 'compared' : 'found');
  if (read.ok) return;
  const name = lastPart(file.path);
  problems.push(
    problem('document-unreadable', `"${name}" of the bag cannot be read. ${read.says}`, {
      instruction: `Send "${name}" of the bag again, as a file.`,
      place: { document: file.path },
    }),
  );
}

function noteStray({ problems }: Reading, payload: string, stray: readonly BatchFile[]): void {
  if (stray.length === 0) return;
  const names = stray.slice(0, MOST_PLACES).map(({ path }) => `"${path.slice('../'.length)}"`);
  const list = stray.length > MOST_PLACES ? `${names.join(', ')} and ${String(stray.length - MOST_PLACES)} more` : names.join(', ');
  const [lies, it] = stray.length === 1 ? ['lies', 'it'] : ['lie', 'them'];
  problems.push(
    problem(
      'file-not-listed',
      `${list} ${lies} beside the folder "${payload}" of the bag. The batch is that folder alone, so nothing was compared with ${it}.`,
      {
        field: 'file',
        instruction: `Put ${it} into the folder "${payload}" where the documents name ${it}, or take ${it} out of the bag.`,
        returned: list,
        place: { document: stray[0]?.path ?? '' },
      },
    ),
  );
}
