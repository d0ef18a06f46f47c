import { join } from 'node:path';
import { sentFolder } from '../../dossier/places.js';
import { UserMistake } from '../../read/mistake.js';
import { INSTRUCTION_FILES, type InstructionForm, recordInstructions } from '../collation-instructions.js';
import { writeResults } from '../outputs/results-folder.js';
import type { Surroundings } from '../surroundings.js';
import { alone } from './lock.js';
import { type OpenDossier, openDossier } from './open.js';
import { nameIn, takeIn } from './write.js';

/** The sheets of a record that lie in a dossier: its only file by name, so that what is said of it lies beside it under its name; else the folder. Throws UserMistake where there is none. */
export async function recordOf(root: string): Promise<readonly string[]> {
  const { layout } = await openDossier(root);
  const sheets = layout.record.filter(
    (name) => /\.(?:csv|tsv|xlsx|ods|json)$/i.test(name) && !/\.(?:reading\.json|explained\.csv)$/i.test(name),
  );
  const [only, ...others] = sheets;
  if (only === undefined)
    throw new UserMistake(`${join(root, 'record')} is empty. Put the collation record there, with its reading file where it has one.`);
  return [join(root, others.length === 0 ? only : 'record')];
}

/** Notes in the journal how the record is read and what was explained in it. Throws UserMistake. */
export async function takeInRecord(root: string, around: Surroundings): Promise<void> {
  await alone(root, around, async () => {
    const dossier = await openDossier(root);
    await takeIn(dossier, dossier.layout.record, around);
  });
}

/** What the agreement of a dossier and its profile are, as paths and names that a command would be given. */
export function orderOf({ root, file: { profile }, layout }: OpenDossier): { readonly agreement?: string; readonly profile?: string } {
  return {
    ...(layout.agreement ? { agreement: join(root, 'agreement.json') } : {}),
    ...(layout.profile ? { profile: join(root, 'profile.json') } : profile === undefined ? {} : { profile }),
  };
}

/** Writes the sheet that goes with the film and the record as it is sent, beside what was sent before and never over it. Gives the folder, from that of the dossier, and the names. Throws UserMistake. */
export async function instructionsInDossier(
  root: string,
  forms: readonly InstructionForm[],
  around: Surroundings,
): Promise<{ readonly folder: string; readonly names: readonly string[] }> {
  const record = await recordOf(root);
  return alone(root, around, async () => {
    const dossier = await openDossier(root);
    const files = await recordInstructions(record, { ...orderOf(dossier), forms }, around);
    const folder = freeFolder(dossier.names);
    await writeResults(join(root, folder), files, false, INSTRUCTION_FILES);
    const names = files.map(({ name }) => nameIn(folder, name));
    await takeIn(await openDossier(root), [...dossier.layout.record, ...names], around);
    return { folder, names };
  });
}

/** The first folder in which nothing lies yet that goes with the film. */
function freeFolder(names: readonly string[]): string {
  for (let count = 1; ; count += 1) {
    const folder = sentFolder(count);
    if (![...INSTRUCTION_FILES].some((name) => names.includes(`${folder}/${name}`))) return folder;
  }
}
