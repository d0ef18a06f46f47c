import { createHash, type Hash } from 'node:crypto';
import { lstatSync, readdirSync, type Stats, statSync } from 'node:fs';
import { readFile } from 'node:fs/promises';
import { basename, join } from 'node:path';
import type { Findings } from '../../model/findings.js';
import { readJsonFile } from '../../read/json.js';
import { recordFiles } from '../../read/record.js';
import { readRegularFile } from '../../read/regular-file.js';
import { SEEN_FILE } from '../outputs/seen-file.js';
import { programVersion } from '../program-version.js';
import type { VerificationFiles } from '../verify.js';

/** What a verification has before it, each kind by one digest: two that are the same in all have nothing new to say. */
export interface Seen {
  readonly program: string;
  readonly wish: string;
  /** Names, sizes and times of all files of the batch and of what it is held against. */
  readonly files: string;
  /** The bytes of the documents and of what they are held against. */
  readonly documents: string;
}

/** What is told of a result beside it; `findings` is the SHA-256 of the saved result that it goes with. */
interface SeenFile extends Seen {
  readonly findings: string;
}

const DOCUMENT = /\.xml(?:\.gz)?$/i;
const LARGEST = 256 * 1024 * 1024;

/** Looks at everything that a verification would read. Throws UserMistake where a file that is named cannot be read. */
export async function seenNow(files: VerificationFiles, formats: readonly string[]): Promise<Seen> {
  const {
    batch,
    collation,
    profile,
    agreement,
    earlier,
    sent,
    rulings = [],
    answers = [],
    other = [],
    lateRulings = [],
    lateAnswers = [],
    ...wish
  } = files;
  const named = [...(await recordFiles(collation)), ...rulings, ...answers, ...other, ...lateRulings, ...lateAnswers];
  for (const path of [agreement, earlier, sent]) if (path !== undefined) named.push(path);
  // A built-in profile is a name and no file.
  if (profile !== undefined && (statOf(profile)?.isFile() ?? false)) named.push(profile);
  const listing = createHash('sha256');
  const documents = createHash('sha256');
  for (const path of named) {
    listing.update(lineOf(basename(path), path));
    documents.update(`${basename(path)}\n`).update(
      createHash('sha256')
        .update(await readRegularFile(path, LARGEST))
        .digest(),
    );
  }
  for (const folder of batch) await walked(folder, '', listing, documents);
  return {
    program: programVersion(),
    wish: createHash('sha256')
      .update(JSON.stringify({ ...wish, profile, formats }))
      .digest('hex'),
    files: listing.digest('hex'),
    documents: documents.digest('hex'),
  };
}

/** The result in a folder where it is the one of these files and of this program; null where anything changed, the result itself included. */
export async function resultOf(folder: string, seen: Seen): Promise<Findings | null> {
  const before = await seenFile(folder);
  if (before === null) return null;
  const same = (['program', 'wish', 'files', 'documents'] as const).every((key) => before[key] === seen[key]);
  if (!same) return null;
  const { value, sha256 } = await readJsonFile(join(folder, 'findings.json'), 'findings').catch(() => ({ value: null, sha256: '' }));
  return sha256 === before.findings ? value : null;
}

/** The file that tells what was seen, to lie beside the saved result with this content. */
export function seenText(seen: Seen, findings: string | Uint8Array): string {
  const file: SeenFile = { ...seen, findings: createHash('sha256').update(findings).digest('hex') };
  return `${JSON.stringify(file, null, 2)}\n`;
}

async function seenFile(folder: string): Promise<SeenFile | null> {
  try {
    const value: unknown = JSON.parse((await readRegularFile(join(folder, SEEN_FILE), 100_000)).toString('utf8'));
    return typeof value === 'object' && value !== null ? (value as SeenFile) : null;
  } catch {
    return null;
  }
}

/** Every entry below a folder by name, size and time, in the order of names by code unit; links are not followed. */
async function walked(folder: string, below: string, listing: Hash, documents: Hash): Promise<void> {
  const entries = readdirSync(join(folder, below), { withFileTypes: true }).toSorted((a, b) => (a.name < b.name ? -1 : 1));
  for (const entry of entries) {
    const path = below === '' ? entry.name : `${below}/${entry.name}`;
    if (entry.isDirectory()) {
      await walked(folder, path, listing, documents);
      continue;
    }
    const line = lineOf(path, join(folder, path));
    listing.update(line);
    if (!entry.isFile() || !DOCUMENT.test(entry.name)) continue;
    const digest = await readFile(join(folder, path)).then(
      (bytes) => createHash('sha256').update(bytes).digest('hex'),
      () => 'unread',
    );
    documents.update(`${path}\n${digest}\n`);
  }
}

function lineOf(name: string, path: string): string {
  const found = statOf(path);
  return `${name}\0${found === null ? 'gone' : `${String(found.size)}\0${String(found.mtimeMs)}\0${String(found.mode)}`}\n`;
}

function statOf(path: string): Stats | null {
  try {
    const found = lstatSync(path);
    return found.isSymbolicLink() ? statSync(path) : found;
  } catch {
    return null;
  }
}
