import { newDossier } from '../acts/dossier/new.js';
import { placeInWords } from './folder.js';
import { tell } from './streams.js';
import { surroundings } from './surroundings.js';

/** Options of `dossier new` as they come from the command line. */
export interface NewArguments {
  readonly order?: string;
  readonly collation?: readonly string[];
  readonly agreement?: string;
  readonly profile?: string;
  readonly at?: string;
  readonly quiet?: true;
}

/** Makes the folder of one order; gives 0 when that was done. Throws UserMistake. */
export async function dossierNewCommand(folder: string, options: NewArguments): Promise<number> {
  const { order, collation = [], agreement, profile, at, quiet = false } = options;
  const names = await newDossier(
    {
      folder,
      collation,
      ...(order === undefined ? {} : { order }),
      ...(agreement === undefined ? {} : { agreement }),
      ...(profile === undefined ? {} : { profile }),
    },
    surroundings({ quiet, ...(at === undefined ? {} : { at }) }),
  );
  if (quiet) return 0;
  tell(`Written to ${placeInWords(folder)}: ${names.join(', ')}.\n`);
  const wanting = [
    ...(names.some((name) => name.startsWith('record/')) ? [] : ['the collation record into its folder record']),
    ...(names.includes('agreement.json') ? [] : ['agreement.json, where one was made, beside dossier.json']),
  ];
  if (wanting.length > 0) tell(`Put ${wanting.join(' and ')}.\n`);
  tell('Go into the folder and type "reeltally status": it says what comes next.\n');
  return 0;
}
