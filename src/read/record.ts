import { createHash } from 'node:crypto';
import { readdir, stat } from 'node:fs/promises';
import { basename, dirname, join, resolve } from 'node:path';
import pLimit from 'p-limit';
import type { CollationRecord } from '../model/collation-record.js';
import type { ReadingFile } from '../model/reading.js';
import type { Workbook, WrittenGrid } from '../model/written-grid.js';
import type { WrittenRecord } from '../model/written-sheet.js';
import { MOST_ROWS } from './budgets.js';
import { systemReason } from './file-bytes.js';
import { readJsonFile } from './json.js';
import { UserMistake } from './mistake.js';
import { readRegularFile } from './regular-file.js';
import { readBook } from './sheets.js';

/** A frame sheet of a large reel is about 1 MB. */
const LARGEST_SHEET = 64 * 1024 * 1024;
const AT_ONCE = 4;
const SHEET = /\.(csv|tsv|txt)$/i;
const RECORD_FILE = /\.(csv|tsv|json|xlsx|xlsm|ods)$/i;
/** Files that stand beside a record and say how it is meant. */
const ABOUT = /\.(reading\.json|explained\.csv)$/i;
/** Spreadsheet programs put such a file beside a workbook while it is open. */
const LOCK_FILE = /^(~\$|\.~lock)/;
/** Sheets about titles and reels that stand beside a sheet of frames or issues: by these names alone, or behind the name of that sheet. */
const BESIDE = /^(?:(.*)-)?(titles|reels)\.(csv|tsv)$/i;
/** The reading file of all sheets of a folder that have none of their own. */
const COMMON_READING = 'record.reading.json';

/**
 * Reads a collation record: files, or folders whose `.csv`, `.tsv`, `.xlsx`, `.ods` and `.json` files are taken in the order of their names. Beside a
 * CSV file that is named alone its `titles.csv` and `reels.csv` (or `NAME-titles.csv`) are read too; a workbook has its own. Beside each lies its reading file, where it has one. Throws UserMistake.
 */
export async function readRecord(
  paths: readonly string[],
  options: { readonly withReadings: boolean } = { withReadings: true },
): Promise<WrittenRecord> {
  const files = await sheetsOf(paths);
  // A folder may hold a sheet per reel: a few are read at once, and their order stays that of their names.
  const limit = pLimit(AT_ONCE);
  const parts = await Promise.all(files.map((path) => limit(() => readPart(path))));
  const readings = new Map<string, Reading>();
  if (options.withReadings)
    for (const part of parts) {
      const path = part.book === null ? null : await readingBeside(part.path);
      if (path !== null && !readings.has(path)) readings.set(path, await readReading(path));
    }
  const places = [...readings.keys()];
  const grids = await Promise.all(
    parts.map(async ({ path, name, book }): Promise<readonly WrittenGrid[]> => {
      if (book === null) return [];
      const at = places.indexOf((await readingBeside(path)) ?? '');
      const { sheets, date1904, program } = book;
      return sheets
        .filter(({ rows }) => rows.length > 0)
        .map((sheet) => ({ file: name, sheet, book: { date1904, program }, reading: at < 0 ? null : at }));
    }),
  );
  for (const { name, book } of parts)
    if (book?.sheets.every(({ rows }) => rows.length === 0) === true)
      throw new UserMistake(`${name}: nothing stands in the file; a sheet with column names and rows was expected.`);
  return {
    grids: grids.flat(),
    readings: [...readings.values()].map(({ name, reading }) => ({ name, reading })),
    remarks: parts.flatMap(({ name, book }) => (book?.remarks ?? []).map((says) => `${name}: ${says}`)),
    records: parts.flatMap((part) => (part.record === null ? [] : [{ name: part.name, record: part.record }])),
    inputs: [
      ...parts.map(({ name, sha256 }) => ({ role: 'collation', name, sha256 })),
      ...[...readings.values()].map(({ name, sha256 }) => ({ role: 'reading', name, sha256 })),
    ],
  };
}

/** Every file that a record in these files or folders is read from: sheets, titles and reels beside them, their reading files, and what is explained. Throws UserMistake. */
export async function recordFiles(paths: readonly string[]): Promise<readonly string[]> {
  const sheets = await sheetsOf(paths);
  const about = new Set<string>();
  for (const path of sheets) {
    const reading = await readingBeside(path);
    if (reading !== null) about.add(reading);
    const explained = path.replace(/\.[^./\\]*$/, '.explained.csv');
    if ((await stat(explained).catch(() => null))?.isFile() === true) about.add(explained);
  }
  return [...sheets, ...about];
}

/** The sheets that are named or lie in a folder, and those beside them; each file once, however it is named. */
async function sheetsOf(paths: readonly string[]): Promise<readonly string[]> {
  const named = (await Promise.all(paths.map(filesOf))).flat();
  const beside = (await Promise.all(named.map(filesBeside))).flat();
  const known = new Set<string>();
  return [...named, ...beside].filter((path) => !known.has(resolve(path)) && known.add(resolve(path)));
}

/** Where the reading file of these sheets lies or is to lie: beside the only file, else in the folder of the first one. */
export async function readingPath(paths: readonly string[]): Promise<string> {
  const files = (await Promise.all(paths.map(filesOf))).flat();
  const [first] = files;
  if (first !== undefined && files.length === 1 && paths[0] === first) return ownReading(first);
  return join(dirname(first ?? '.'), COMMON_READING);
}

interface Part {
  readonly path: string;
  readonly name: string;
  readonly sha256: string;
  readonly book: Workbook | null;
  readonly record: CollationRecord | null;
}

interface Reading {
  readonly name: string;
  readonly sha256: string;
  readonly reading: ReadingFile;
}

async function readPart(path: string): Promise<Part> {
  const name = basename(path);
  if (/\.json$/i.test(name)) {
    const { value, sha256 } = await readJsonFile(path, 'collation-record');
    const frames = value.reels.reduce((sum, reel) => sum + reel.frames.length, 0);
    if (frames > MOST_ROWS)
      throw new UserMistake(
        `${name}: the record has ${String(frames)} frames; at most ${String(MOST_ROWS)} are read. Give the reels of one order, each order by itself.`,
      );
    return { path, name, sha256, book: null, record: value };
  }
  const bytes = await readRegularFile(path, LARGEST_SHEET);
  const book = await readBook(bytes, name);
  return { path, name, sha256: createHash('sha256').update(bytes).digest('hex'), book, record: null };
}

function ownReading(path: string): string {
  return path.replace(/\.[^./\\]*$/, '.reading.json');
}

async function readingBeside(path: string): Promise<string | null> {
  for (const one of [ownReading(path), join(dirname(path), COMMON_READING)]) {
    const found = await stat(one).catch(() => null);
    if (found?.isFile() === true) return one;
  }
  return null;
}

async function readReading(path: string): Promise<Reading> {
  const { value, sha256 } = await readJsonFile(path, 'reading');
  return { name: basename(path), sha256, reading: value };
}

async function filesOf(path: string): Promise<readonly string[]> {
  const found = await stat(path).catch(() => null);
  if (found?.isDirectory() !== true) return [path];
  const files = await filesIn(path, RECORD_FILE);
  if (files.length === 0)
    throw new UserMistake(`${path}: the folder holds no .csv, .tsv, .xlsx, .ods or .json file; a collation record was expected there.`);
  return files;
}

async function filesBeside(path: string): Promise<readonly string[]> {
  if (!SHEET.test(path)) return [];
  const found = await stat(path).catch(() => null);
  if (found === null) return [];
  // `record-titles.csv` belongs to `record.csv` and, where a spreadsheet program saved each sheet, to `record-issues.csv`.
  const stem = basename(path).replace(SHEET, '');
  const own = new Set(['', stem, stem.replace(/-(issues|frames)$/i, '')]);
  return (await filesIn(dirname(path), BESIDE)).filter((name) => own.has(BESIDE.exec(basename(name))?.[1] ?? ''));
}

/** Files of a folder with such a name, in the order of their names by code unit. */
async function filesIn(folder: string, name: RegExp): Promise<readonly string[]> {
  const entries = await readdir(folder, { withFileTypes: true }).catch((error: unknown) => {
    throw new UserMistake(`${folder}: the folder cannot be read: ${systemReason(error)}.`);
  });
  return entries
    .filter(
      (entry) =>
        entry.isFile() && name.test(entry.name) && !entry.name.startsWith('.') && !LOCK_FILE.test(entry.name) && !ABOUT.test(entry.name),
    )
    .map((entry) => join(folder, entry.name))
    .sort((a, b) => (a < b ? -1 : a > b ? 1 : 0));
}
