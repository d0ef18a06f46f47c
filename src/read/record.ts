import { createHash } from 'node:crypto';
import { readdir, stat } from 'node:fs/promises';
import { basename, join } from 'node:path';
import type { WrittenRecord, WrittenSheet } from '../model/written-sheet.js';
import { readJsonFile } from './json.js';
import { UserMistake } from './mistake.js';
import { readRegularFile } from './regular-file.js';
import { readCsv } from './sheet-csv.js';

/** A frame sheet of a large reel is about 1 MB. */
const LARGEST_SHEET = 64 * 1024 * 1024;

/** Reads a collation record: files, or folders whose `.csv` and `.json` files are taken in the order of their names. Throws UserMistake. */
export async function readRecord(paths: readonly string[]): Promise<WrittenRecord> {
  const files = (await Promise.all(paths.map(filesOf))).flat();
  const sheets: WrittenSheet[] = [];
  const records: { name: string; record: WrittenRecord['records'][number]['record'] }[] = [];
  const inputs: { role: string; name: string; sha256: string }[] = [];
  for (const path of files) {
    const name = basename(path);
    if (/\.json$/i.test(name)) {
      const { value, sha256 } = await readJsonFile(path, 'collation-record');
      records.push({ name, record: value });
      inputs.push({ role: 'collation', name, sha256 });
      continue;
    }
    const bytes = await readRegularFile(path, LARGEST_SHEET);
    sheets.push(readCsv(bytes, name));
    inputs.push({ role: 'collation', name, sha256: createHash('sha256').update(bytes).digest('hex') });
  }
  return { sheets, records, inputs };
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
