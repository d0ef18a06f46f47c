import { readdir, stat } from 'node:fs/promises';
import { dirname, join, resolve, sep } from 'node:path';
import type { ReadLine } from '../../dossier/journal.js';
import { DOSSIER_FILE, JOURNAL_FILE, type Layout, layoutOf } from '../../dossier/places.js';
import type { DossierFile } from '../../model/dossier.js';
import { parseJson, readJsonFile } from '../../read/json.js';
import { UserMistake } from '../../read/mistake.js';
import { readRegularFile } from '../../read/regular-file.js';

/** A dossier as it lies on disk. */
export interface OpenDossier {
  /** Its folder on this machine. */
  readonly root: string;
  readonly file: DossierFile;
  /** Paths of all its files from its folder, with `/`, in the order of their code units. */
  readonly names: readonly string[];
  readonly layout: Layout;
  readonly journal: readonly ReadLine[];
}

const LARGEST_JOURNAL = 64 * 1024 * 1024;

/** The folder of the dossier in which this folder lies, or null where none of the folders above it is one. */
export async function dossierAbove(folder: string): Promise<string | null> {
  for (let at = resolve(folder); ; at = dirname(at)) {
    const found = await stat(join(at, DOSSIER_FILE)).catch(() => null);
    if (found?.isFile() === true) return at;
    if (dirname(at) === at) return null;
  }
}

/** The folder of the dossier above this one. Throws UserMistake where there is none. */
export async function dossierHere(folder: string): Promise<string> {
  const root = await dossierAbove(folder);
  if (root !== null) return root;
  throw new UserMistake(
    `${folder} lies in no dossier: neither it nor a folder above it holds a ${DOSSIER_FILE}. Go into the folder of the order, or make one with "reeltally dossier new DIR".`,
  );
}

/** Opens the dossier in this folder. Throws UserMistake; for an audit, which tells by itself what was changed, a broken `dossier.json` is let pass. */
export async function openDossier(root: string, state: 'sound' | 'however it is' = 'sound'): Promise<OpenDossier> {
  const file = await readJsonFile(join(root, DOSSIER_FILE), 'dossier').then(
    ({ value }) => value,
    (error: unknown): DossierFile => {
      if (state === 'sound' || !(error instanceof UserMistake)) throw error;
      return { format: 'reeltally/dossier/1', order: '', at: '' };
    },
  );
  const names = await namesBelow(root);
  return { root, file, names, layout: layoutOf(names), journal: await readJournal(root, names) };
}

async function namesBelow(root: string): Promise<readonly string[]> {
  const entries = await readdir(root, { recursive: true, withFileTypes: true });
  return entries
    .filter((entry) => entry.isFile())
    .map((entry) => join(entry.parentPath, entry.name).slice(root.length).split(sep).filter(Boolean).join('/'))
    .toSorted((a, b) => (a < b ? -1 : a > b ? 1 : 0));
}

async function readJournal(root: string, names: readonly string[]): Promise<readonly ReadLine[]> {
  if (!names.includes(JOURNAL_FILE)) return [];
  const text = (await readRegularFile(join(root, JOURNAL_FILE), LARGEST_JOURNAL)).toString('utf8');
  const texts = text.split('\n');
  // What follows the last line break is a line that was cut off.
  if (texts.at(-1) === '') texts.pop();
  return texts.map((line, at): ReadLine => {
    const number = at + 1;
    try {
      return { number, text: line, line: parseJson(line, `${JOURNAL_FILE}, line ${String(number)}`, 'journal') };
    } catch (error) {
      if (error instanceof UserMistake) return { number, text: line, line: null };
      throw error;
    }
  });
}
