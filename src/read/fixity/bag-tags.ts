import { readFileBytes } from '../file-bytes.js';
import { resolveHref } from '../href.js';
import { problem, type Reading } from '../reading.js';
import { type BatchFile, type BesidePayload, lastPart } from '../walk.js';

const MANIFEST = /^\.\.\/(tag)?manifest-([a-z0-9-]{1,20})\.txt$/i;
/** RFC 8493, section 2.1.3: a digest, white space, a path; `*` stands before the path in lists of older programs. */
const LINE = /^([0-9a-fA-F]{1,200})[ \t]+\*?(.+)$/;
/** RFC 8493, section 2.2.3: an address, a length or `-`, a path. */
const FETCH_LINE = /^\S{1,2000}[ \t]+(?:\d{1,18}|-)[ \t]+(.+)$/;

/** What one line of a bag's manifest says. */
export interface Listed {
  readonly algorithm: string;
  readonly digest: string;
  /** Relative to the bag. */
  readonly path: string;
}

/** Names of files that a bag brings by its own right (RFC 8493, section 2). */
export function isBagFile(path: string): boolean {
  return MANIFEST.test(path) || /^\.\.\/(?:bagit|bag-info|fetch)\.txt$/i.test(path);
}

/** Whether a file of a bag can be opened: a link is not followed, a pipe not waited for. */
export function isReadable({ kind }: BatchFile): boolean {
  return kind === 'file';
}

/** What the manifests of the payload list by path, and how many of them could be read. */
export function payloadLists(
  reading: Reading,
  beside: BesidePayload,
): { readonly listed: ReadonlyMap<string, readonly Listed[]>; readonly manifests: number } {
  return lists(reading, beside, false);
}

/** What the manifests of the bag's own files list by path. */
export function tagLists(reading: Reading, beside: BesidePayload): ReadonlyMap<string, readonly Listed[]> {
  return lists(reading, beside, true).listed;
}

function lists(
  reading: Reading,
  beside: BesidePayload,
  ofTags: boolean,
): { readonly listed: ReadonlyMap<string, readonly Listed[]>; readonly manifests: number } {
  const listed = new Map<string, Listed[]>();
  let manifests = 0;
  for (const file of beside.files) {
    const match = MANIFEST.exec(file.path);
    if (match === null || (match[1] !== undefined) !== ofTags) continue;
    const text = tagText(file);
    if (text === null) continue;
    manifests += 1;
    for (const line of linesOf(reading, file, match[2] ?? '', text)) {
      const known = listed.get(line.path);
      if (known === undefined) listed.set(line.path, [line]);
      else known.push(line);
    }
  }
  return { listed, manifests };
}

/** The paths that a bag leaves to be fetched from elsewhere; nothing is fetched. */
export function readFetch(reading: Reading, beside: BesidePayload): ReadonlySet<string> {
  const file = beside.files.find(({ path }) => /^\.\.\/fetch\.txt$/i.test(path));
  const text = file === undefined ? null : tagText(file);
  const paths = new Set<string>();
  if (file === undefined || text === null) return paths;
  textLines(text).forEach(({ line, at }) => {
    const path = insideBag(line.length > 4000 ? null : (FETCH_LINE.exec(line)?.[1] ?? null));
    if (path === null) noteLine(reading, file, line, at, 'an address with a path inside the bag');
    else paths.add(path);
  });
  return paths;
}

/** What the bag says of its payload in `bag-info.txt`: bytes and number of files (RFC 8493, section 2.2.2); null where it says nothing. */
export function statedOxum(beside: BesidePayload): { readonly bytes: number; readonly files: number } | null {
  const file = beside.files.find(({ path }) => /^\.\.\/bag-info\.txt$/i.test(path));
  const text = file === undefined ? null : tagText(file);
  const match = /^Payload-Oxum[ \t]*:[ \t]*(\d{1,15})\.(\d{1,12})[ \t]*$/im.exec(text ?? '');
  return match === null ? null : { bytes: Number(match[1]), files: Number(match[2]) };
}

/** The text of one of the bag's own files; null where it cannot be read, which is told when the files are accounted for. */
function tagText(file: BatchFile): string | null {
  const read = isReadable(file) ? readFileBytes(file.location) : null;
  return read?.ok === true ? read.bytes.toString('utf8') : null;
}

function textLines(text: string): readonly { readonly line: string; readonly at: number }[] {
  return text.split(/\r\n|\n|\r/).flatMap((line, at) => (line.trim() === '' ? [] : [{ line, at: at + 1 }]));
}

function linesOf(reading: Reading, file: BatchFile, algorithm: string, text: string): readonly Listed[] {
  const list: Listed[] = [];
  for (const { line, at } of textLines(text)) {
    const match = line.length > 4000 ? null : LINE.exec(line);
    const path = insideBag(match?.[2] ?? null);
    if (path === null) noteLine(reading, file, line, at, 'a digest with a path inside the bag');
    else list.push({ algorithm, digest: (match?.[1] ?? '').toLowerCase(), path });
  }
  return list;
}

/** Section 2.1.3 asks for the line ends and the per cent sign in a path to be encoded. Null for a path that leads out of the bag. */
function insideBag(written: string | null): string | null {
  if (written === null) return null;
  const path = written.replace(/%(0A|0D|25)/gi, (code) => decodeURIComponent(code));
  const resolved = resolveHref('', path.replaceAll('%', '%25'));
  return resolved.safe ? resolved.path : null;
}

function noteLine(reading: Reading, file: BatchFile, line: string, at: number, wanted: string): void {
  const says = `Line ${String(at)} of the bag's "${lastPart(file.path)}" is not ${wanted}.`;
  const place = { document: file.path, line: at };
  reading.problems.push(problem('manifest-disagrees', says, { field: 'file', returned: line.slice(0, 200), place }));
}
