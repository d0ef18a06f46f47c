import pLimit from 'p-limit';
import type { FixityCounts, Unchecked } from '../../model/findings.js';
import { problem, type Reading } from '../reading.js';
import { folderOf, lastPart } from '../walk.js';
import { digestsOf } from './digests.js';
import { isDigest, type StatedDigest, type StatedOfFile } from './stated.js';

/** Files read at the same time: more would only make the disk jump. */
const AT_ONCE = 2;
/** From so many files of a folder, or folders of a batch, on, the same fault is told as one. */
const MANY = 4;
const MOST_PLACES = 100;

/** A file whose bytes are not those that were described: by a digest, or by their number alone. */
interface Differing {
  readonly path: string;
  readonly stated: StatedDigest | null;
  readonly found: string;
  readonly size: number;
  /** Another size that is stated. */
  readonly statedSize: number | null;
  /** The file for which these bytes are stated. */
  readonly twin: string | null;
}

/** Holds the files against what is stated of their bytes, and answers what could not be looked at and how many were. With `asked` false no file is read. */
export async function checkFixity(
  reading: Reading,
  asked: boolean,
  onProgress: (done: number, all: number) => void,
): Promise<{ readonly unchecked: readonly Unchecked[]; readonly counts: FixityCounts | null }> {
  if (!asked) return { unchecked: notAsked(reading.stated), counts: null };
  const checkable = reading.stated.filter(isCheckable);
  const unknown = unknownStatements(reading.stated.filter((stated) => !isCheckable(stated)));
  const byFile = grouped(checkable, ({ path }) => path);
  const meant = new Map(checkable.flatMap(({ path, digest }) => (digest === null ? [] : [[keyOf(digest), path] as const])));
  const differing: Differing[] = [];
  const limit = pLimit(AT_ONCE);
  let done = 0;
  await Promise.all(
    [...byFile.values()].map((list) =>
      limit(async () => {
        const differs = await differenceOf(reading, list, meant);
        if (differs !== null) differing.push(differs);
        done += 1;
        onProgress(done, byFile.size);
      }),
    ),
  );
  differing.sort((a, b) => (a.path < b.path ? -1 : 1));
  for (const path of byFile.keys()) reading.received.file(path, 'compared');
  for (const { path } of differing) reading.received.file(path, 'found');
  noteDiffering(reading, differing, [...byFile.keys()]);
  const bare = reading.pageFiles.filter(({ path, state }) => state === 'present' && path !== null && !byFile.has(path));
  const counts = { compared: byFile.size, differ: differing.length, without: new Set(bare.map(({ path }) => path)).size };
  return { unchecked: unknown, counts };
}

function isCheckable({ digest, size }: StatedOfFile): boolean {
  return digest === null ? size?.bytes != null : digest.algorithm !== null && isDigest(digest.algorithm, digest.text);
}

const keyOf = ({ algorithm, text }: StatedDigest): string => `${algorithm ?? ''}:${text}`;

function notAsked(stated: readonly StatedOfFile[]): readonly Unchecked[] {
  const files = new Set(stated.map(({ path }) => path)).size;
  if (files === 0) return [];
  const [some, sizes] = [stated.some(({ digest }) => digest !== null), stated.some(({ size }) => size !== null)];
  const what = some && sizes ? 'digests and sizes' : some ? 'digests' : 'sizes of files';
  const begins = `${what.charAt(0).toUpperCase()}${what.slice(1)}`;
  const of = some || sizes ? `${begins} are stated for` : '';
  const why = `${of} ${String(files)} of the files that came, which were not held against them. The option --fixity does it.`;
  return [{ what, why, frames: null, places: [], count: files, required: false }];
}

async function differenceOf(
  reading: Reading,
  list: readonly StatedOfFile[],
  meant: ReadonlyMap<string, string>,
): Promise<Differing | null> {
  const [first] = list;
  if (first === undefined) return null;
  const { path } = first;
  const digests = list.flatMap(({ digest }) => digest ?? []);
  const read = await digestsOf(first.location, new Set(digests.flatMap(({ algorithm }) => algorithm ?? [])));
  if (!read.ok) {
    const says = `The file "${path}" cannot be read: ${read.says}. Its digest could not be looked at.`;
    reading.problems.push(problem('document-unreadable', says, { field: 'file', place: { document: path } }));
    return null;
  }
  const { size } = read;
  const stated = digests.find(({ algorithm, text }) => read.digests.get(algorithm ?? '') !== text) ?? null;
  const statedSize = list.find((one) => one.size !== null && one.size.bytes !== size)?.size?.bytes ?? null;
  if (stated === null && statedSize === null) return null;
  const found = read.digests.get(stated?.algorithm ?? '') ?? '';
  const twin = stated === null ? null : (meant.get(`${stated.algorithm ?? ''}:${found}`) ?? null);
  return { path, stated, found, size, statedSize, twin: twin === path ? null : twin };
}

/** Statements that nothing can be held against, by the reason. The files themselves were accounted for: this is about the statements alone. */
function unknownStatements(list: readonly StatedOfFile[]): readonly Unchecked[] {
  return [...grouped(list, whyUnknown)].map(([why, own]) => ({
    what: own[0]?.digest === null ? 'sizes that cannot be compared' : 'digests that cannot be compared',
    why,
    frames: null,
    places: own.slice(0, MOST_PLACES).map(({ path }) => ({ document: path })),
    count: own.length,
    required: false,
  }));
}

function whyUnknown({ digest }: StatedOfFile): string {
  if (digest === null) return 'What stands there is no number of bytes.';
  if (digest.text === '') return 'Nothing stands where the digest should.';
  return digest.algorithm === null
    ? `They are made with ${digest.named}, which the program does not compute.`
    : `What stands there is no digest of ${digest.named}.`;
}

/** One problem for each file; for most files of a kind in a folder, or in the batch, one for all of them. A picture put in another's place is told by itself. */
function noteDiffering(reading: Reading, differing: readonly Differing[], checked: readonly string[]): void {
  const swapped = differing.filter(({ twin }) => twin !== null);
  const plain = differing.filter(({ twin }) => twin === null);
  const byPath = new Map(swapped.map((one) => [one.path, one]));
  for (const one of swapped) {
    const other = byPath.get(one.twin ?? '');
    if (other?.twin !== one.path) note(reading, [one], 1);
    else if (one.path < other.path) noteExchanged(reading, one, other);
  }
  const kindOf = (path: string): string => lastPart(path).slice(lastPart(path).lastIndexOf('.')).toLowerCase();
  for (const [kind, own] of grouped(plain, ({ path }) => kindOf(path))) {
    const all = checked.filter((path) => kindOf(path) === kind).length;
    const folders = grouped(own, ({ path }) => folderOf(path));
    if (folders.size >= MANY && own.length * 2 > all) note(reading, own, all);
    else
      for (const [folder, group] of folders) {
        const inFolder = checked.filter((path) => kindOf(path) === kind && folderOf(path) === folder).length;
        if (group.length >= MANY && group.length * 2 > inFolder) note(reading, group, inFolder);
        else for (const one of group) note(reading, [one], 1);
      }
  }
}

/** Two files that stand in each other's place are one slip. */
function noteExchanged(reading: Reading, one: Differing, other: Differing): void {
  const [first, second] = [one.path, other.path];
  const { named, text } = one.stated ?? { named: '', text: '' };
  const says = `"${first}" and "${second}" stand in each other's place: each has the content stated for the other. The ${named} digest ${text}, stated for the first, is that of the second.`;
  reading.problems.push(
    problem('checksum-differs', says, {
      field: 'file',
      instruction: `Exchange the files "${first}" and "${second}".`,
      returned: readingOf(one),
      place: { document: first },
    }),
  );
}

function readingOf({ stated, found, size }: Differing): string {
  return stated === null ? `${String(size)} bytes` : `${stated.named} ${found}`;
}

function grouped<T>(list: readonly T[], keyOf: (item: T) => string): ReadonlyMap<string, readonly T[]> {
  const groups = new Map<string, T[]>();
  for (const item of list) {
    const group = groups.get(keyOf(item));
    if (group === undefined) groups.set(keyOf(item), [item]);
    else group.push(item);
  }
  return groups;
}

/** How one file is another than was described. */
function inWords({ path, stated, found, size, statedSize, twin }: Differing): string {
  const bytes = `${String(size)} bytes`;
  if (stated === null) return `"${path}" is not the file that was described: it has ${bytes}, and ${String(statedSize)} are stated.`;
  const sizes = statedSize === null ? '' : ` It has ${bytes}; ${String(statedSize)} are stated.`;
  return twin === null
    ? `"${path}" is not the file that was described: its ${stated.named} digest is ${found}, and ${stated.text} is stated.${sizes}`
    : `"${path}" has the content stated for "${twin}": its ${stated.named} digest is ${found}, and ${stated.text} is stated for it.${sizes}`;
}

function note(reading: Reading, group: readonly Differing[], of: number): void {
  const [first] = group;
  if (first === undefined) return;
  const { path, twin } = first;
  const paths = group.slice(0, 3).map((one) => `"${one.path}"`);
  const what = group.every(({ stated }) => stated === null) ? 'sizes' : 'digests';
  const says =
    group.length === 1
      ? inWords(first)
      : `${String(group.length)} of ${String(of)} files (${paths.join(', ')} ...) are not the files that were described: their ${what} differ. ${inWords(first)}`;
  reading.problems.push(
    problem('checksum-differs', says, {
      field: 'file',
      instruction:
        group.length > 1
          ? `Send these files again as they were described, or their ${what} anew.`
          : twin === null
            ? `Send "${path}" again as it was described, or its ${what === 'sizes' ? 'size' : 'digest'} anew.`
            : `Send the file that belongs under the name "${path}".`,
      returned: readingOf(first),
      place: { document: path },
    }),
  );
}
