import { dossierHere } from '../acts/dossier/open.js';
import { statusOfDossier } from '../acts/dossier/status.js';
import { statusText } from '../report/status.js';
import { print, widthOf } from './streams.js';
import { surroundings } from './surroundings.js';

/** Prints how an order stands; gives 0 when that was done. Throws UserMistake. */
export async function statusCommand(folder: string, { at }: { readonly at?: string }): Promise<number> {
  const root = await dossierHere(folder);
  const { state, next } = await statusOfDossier(root, surroundings({ ...(at === undefined ? {} : { at }) }));
  await print(statusText(state, next, widthOf(process.stdout)));
  return 0;
}
