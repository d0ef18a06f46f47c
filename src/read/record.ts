import { createHash } from 'node:crypto';
import { readdir, stat } from 'node:fs/promises';
import { basename, join } from 'node:path';
import pLimit from 'p-limit';
import type { CollationRecord } from '../model/collation-record.js';
import type { WrittenRecord, WrittenSheet } from '../model/written-sheet.js';
import { readJsonFile } from './json.js';
import { UserMistake } from './mistake.js';
import { readRegularFile } from './regular-file.js';
import { readCsv } from './sheet-csv.js';

/** A frame sheet of a large reel is about 1 MB. */
const LARGEST_SHEET = 64 * 1024 * 1024;
const AT_ONCE = 4;

/** Reads a collation record: files, or folders whose `.csv` and `.json` files are taken in the order of their names. Throws UserMistake. */
export async function readRecord(paths: readonly string[]): Promise<WrittenRecord> {
  const files = (await Promise.all(paths.map(filesOf))).flat();
  // a folder may hold a sheet per reel: a few are read at once, and their order stays that of their names
  const limit = pLimit(AT_ONCE);
  const parts = await Promise.all(files.map((path) => limit(() => readPart(path))));
  return {
    sheets: parts.flatMap((part) => (part.sheet === null ? [] : [part.sheet])),
    records: parts.flatMap((part) => (part.record === null ? [] : [{ name: part.name, record: part.record }])),
    inputs: parts.map(({ name, sha256 }) => ({ role: 'collation', name, sha256 })),
  };
}

interface Part {
  readonly name: string;
  readonly sha256: string;
  readonly sheet: WrittenSheet | null;
  readonly record: CollationRecord | null;
}

async function readPart(path: string): Promise<Part> {
  const name = basename(path);
  if (/\.json$/i.test(name)) {
    const { value, sha256 } = await readJsonFile(path, 'collation-record');
    return { name, sha256, sheet: null, record: value };
  }
  const bytes = await readRegularFile(path, LARGEST_SHEET);
  return { name, sha256: createHash('sha256').update(bytes).digest('hex'), sheet: readCsv(bytes, name), record: null };
}

async function filesOf(path: string): Promise<string[]> {
  const found = await stat(path).catch(() => null);
  if (found?.isDirectory() !== true) return [path];
  const entries = await readdir(path, { withFileTypes: true });
  const files = entries
    .filter((entry) => entry.isFile() && /\.(csv|json)$/i.test(entry.name) && !entry.name.startsWith('.'))
    .map((entry) => join(path, entry.name))
    .sort((a, b) => (a < b ? -1 : a > b ? 1 : 0));
  if (files.length === 0) throw new UserMistake(`${path}: the folder holds no .csv or .json file; a collation record was expected there.`);
  return files;
}
