import { createHash } from 'node:crypto';
import { readdir, stat } from 'node:fs/promises';
import { basename, dirname, join, resolve } from 'node:path';
import pLimit from 'p-limit';
import type { CollationRecord } from '../model/collation-record.js';
import type { WrittenRecord, WrittenSheet } from '../model/written-sheet.js';
import { systemReason } from './file-bytes.js';
import { readJsonFile } from './json.js';
import { UserMistake } from './mistake.js';
import { readRegularFile } from './regular-file.js';
import { readSheets } from './sheets.js';

/** A frame sheet of a large reel is about 1 MB. */
const LARGEST_SHEET = 64 * 1024 * 1024;
const AT_ONCE = 4;
const SHEET = /\.(csv|tsv|txt)$/i;
const RECORD_FILE = /\.(csv|tsv|json|xlsx|xlsm)$/i;
/** Spreadsheet programs put such a file beside a workbook while it is open. */
const LOCK_FILE = /^~\$/;
/** Sheets about titles and reels that stand beside a sheet of frames or issues. */
const BESIDE = /^(titles|reels)\.(csv|tsv)$/i;

/**
 * Reads a collation record: files, or folders whose `.csv`, `.tsv`, `.xlsx` and `.json` files are taken in the order of their names. Beside a
 * CSV file that is named alone its `titles.csv` and `reels.csv` are read too; a workbook has its own. Throws UserMistake.
 */
export async function readRecord(paths: readonly string[]): Promise<WrittenRecord> {
  const named = (await Promise.all(paths.map(filesOf))).flat();
  const beside = (await Promise.all(named.map(filesBeside))).flat();
  // Each file once, however it is named.
  const known = new Set<string>();
  const files = [...named, ...beside].filter((path) => !known.has(resolve(path)) && known.add(resolve(path)));
  // A folder may hold a sheet per reel: a few are read at once, and their order stays that of their names.
  const limit = pLimit(AT_ONCE);
  const parts = await Promise.all(files.map((path) => limit(() => readPart(path))));
  return {
    sheets: parts.flatMap((part) => part.sheets),
    records: parts.flatMap((part) => (part.record === null ? [] : [{ name: part.name, record: part.record }])),
    inputs: parts.map(({ name, sha256 }) => ({ role: 'collation', name, sha256 })),
  };
}

interface Part {
  readonly name: string;
  readonly sha256: string;
  readonly sheets: readonly WrittenSheet[];
  readonly record: CollationRecord | null;
}

async function readPart(path: string): Promise<Part> {
  const name = basename(path);
  if (/\.json$/i.test(name)) {
    const { value, sha256 } = await readJsonFile(path, 'collation-record');
    return { name, sha256, sheets: [], record: value };
  }
  const bytes = await readRegularFile(path, LARGEST_SHEET);
  const sheets = await readSheets(bytes, name);
  return { name, sha256: createHash('sha256').update(bytes).digest('hex'), sheets, record: null };
}

async function filesOf(path: string): Promise<readonly string[]> {
  const found = await stat(path).catch(() => null);
  if (found?.isDirectory() !== true) return [path];
  const files = await filesIn(path, RECORD_FILE);
  if (files.length === 0)
    throw new UserMistake(`${path}: the folder holds no .csv, .tsv, .xlsx or .json file; a collation record was expected there.`);
  return files;
}

async function filesBeside(path: string): Promise<readonly string[]> {
  if (!SHEET.test(path)) return [];
  const found = await stat(path).catch(() => null);
  return found === null ? [] : filesIn(dirname(path), BESIDE);
}

/** Files of a folder with such a name, in the order of their names by code unit. */
async function filesIn(folder: string, name: RegExp): Promise<readonly string[]> {
  const entries = await readdir(folder, { withFileTypes: true }).catch((error: unknown) => {
    throw new UserMistake(`${folder}: the folder cannot be read: ${systemReason(error)}.`);
  });
  return entries
    .filter((entry) => entry.isFile() && name.test(entry.name) && !entry.name.startsWith('.') && !LOCK_FILE.test(entry.name))
    .map((entry) => join(folder, entry.name))
    .sort((a, b) => (a < b ? -1 : a > b ? 1 : 0));
}
