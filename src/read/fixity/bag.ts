import { readFileBytes } from '../file-bytes.js';
import { resolveHref } from '../href.js';
import { problem, type Reading } from '../reading.js';
import { type BatchFile, pathKey } from '../walk.js';
import { algorithmOf } from './stated.js';

const MANIFEST = /^(tag)?manifest-([a-z0-9-]{1,20})\.txt$/i;
/** RFC 8493, section 2.1.3: a digest, white space, a path; `*` stands before the path in lists of older programs. */
const LINE = /^([0-9a-fA-F]{1,200})[ \t]+\*?(.+)$/;
const MOST_NAMED = 3;

/** What one line of a bag's manifest says. */
interface Listed {
  readonly algorithm: string;
  readonly digest: string;
  /** Relative to the bag. */
  readonly path: string;
}

/**
 * Reads the manifests of the bags in which the batch lies (RFC 8493): what they list and what is there must be the same, and their digests are
 * noted beside those of the documents. Files of the bag itself are accounted for as `../name`.
 */
export function readBags(reading: Reading): void {
  for (const { bag, location } of reading.index.roots) {
    if (bag === null) continue;
    const payloadFolder = location.slice(bag.location.length + 1);
    const lists = { payload: new Map<string, Listed[]>(), tags: new Map<string, Listed[]>() };
    let manifests = 0;
    for (const name of bag.files) {
      const match = MANIFEST.exec(name);
      if (match === null) continue;
      const text = tagText(reading, bag.location, name);
      if (text === null) continue;
      if (match[1] === undefined) manifests += 1;
      for (const line of listedIn(reading, name, match[2] ?? '', text)) {
        const list = match[1] === undefined ? lists.payload : lists.tags;
        list.set(line.path, [...(list.get(line.path) ?? []), line]);
      }
    }
    const beside = { what: 'folders of the bag beside its payload', why: 'The batch is the payload.' };
    for (const name of bag.folders) reading.received.folder(`../${name}`, 'unchecked', beside);
    for (const name of bag.files) accountFor(reading, bag.location, name, lists.tags.get(name) ?? []);
    if (manifests === 0) continue;
    const payload = payloadOf(reading, location, payloadFolder);
    comparePayload(reading, payload, lists.payload);
    compareOxum(reading, bag, payload);
  }
}

function tagText(reading: Reading, folder: string, name: string): string | null {
  const file = readFileBytes(`${folder}/${name}`);
  if (file.ok) return file.bytes.toString('utf8');
  reading.problems.push(
    problem('document-unreadable', `"${name}" of the bag cannot be read. ${file.says}`, { place: { document: `../${name}` } }),
  );
  return null;
}

function listedIn(reading: Reading, name: string, algorithm: string, text: string): readonly Listed[] {
  const list: Listed[] = [];
  text.split(/\r\n|\n|\r/).forEach((line, at) => {
    if (line.trim() === '') return;
    const match = line.length > 4000 ? null : LINE.exec(line);
    // Section 2.1.3 asks for the line ends and the per cent sign in a path to be encoded.
    const path = match?.[2]?.replace(/%(0A|0D|25)/gi, (code) => decodeURIComponent(code)) ?? '';
    const safe = match === null ? null : resolveHref('', path.replaceAll('%', '%25'));
    if (safe?.safe === true) list.push({ algorithm, digest: (match?.[1] ?? '').toLowerCase(), path: safe.path });
    else
      reading.problems.push(
        problem('manifest-disagrees', `Line ${String(at + 1)} of the bag's "${name}" is no digest with a path inside the bag.`, {
          field: 'file',
          returned: line.slice(0, 200),
          place: { document: `../${name}`, line: at + 1 },
        }),
      );
  });
  return list;
}

function accountFor(reading: Reading, folder: string, name: string, listed: readonly Listed[]): void {
  reading.received.file(`../${name}`, 'compared');
  for (const { algorithm, digest } of listed)
    reading.stated.push({
      path: `../${name}`,
      location: `${folder}/${name}`,
      algorithm: algorithmOf(algorithm),
      named: algorithm,
      digest,
      size: null,
    });
}

/** The files of the payload by the key of their path in the bag. A packed document counts under the name it has on disk. */
function payloadOf(reading: Reading, location: string, payloadFolder: string): ReadonlyMap<string, BatchFile> {
  const files = reading.index.files.filter((file) => file.location.startsWith(`${location}/`));
  return new Map(files.map((file) => [pathKey(`${payloadFolder}/${file.location.slice(location.length + 1)}`), file]));
}

function comparePayload(reading: Reading, payload: ReadonlyMap<string, BatchFile>, listed: ReadonlyMap<string, readonly Listed[]>): void {
  const missing: string[] = [];
  const known = new Set<string>();
  for (const [path, lines] of listed) {
    const file = payload.get(pathKey(path));
    known.add(pathKey(path));
    if (file === undefined) missing.push(path);
    else
      for (const { algorithm, digest } of lines)
        reading.stated.push({
          path: file.path,
          location: file.location,
          algorithm: algorithmOf(algorithm),
          named: algorithm,
          digest,
          size: null,
        });
  }
  const extra = [...payload].filter(([key]) => !known.has(key)).map(([, file]) => file);
  const named = (paths: readonly string[]): string =>
    `${paths
      .slice(0, MOST_NAMED)
      .map((path) => `"${path}"`)
      .join(', ')}${paths.length > MOST_NAMED ? ` and ${String(paths.length - MOST_NAMED)} more` : ''}`;
  if (missing.length > 0)
    reading.problems.push(
      problem(
        'file-missing',
        `The bag's manifest lists ${named(missing)}, but no such ${missing.length === 1 ? 'file was' : 'files were'} sent.`,
        {
          field: 'file',
          instruction: `Send ${named(missing)}, or take ${missing.length === 1 ? 'it' : 'them'} off the bag's manifest.`,
          returned: named(missing),
          place: { document: missing[0] ?? '' },
        },
      ),
    );
  if (extra.length > 0) {
    const paths = extra.map((file) => file.path);
    for (const path of paths) reading.received.file(path, 'found');
    reading.problems.push(
      problem(
        'file-not-listed',
        `${named(paths)} ${extra.length === 1 ? 'lies' : 'lie'} in the payload of the bag, but its manifest does not list ${extra.length === 1 ? 'it' : 'them'}.`,
        {
          field: 'file',
          instruction: `List ${named(paths)} in the bag's manifest, or take ${extra.length === 1 ? 'it' : 'them'} out of the bag.`,
          returned: named(paths),
          place: { document: paths[0] ?? '' },
        },
      ),
    );
  }
}

/** Payload-Oxum (section 2.2.2) is `bytes.files`; the files are counted, the bytes would need every file to be looked at and the digests tell as much. */
function compareOxum(
  reading: Reading,
  bag: { readonly location: string; readonly files: readonly string[] },
  payload: ReadonlyMap<string, BatchFile>,
): void {
  if (!bag.files.includes('bag-info.txt')) return;
  const text = tagText(reading, bag.location, 'bag-info.txt');
  const stated = /^Payload-Oxum[ \t]*:[ \t]*(\d{1,18})\.(\d{1,12})[ \t]*$/im.exec(text ?? '')?.[2];
  const hidden = reading.index.passedOver.length;
  if (stated === undefined || Number(stated) === payload.size || Number(stated) === payload.size + hidden) return;
  const says = `The bag says of itself (Payload-Oxum in "bag-info.txt") that it holds ${String(Number(stated))} files; ${String(payload.size + hidden)} came.`;
  reading.problems.push(
    problem('manifest-disagrees', says, {
      field: 'file',
      instruction: 'Send the bag again, whole.',
      returned: stated,
      place: { document: '../bag-info.txt' },
    }),
  );
}
