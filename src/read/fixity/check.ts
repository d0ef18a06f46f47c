import pLimit from 'p-limit';
import type { Unchecked } from '../../model/findings.js';
import { problem, type Reading } from '../reading.js';
import { folderOf, lastPart } from '../walk.js';
import { digestsOf } from './digests.js';
import { isDigest, type StatedDigest } from './stated.js';

/** Files read at the same time: more would only make the disk jump. */
const AT_ONCE = 2;
/** From so many files of a folder, or folders of a batch, on, the same fault is told as one. */
const MANY = 4;
const MOST_PLACES = 100;

/** A file whose bytes are not those that were described. */
interface Differing {
  readonly stated: StatedDigest;
  readonly found: string;
  readonly size: number;
  /** The file for which these bytes are stated. */
  readonly twin: string | null;
}

/** Holds the files against the digests stated for them, and answers what could not be looked at. With `asked` false no file is read. */
export async function checkFixity(
  reading: Reading,
  asked: boolean,
  onProgress: (done: number, all: number) => void,
): Promise<readonly Unchecked[]> {
  if (!asked) return notAsked(new Set(reading.stated.map(({ path }) => path)).size);
  const checkable = reading.stated.filter(({ algorithm, digest }) => algorithm !== null && isDigest(algorithm, digest));
  const unknown = unknownDigests(reading.stated.filter((stated) => !checkable.includes(stated)));
  const byFile = new Map<string, StatedDigest[]>();
  for (const stated of checkable) {
    const list = byFile.get(stated.path);
    if (list === undefined) byFile.set(stated.path, [stated]);
    else list.push(stated);
  }
  if (byFile.size === 0) return unknown;
  const meant = new Map(checkable.map((stated) => [`${stated.algorithm ?? ''}:${stated.digest}`, stated.path]));
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
  differing.sort((a, b) => (a.stated.path < b.stated.path ? -1 : 1));
  for (const { stated } of differing) reading.received.file(stated.path, 'found');
  noteDiffering(reading, differing, [...byFile.keys()]);
  return unknown;
}

function notAsked(files: number): readonly Unchecked[] {
  if (files === 0) return [];
  const why = `Digests are stated for ${String(files)} of the files that came, which were not held against them. The option --fixity does it.`;
  return [{ what: 'digests', why, frames: null, places: [], count: files, required: false }];
}

async function differenceOf(
  reading: Reading,
  list: readonly StatedDigest[],
  meant: ReadonlyMap<string, string>,
): Promise<Differing | null> {
  const [first] = list;
  if (first === undefined) return null;
  const read = await digestsOf(first.location, new Set(list.flatMap(({ algorithm }) => algorithm ?? [])));
  if (!read.ok) {
    const says = `The file "${first.path}" cannot be read: ${read.says}. Its digest could not be looked at.`;
    reading.problems.push(problem('document-unreadable', says, { field: 'file', place: { document: first.path } }));
    return null;
  }
  const stated = list.find(({ algorithm, digest }) => read.digests.get(algorithm ?? '') !== digest);
  if (stated === undefined) return null;
  const found = read.digests.get(stated.algorithm ?? '') ?? '';
  const twin = meant.get(`${stated.algorithm ?? ''}:${found}`) ?? null;
  return { stated, found, size: read.size, twin: twin === stated.path ? null : twin };
}

function unknownDigests(list: readonly StatedDigest[]): readonly Unchecked[] {
  const byName = new Map<string, StatedDigest[]>();
  for (const stated of list) {
    const why =
      stated.algorithm === null
        ? `They are made with ${stated.named}, which the program does not compute.`
        : `What stands there is no digest of ${stated.named}.`;
    const known = byName.get(why);
    if (known === undefined) byName.set(why, [stated]);
    else known.push(stated);
  }
  return [...byName].map(([why, own]) => ({
    what: 'digests that cannot be compared',
    why,
    frames: null,
    // The files themselves were accounted for; this is about their digests alone.
    places: own.slice(0, MOST_PLACES).map(({ path }) => ({ document: path })),
    count: own.length,
    required: false,
  }));
}

/** One problem for each file; for most files of a kind in a folder, or in the batch, one for all of them. A picture put in another's place is told by itself. */
function noteDiffering(reading: Reading, differing: readonly Differing[], checked: readonly string[]): void {
  const swapped = differing.filter(({ twin }) => twin !== null);
  const plain = differing.filter(({ twin }) => twin === null);
  const byPath = new Map(swapped.map((one) => [one.stated.path, one]));
  for (const one of swapped) {
    const other = byPath.get(one.twin ?? '');
    if (other?.twin !== one.stated.path) note(reading, [one], 1);
    else if (one.stated.path < other.stated.path) noteExchanged(reading, one, other);
  }
  const kindOf = (path: string): string => lastPart(path).slice(lastPart(path).lastIndexOf('.')).toLowerCase();
  for (const [kind, own] of grouped(plain, ({ stated }) => kindOf(stated.path))) {
    const all = checked.filter((path) => kindOf(path) === kind).length;
    const folders = grouped(own, ({ stated }) => folderOf(stated.path));
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
  const [first, second] = [one.stated.path, other.stated.path];
  const { named, digest } = one.stated;
  const says = `"${first}" and "${second}" stand in each other's place: each has the content stated for the other. The ${named} digest ${digest}, stated for the first, is that of the second.`;
  reading.problems.push(
    problem('checksum-differs', says, {
      field: 'file',
      instruction: `Exchange the files "${first}" and "${second}".`,
      returned: `${named} ${one.found}`,
      place: { document: first },
    }),
  );
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

function note(reading: Reading, group: readonly Differing[], of: number): void {
  const [first] = group;
  if (first === undefined) return;
  const { stated, found, size, twin } = first;
  const sizes = stated.size === null || stated.size === size ? '' : ` It has ${String(size)} bytes; ${String(stated.size)} are stated.`;
  const single =
    twin === null
      ? `"${stated.path}" is not the file that was described: its ${stated.named} digest is ${found}, and ${stated.digest} is stated.${sizes}`
      : `"${stated.path}" has the content stated for "${twin}": its ${stated.named} digest is ${found}, and ${stated.digest} is stated for it.${sizes}`;
  const paths = group.slice(0, 3).map((one) => `"${one.stated.path}"`);
  const says =
    group.length === 1
      ? single
      : `${String(group.length)} of ${String(of)} files (${paths.join(', ')} ...) are not the files that were described: their digests differ. ${single}`;
  reading.problems.push(
    problem('checksum-differs', says, {
      field: 'file',
      instruction:
        group.length > 1
          ? 'Send these files again as they were described, or their digests anew.'
          : twin === null
            ? `Send "${stated.path}" again as it was described, or its digest anew.`
            : `Send the file that belongs under the name "${stated.path}".`,
      returned: `${stated.named} ${found}`,
      place: { document: stated.path },
    }),
  );
}
