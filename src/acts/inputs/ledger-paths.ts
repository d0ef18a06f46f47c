import { readdir, stat } from 'node:fs/promises';
import { dirname, join, resolve } from 'node:path';
import { DOSSIER_FILE } from '../../dossier/places.js';
import { UserMistake } from '../../read/mistake.js';
import { readRegularFile } from '../../read/regular-file.js';
import { ledgerFilesIn } from '../dossier/ledger.js';

const LARGEST = 16 * 1024 * 1024;
/** What a ledger reads of a folder of results, in this order. */
const IN_FOLDER = ['findings.json', 'sample.json', 'decision.json', 'account.json'] as const;

/** The files that these paths stand for: a file itself, what counts of a dossier, the results in a folder. Throws UserMistake. */
export async function ledgerPaths(paths: readonly string[]): Promise<readonly string[]> {
  const files: string[] = [];
  for (const path of paths) {
    const found = await stat(path).catch(() => null);
    files.push(...(found?.isDirectory() === true ? await inFolder(path) : [path]));
  }
  return files;
}

async function inFolder(folder: string): Promise<readonly string[]> {
  const names = await readdir(folder);
  if (names.includes(DOSSIER_FILE)) return ledgerFilesIn(folder);
  const found = IN_FOLDER.filter((name) => names.includes(name)).map((name) => join(folder, name));
  if (found.length > 0) return found;
  throw new UserMistake(`${folder} is no dossier, and none of ${IN_FOLDER.join(', ')} lies in it.`);
}

/**
 * The paths of a list, a line each: files, dossiers or folders of results, as they lie from the folder of the list. Empty lines and those that begin with `#`
 * are passed over; a line of `batches.jsonl` stands for the folder that it names with `out`. Throws UserMistake.
 */
export async function listedPaths(list: string): Promise<readonly string[]> {
  const text = (await readRegularFile(list, LARGEST)).toString('utf8').replace(/^\ufeff/, '');
  const from = dirname(list);
  const paths = text.split(/\r?\n/).flatMap((line, at): readonly string[] => {
    const plain = line.trim();
    if (plain === '' || plain.startsWith('#')) return [];
    return [resolve(from, plain.startsWith('{') ? outOf(plain, `${list}, line ${String(at + 1)}`) : plain)];
  });
  if (paths.length === 0)
    throw new UserMistake(
      `${list}: no path stands in this list. Write one on each line: a saved result, a dossier or a folder of results.`,
    );
  return paths;
}

function outOf(line: string, where: string): string {
  let value: unknown;
  try {
    value = JSON.parse(line);
  } catch {
    throw new UserMistake(`${where}: this is neither a path nor a line of a list of batches.`);
  }
  const out: unknown = typeof value === 'object' && value !== null ? Reflect.get(value, 'out') : undefined;
  if (typeof out !== 'string') throw new UserMistake(`${where}: "out" is wanting, which names the folder of the results.`);
  return out;
}
