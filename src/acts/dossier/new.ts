import { copyFile, readdir } from 'node:fs/promises';
import { basename, join, resolve } from 'node:path';
import { AGREEMENT_FILE, DOSSIER_FILE, FOLDERS, PROFILE_FILE } from '../../dossier/places.js';
import type { DossierFile } from '../../model/dossier.js';
import { NAMED_PROFILES } from '../../profiles/index.js';
import { readJsonFile } from '../../read/json.js';
import { UserMistake } from '../../read/mistake.js';
import { recordFiles } from '../../read/record.js';
import { jsonText } from '../../report/json.js';
import { makeFolder } from '../outputs/make-folder.js';
import { refuseInReturn } from '../outputs/outside-batch.js';
import { systemReason } from '../outputs/system-reason.js';
import type { Surroundings } from '../surroundings.js';
import { refuseMistakes } from '../verify.js';
import { alone } from './lock.js';
import { dossierAbove, openDossier } from './open.js';
import { putIn, takeIn } from './write.js';

/** What a new dossier begins with: all of it may be put there later by hand. */
export interface NewDossier {
  readonly folder: string;
  /** What the order is called; the name of the folder when left out. */
  readonly order?: string;
  readonly collation: readonly string[];
  readonly agreement?: string;
  /** A built-in profile by its name, or a file. */
  readonly profile?: string;
}

/** Makes the folder of one order and copies into it what is there already. Gives the names of its files. Throws UserMistake. */
export async function newDossier(wish: NewDossier, around: Surroundings): Promise<readonly string[]> {
  const root = resolve(wish.folder);
  const builtIn = NAMED_PROFILES.some(({ name }) => name === wish.profile);
  await refusePlace(wish.folder, root);
  // Read before anything is made, so that nothing is left behind where a file is not what it should be.
  const record = await recordFiles(wish.collation);
  if (wish.agreement !== undefined) refuseMistakes((await readJsonFile(wish.agreement, 'agreement')).value, wish.agreement);
  if (wish.profile !== undefined && !builtIn) await readJsonFile(wish.profile, 'profile');
  try {
    for (const folder of FOLDERS) await makeFolder(join(root, folder));
    for (const path of record) await copyFile(path, join(root, 'record', basename(path)));
    if (wish.agreement !== undefined) await copyFile(wish.agreement, join(root, AGREEMENT_FILE));
    if (wish.profile !== undefined && !builtIn) await copyFile(wish.profile, join(root, PROFILE_FILE));
  } catch (error) {
    throw new UserMistake(`The dossier could not be made in ${wish.folder}: ${systemReason(error)}.`);
  }
  const file: DossierFile = {
    format: 'reeltally/dossier/1',
    order: wish.order ?? basename(root),
    at: around.now,
    ...(wish.profile !== undefined && builtIn ? { profile: wish.profile } : {}),
  };
  return alone(root, around, async () => {
    const written = await putIn(root, [{ folder: '', files: [{ name: DOSSIER_FILE, content: jsonText(file) }], from: [] }], around);
    const dossier = await openDossier(root);
    const { layout } = dossier;
    const brought = [...(layout.agreement ? [AGREEMENT_FILE] : []), ...(layout.profile ? [PROFILE_FILE] : []), ...layout.record];
    return [...written, ...(await takeIn(dossier, brought, around))];
  });
}

async function refusePlace(named: string, root: string): Promise<void> {
  const above = await dossierAbove(root);
  if (above === root) throw new UserMistake(`${named} is a dossier already. "reeltally status" says how it stands.`);
  if (above !== null) throw new UserMistake(`${named} lies in the dossier ${above}; one order has one folder. Name another place.`);
  await refuseInReturn(named);
  const present = await readdir(root).catch((): readonly string[] => []);
  if (present.length > 0)
    throw new UserMistake(`${named} holds other things (${present.slice(0, 5).join(', ')}). Name a new folder: reeltally dossier new DIR.`);
}
