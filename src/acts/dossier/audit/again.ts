import { readFile } from 'node:fs/promises';
import { join } from 'node:path';
import { newest } from '../../../dossier/journal.js';
import { UserMistake } from '../../../read/mistake.js';
import type { ResultFile } from '../../outputs/results-folder.js';
import { programVersion } from '../../program-version.js';
import { digestOf } from '../digest.js';
import type { OpenDossier } from '../open.js';
import { nameIn } from '../write.js';
import { broken, type Looked, remark, together } from './outcome.js';

/** Files that are made again from what they were made from. */
export interface Link {
  /** The folder of what is made, from that of the dossier. */
  readonly folder: string;
  /** The files of the dossier that it is made from. */
  readonly from: readonly string[];
  /** What the link is called in a sentence: `the verdict`, `the draw`. */
  readonly what: string;
  readonly make: () => Promise<readonly ResultFile[]>;
}

/** Makes the files of a link again and compares them, byte by byte. A source that does not hold was told already, and what rests on it is left alone. */
export async function madeAgain({ root, journal, names }: OpenDossier, wrong: ReadonlySet<string>, link: Link): Promise<Looked> {
  const known = newest(journal);
  if (link.from.some((name) => wrong.has(name))) return together([]);
  const made = await tried(link);
  if ('says' in made) return broken(link.from, `${sentenceOf(link)} cannot be made again: ${made.says}`);
  const parts: Looked[] = [];
  for (const { name: file, content } of made.files) {
    const name = nameIn(link.folder, file);
    if (wrong.has(name) || !names.includes(name)) continue;
    const line = known.get(name);
    // A worksheet that somebody filled in is what was taken in, not what was written.
    if (line === undefined || line.did === 'taken in') continue;
    if (digestOf(content) === line.sha256 && digestOf(await readFile(join(root, name))) === line.sha256) {
      parts.push({ broken: [], remarks: [], held: [name] });
      continue;
    }
    const version = programVersion();
    parts.push(
      line.version === version
        ? broken([name, ...link.from], `${name} is not what ${link.what} gives when it is made again from ${link.from.join(', ')}.`)
        : remark(
            [name],
            `${name} was written by version ${line.version} of the program; version ${version} makes it otherwise. Nothing else tells that it was changed.`,
          ),
    );
  }
  return together(parts);
}

async function tried(link: Link): Promise<{ readonly files: readonly ResultFile[] } | { readonly says: string }> {
  try {
    return { files: await link.make() };
  } catch (error) {
    if (error instanceof UserMistake) return { says: error.message };
    throw error;
  }
}

const sentenceOf = ({ what }: Link): string => `${what.slice(0, 1).toUpperCase()}${what.slice(1)}`;
