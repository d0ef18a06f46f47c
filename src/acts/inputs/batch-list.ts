import { readdir, stat } from 'node:fs/promises';
import { basename, dirname, isAbsolute, join, resolve } from 'node:path';
import { NAMED_PROFILES } from '../../profiles/index.js';
import { UserMistake } from '../../read/mistake.js';
import { readRegularFile } from '../../read/regular-file.js';
import type { VerificationFiles } from '../verify.js';

/** One verification of many. */
export interface BatchJob {
  readonly files: VerificationFiles;
  /** The folder of its result, as it was written. */
  readonly out: string;
  /** Where it lies from here. */
  readonly folder: string;
}

/** What is said for all batches; a line of the list goes before. */
export interface ForAll extends Partial<Omit<VerificationFiles, 'batch'>> {
  readonly out?: string;
}

const LARGEST = 16 * 1024 * 1024;
const LIST_FILE = 'batches.jsonl';
/** Fields that hold paths, one or several. */
const LISTS = ['collation', 'batch', 'rulings', 'answers', 'other'] as const;
const PATHS = ['agreement', 'profile', 'earlier', 'sent'] as const;
const TEXTS = ['delivery', 'received', 'out'] as const;
const FIELDS: ReadonlySet<string> = new Set([...LISTS, ...PATHS, ...TEXTS]);

/**
 * The verifications that a list names: a text file with one JSON object on each line, a folder that holds such a file as `batches.jsonl`, or a folder whose
 * folders are the batches. Paths are from the folder of the list. Throws UserMistake.
 */
export async function batchJobs(path: string, all: ForAll): Promise<readonly BatchJob[]> {
  const found = await stat(path).catch(() => null);
  const isFolder = found?.isDirectory() === true;
  const names = isFolder ? await readdir(path, { withFileTypes: true }) : [];
  const list = isFolder ? join(path, LIST_FILE) : path;
  const isListed = !isFolder || names.some(({ name }) => name === LIST_FILE);
  const jobs = isListed
    ? await listedJobs(list, all)
    : names
        .filter((entry) => entry.isDirectory() && !entry.name.startsWith('.'))
        .map(({ name }) => name)
        .toSorted((a, b) => (a < b ? -1 : 1))
        .map((name) => job({ batch: [join(path, name)] }, all, join(path, name)));
  if (jobs.length === 0)
    throw new UserMistake(`${path}: no batch is named there. Write a line for each into a list ("reeltally help batches").`);
  const known = new Map<string, string>();
  for (const { folder, out } of jobs) {
    if (known.has(resolve(folder)))
      throw new UserMistake(`${path}: two batches have the folder ${out} for their results; give each its own "out".`);
    known.set(resolve(folder), out);
  }
  return jobs;
}

async function listedJobs(list: string, all: ForAll): Promise<readonly BatchJob[]> {
  const text = (await readRegularFile(list, LARGEST)).toString('utf8').replace(/^\ufeff/, '');
  return text.split(/\r?\n/).flatMap((line, at): readonly BatchJob[] => {
    const plain = line.trim();
    if (plain === '' || plain.startsWith('#')) return [];
    const where = `${list}, line ${String(at + 1)}`;
    return [job(lineOf(plain, where, dirname(list)), all, where)];
  });
}

type Line = Partial<VerificationFiles> & { readonly out?: string; readonly folder?: string };

function job({ out: ownOut, folder: ownFolder, ...own }: Line, { out: allOut, ...common }: ForAll, where: string): BatchJob {
  const { batch, collation = common.collation } = own;
  const [first] = batch ?? [];
  if (batch === undefined || first === undefined) throw new UserMistake(`${where}: "batch" is wanting, which names the folder that came.`);
  if (collation === undefined)
    throw new UserMistake(`${where}: "collation" is wanting, which names the record; give it there, or for all batches with --collation.`);
  const place = allOut === undefined ? null : join(allOut, basename(resolve(first)));
  const out = ownOut ?? place;
  const folder = ownFolder ?? place;
  if (out === null || folder === null)
    throw new UserMistake(
      `${where}: "out" is wanting, which names the folder of its results; give it there, or one for all batches with --out.`,
    );
  return { files: { ...common, ...own, batch, collation }, out, folder };
}

function lineOf(text: string, where: string, from: string): Line {
  let value: unknown;
  try {
    value = JSON.parse(text);
  } catch {
    throw new UserMistake(
      `${where}: this is not JSON. A line names one batch, such as {"collation": "reel-12.csv", "batch": "batch_12", "out": "results/12"}.`,
    );
  }
  if (typeof value !== 'object' || value === null || Array.isArray(value))
    throw new UserMistake(`${where}: a line must be a group of fields in braces.`);
  const fields = new Map<string, unknown>(Object.entries(value));
  const strange = [...fields.keys()].find((name) => !FIELDS.has(name));
  if (strange !== undefined)
    throw new UserMistake(`${where}: there is no field ${JSON.stringify(strange)}; the fields are ${[...FIELDS].join(', ')}.`);
  const place = (path: string): string => (isAbsolute(path) ? path : join(from, path));
  const line: Record<string, unknown> = {};
  for (const name of LISTS) {
    const given = fields.get(name);
    if (given === undefined) continue;
    const list: readonly unknown[] = Array.isArray(given) ? given : [given];
    line[name] = list.map((one) => place(textOf(one, name, where)));
  }
  for (const name of [...PATHS, ...TEXTS]) {
    const given = fields.get(name);
    if (given === undefined) continue;
    const text = textOf(typeof given === 'number' && name === 'delivery' ? String(given) : given, name, where);
    const isPath = (PATHS as readonly string[]).includes(name) && !NAMED_PROFILES.some((profile) => profile.name === text);
    line[name] = isPath ? place(text) : text;
    if (name === 'out') line['folder'] = place(text);
  }
  return line;
}

function textOf(value: unknown, name: string, where: string): string {
  if (typeof value === 'string' && value !== '') return value;
  throw new UserMistake(`${where}: "${name}" must be text in double quotes.`);
}
