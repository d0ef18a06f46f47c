import { lstatSync } from 'node:fs';
import { resolve } from 'node:path';
import { readFirstBytes, systemReason } from './file-bytes.js';
import { type Entry, readFolder } from './folder-entries.js';

/** Where a batch begins on this machine and what its folders call it. */
export interface BatchRoot {
  readonly location: string;
  readonly name: string;
  /** Of a bag (RFC 8493): the folder above the payload, and what the payload's is called there; null where the batch is no bag. */
  readonly bag: { readonly location: string; readonly payload: string } | null;
}

/** The folder of the payload in a bag and in published batches. It names no batch. */
export const PAYLOAD = /^data$/i;
/** Names of batch folders: `batch_...` of the US programme, `B...-RT1` (roundtrip) of the Danish one, and whatever ends in the count of a version. */
export const BATCH_NAME = /^(?:batch_.+|b\d.*-rt\d{1,3}|.+[_-]ver\d{1,3})$/i;
/** The end of a name that counts deliveries of one batch. */
export const DELIVERY = /(?:_ver|-ver|-rt)\d{1,3}$/i;
const ARCHIVE_NAME = /\.(?:zip|7z|rar|tar|tgz|tbz2?|txz|(?:tar\.)?(?:gz|bz2|xz|zst))$/i;
/** How archives begin: zip, 7z, rar, gzip, xz, zstd, bzip2. */
const ARCHIVE_MARKS = ['504b0304', '504b0506', '377abcaf271c', '526172211a07', '1f8b', 'fd377a585a00', '28b52ffd', '425a68'];
/** Wrappers that are gone through: a vendor packs the folder of the batch into a folder of the order. */
const MOST_WRAPPERS = 3;

/** The folder in which the batch begins: below a wrapper that holds only the batch folder, and below the `data` folder of a bag. Or the sentence that says why it cannot be told. */
export function batchRoot(folder: string): BatchRoot | { readonly refused: string } {
  let location = folder.replace(/(?<=.)\/+$/, '');
  let bag: BatchRoot['bag'] = null;
  try {
    const stat = lstatSync(location);
    if (stat.isFile()) return { refused: notAFolder(location) };
    if (!lstatSync(`${location}/`).isDirectory()) return { refused: `The batch "${folder}" is not a folder.` };
    for (let level = 0; ; level += 1) {
      const entries = readFolder(location).filter((entry) => !entry.name.startsWith('.'));
      const several = severalBatches(location, entries);
      if (several !== null) return { refused: several };
      const packed = entries.length === 1 && entries[0]?.kind === 'file' && ARCHIVE_NAME.test(entries[0].name) ? entries[0].name : null;
      if (packed !== null)
        return {
          refused: `The batch "${folder}" holds nothing but the archive "${packed}". Unpack it and give the folder that comes out of it.`,
        };
      if (level === MOST_WRAPPERS) break;
      const only = entries.length === 1 ? entries[0] : undefined;
      if (isBag(entries)) {
        bag = { location, payload: entries.find((entry) => PAYLOAD.test(entry.name) && entry.kind === 'folder')?.name ?? 'data' };
        location = `${location}/${bag.payload}`;
      } else if (only?.kind === 'folder' && (BATCH_NAME.test(only.name) || PAYLOAD.test(only.name))) location = `${location}/${only.name}`;
      else break;
    }
    return { location, name: nameOf(location), bag };
  } catch (error) {
    return { refused: `The batch folder "${folder}" cannot be read: ${systemReason(error)}.` };
  }
}

/** Whether a folder of these entries is a bag (RFC 8493). */
export function isBag(entries: readonly Entry[]): boolean {
  return (
    entries.some((entry) => entry.name === 'bagit.txt') && entries.some((entry) => PAYLOAD.test(entry.name) && entry.kind === 'folder')
  );
}

/** The last folder of a path that can name a batch: `data` cannot. */
function nameOf(location: string): string {
  const parts = resolve(location)
    .split(/[/\\]/)
    .filter((part) => part !== '');
  return parts.findLast((part) => !PAYLOAD.test(part)) ?? parts.at(-1) ?? '';
}

function notAFolder(path: string): string {
  const start = readFirstBytes(path, 262);
  const mark = start?.subarray(0, 8).toString('hex') ?? '';
  // POSIX pax(1): a tar archive has "ustar" at byte 257 of its first header.
  const isTar = start?.subarray(257, 262).toString('latin1') === 'ustar';
  const isArchive = ARCHIVE_NAME.test(path) || isTar || ARCHIVE_MARKS.some((known) => mark.startsWith(known));
  return isArchive
    ? `The batch "${path}" is an archive and not a folder. Unpack it and give the folder that comes out of it.`
    : `The batch "${path}" is not a folder.`;
}

/** The sentence that names two batches, or two deliveries of one, that lie side by side in a folder; null where there is one at most. */
function severalBatches(location: string, entries: readonly Entry[]): string | null {
  const batches = entries
    .filter((entry) => entry.kind === 'folder' && entry.isUtf8 && isBatchFolder(location, entry.name))
    .map(({ name }) => name);
  if (batches.length < 2) return null;
  const stem = (name: string): string => name.replace(DELIVERY, '').toLowerCase();
  const twice = batches.flatMap((name, at) => {
    const later = batches.slice(at + 1).find((other) => DELIVERY.test(name) && DELIVERY.test(other) && stem(other) === stem(name));
    return later === undefined ? [] : [[name, later]];
  })[0];
  const [first = '', second = ''] = twice ?? batches;
  const what = twice === undefined ? 'several batches' : 'several deliveries of one batch';
  const more = batches.length > 2 ? ` (${String(batches.length)} such folders in all)` : '';
  return `The folder "${location}" holds ${what}: "${first}" and "${second}"${more}. Verify one at a time: --batch ${location}/${second}`;
}

function isBatchFolder(location: string, name: string): boolean {
  if (BATCH_NAME.test(name)) return true;
  try {
    return isBag(readFolder(`${location}/${name}`));
  } catch {
    return false;
  }
}
