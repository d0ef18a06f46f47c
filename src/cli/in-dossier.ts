import { relative } from 'node:path';
import { dossierAbove } from '../acts/dossier/open.js';
import { recordOf } from '../acts/dossier/record.js';
import { UserMistake } from '../read/mistake.js';
import { placeInWords } from './folder.js';
import { tell } from './streams.js';

/** The dossier in which the command was typed. Throws UserMistake with `needs`, what the command must be told, where there is none; and for an option that a dossier answers by itself. */
export async function typedInDossier(needs: string, answered: Readonly<Record<string, unknown>>): Promise<string> {
  const root = await dossierAbove(process.cwd());
  if (root === null) throw new UserMistake(`${needs} Or go into the folder of an order ("reeltally help dossier"), where this is known.`);
  const given = Object.keys(answered).find((option) => answered[option] !== undefined);
  if (given !== undefined)
    throw new UserMistake(
      `--${given}: in a dossier this is known. Leave it out; or name every path, and the command works as it does outside a dossier.`,
    );
  return root;
}

/** The record that a command works on: the files that were named, else that of the dossier in which it was typed. Throws UserMistake where there is neither. */
export async function namedRecord(paths: readonly string[]): Promise<{ readonly paths: readonly string[]; readonly root: string | null }> {
  if (paths.length > 0) return { paths, root: null };
  const root = await typedInDossier('Say which files hold the collation record.', {});
  return { paths: (await recordOf(root)).map((path) => relative(process.cwd(), path) || '.'), root };
}

/** A path of the dossier as it is typed where the command was typed. */
export const asTyped = (root: string, name: string): string => relative(process.cwd(), `${root}/${name}`) || '.';

/** Says where files were written; all of them lie in the same folder. */
export function sayWritten(root: string, folder: string, names: readonly string[]): void {
  const inside = names.map((name) => (name.startsWith(`${folder}/`) ? name.slice(folder.length + 1) : name));
  tell(`Written to ${placeInWords(asTyped(root, folder))}: ${inside.join(', ')}.\n`);
}
