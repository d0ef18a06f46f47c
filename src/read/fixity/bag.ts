import { lstatSync } from 'node:fs';
import type { DocumentProblem } from '../../model/film.js';
import type { BatchRoot } from '../batch-root.js';
import { problem, type Reading } from '../reading.js';
import { type BesidePayload, pathKey, walkBesidePayload } from '../walk.js';
import { accountForTagFiles } from './bag-beside.js';
import { isReadable, type Listed, payloadLists, readFetch, statedOxum } from './bag-tags.js';
import { algorithmOf } from './stated.js';

const MOST_NAMED = 3;

type Bag = NonNullable<BatchRoot['bag']>;

/** A file of the payload, under the name that it has on disk. */
interface PayloadFile {
  /** Path in the batch. */
  readonly path: string;
  readonly location: string;
}

/**
 * Reads the manifests of the bags in which the batch lies (RFC 8493): what they list and what is there must be the same, and their digests are
 * noted beside those of the documents. What lies beside the payload is accounted for as `../name`.
 */
export function readBags(reading: Reading): void {
  for (const { bag, location } of reading.index.roots) {
    if (bag === null) continue;
    const beside = walkBesidePayload(bag);
    accountForTagFiles(reading, bag.payload, beside);
    comparePayload(reading, bag, beside, payloadOf(reading, location));
  }
}

/** The files of the payload by their path in it. */
function payloadOf(reading: Reading, location: string): ReadonlyMap<string, PayloadFile> {
  const inside = `${location}/`;
  const all: readonly PayloadFile[] = [...reading.index.files, ...reading.index.passedOver];
  return new Map(all.filter((file) => file.location.startsWith(inside)).map((file) => [file.location.slice(inside.length), file]));
}

function comparePayload(reading: Reading, bag: Bag, beside: BesidePayload, payload: ReadonlyMap<string, PayloadFile>): void {
  const { listed, manifests } = payloadLists(reading, beside);
  const fetched = readFetch(reading, beside);
  const find = finder(payload, bag.payload);
  const wanted = new Set([...listed.keys(), ...fetched]);
  const missing = [...wanted].filter((path) => find(path) === undefined);
  const known = new Set([...wanted].flatMap((path) => find(path) ?? []));
  for (const [path, lines] of listed) {
    const file = find(path);
    if (file !== undefined) state(reading, file, lines);
  }
  noteMissing(reading, missing, fetched);
  if (manifests === 0) {
    // One that is there and cannot be read is told as that.
    if (!beside.files.some((file) => isManifest(file.path) && !isReadable(file)))
      reading.problems.push(
        problem('file-missing', 'The bag holds no manifest of its payload, so nothing says which files it should hold.', {
          field: 'file',
          instruction: 'Send the manifest of the bag (manifest-sha512.txt or another algorithm).',
          place: { document: '../bagit.txt' },
        }),
      );
  } else
    noteExtra(
      reading,
      [...payload.values()].filter((file) => !known.has(file)),
    );
  compareOxum(reading, beside, payload, manifests === 0 ? null : listed.size);
}

const isManifest = (path: string): boolean => /^\.\.\/manifest-[^/]*\.txt$/i.test(path);

/** Finds what a bag calls a file: as it is written, else as systems that know no capitals or accents would. */
function finder(payload: ReadonlyMap<string, PayloadFile>, folder: string): (path: string) => PayloadFile | undefined {
  const byKey = new Map([...payload].map(([path, file]) => [pathKey(path), file]));
  const inside = `${folder}/`.toLowerCase();
  return (path) => {
    if (!path.toLowerCase().startsWith(inside)) return undefined;
    const own = path.slice(inside.length);
    return payload.get(own) ?? byKey.get(pathKey(own));
  };
}

function state(reading: Reading, { path, location }: PayloadFile, lines: readonly Listed[]): void {
  for (const { algorithm, digest } of lines)
    reading.stated.push({ path, location, digest: { algorithm: algorithmOf(algorithm), named: algorithm, text: digest }, size: null });
}

function named(paths: readonly string[]): string {
  const first = paths.slice(0, MOST_NAMED).map((path) => `"${path}"`);
  return `${first.join(', ')}${paths.length > MOST_NAMED ? ` and ${String(paths.length - MOST_NAMED)} more` : ''}`;
}

/** Files that the bag names and does not hold, but for those of which a document of the batch says it already. */
function noteMissing(reading: Reading, all: readonly string[], fetched: ReadonlySet<string>): void {
  const told = new Set(reading.pageFiles.flatMap(({ state: is, path }) => (is === 'missing' && path !== null ? [pathKey(path)] : [])));
  const missing = all.filter((path) => !told.has(pathKey(path.slice(path.indexOf('/') + 1))));
  if (missing.length === 0) return;
  const [one, it] = missing.length === 1 ? ['no such file was', 'it'] : ['no such files were', 'them'];
  const elsewhere = missing.every((path) => fetched.has(path));
  push(reading, 'file-missing', {
    says: elsewhere
      ? `The bag leaves ${named(missing)} to be fetched from elsewhere ("fetch.txt"). Nothing is fetched, and ${one} sent.`
      : `The bag's manifest lists ${named(missing)}, but ${one} sent.`,
    instruction: elsewhere ? `Send ${named(missing)} in the bag.` : `Send ${named(missing)}, or take ${it} off the bag's manifest.`,
    returned: named(missing),
    document: missing[0] ?? '',
  });
}

function noteExtra(reading: Reading, extra: readonly PayloadFile[]): void {
  if (extra.length === 0) return;
  const paths = extra.map((file) => file.path);
  for (const path of paths) reading.received.file(path, 'found');
  const [lie, it] = extra.length === 1 ? ['lies', 'it'] : ['lie', 'them'];
  push(reading, 'file-not-listed', {
    says: `${named(paths)} ${lie} in the payload of the bag, but its manifest does not list ${it}.`,
    instruction: `List ${named(paths)} in the bag's manifest, or take ${it} out of the bag.`,
    returned: named(paths),
    document: paths[0] ?? '',
  });
}

/**
 * Payload-Oxum (section 2.2.2) is `bytes.files` of the payload as it was packed. Where the manifest lists as many files, another number of them
 * is told by their names, and takes its bytes with it.
 */
function compareOxum(reading: Reading, beside: BesidePayload, payload: ReadonlyMap<string, PayloadFile>, listed: number | null): void {
  const stated = statedOxum(beside);
  if (stated === null || (payload.size !== listed && stated.files === listed)) return;
  const bytes = [...payload.values()].reduce((sum, { location }) => sum + sizeOf(location), 0);
  if (stated.files === payload.size && stated.bytes === bytes) return;
  push(reading, 'manifest-disagrees', {
    says: `The bag says of itself (Payload-Oxum in "bag-info.txt") that it holds ${String(stated.files)} files with ${String(stated.bytes)} bytes; ${String(payload.size)} with ${String(bytes)} bytes came.`,
    instruction: 'Send the bag again, whole.',
    returned: `${String(stated.bytes)}.${String(stated.files)}`,
    document: '../bag-info.txt',
  });
}

function sizeOf(location: string): number {
  try {
    return lstatSync(location).size;
  } catch {
    return 0;
  }
}

function push(
  reading: Reading,
  code: DocumentProblem['code'],
  told: { readonly says: string; readonly instruction: string; readonly returned: string; readonly document: string },
): void {
  const { says, instruction, returned, document } = told;
  reading.problems.push(problem(code, says, { field: 'file', instruction, returned, place: { document } }));
}
