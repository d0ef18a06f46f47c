import { CHECK_FILES, CHECK_FORMS, type CheckForm, checkAs, checkFiles, recordCheck } from '../acts/collation-check.js';
import { UserMistake } from '../read/mistake.js';
import { writeAndSay } from './folder.js';
import { namedRecord } from './in-dossier.js';
import { print } from './streams.js';
import { surroundings } from './surroundings.js';

/** Options of `collation check` as they come from the command line. */
export interface CheckArguments {
  readonly explained?: string;
  readonly format?: readonly string[];
  readonly out?: string;
  readonly replace?: boolean;
  readonly quiet?: boolean;
}

/** Checks the record in these files by its own regularity; gives 1 where something is to be mended or explained, else 0. Throws UserMistake. */
export async function collationCheckCommand(paths: readonly string[], options: CheckArguments): Promise<number> {
  const { out, quiet = false, replace = false } = options;
  const forms = chosenForms(options.format, out !== undefined);
  const checked = await recordCheck((await namedRecord(paths)).paths, options.explained, surroundings({ quiet }));
  if (out === undefined) for (const form of forms) await print(await checkAs(form, checked));
  else await writeAndSay(await checkFiles(checked, forms), { out, replace, quiet, ours: CHECK_FILES });
  return checked.check.items.some(({ explained }) => explained === null) ? 1 : 0;
}

function chosenForms(wishes: readonly string[] | undefined, toFolder: boolean): readonly CheckForm[] {
  if (wishes === undefined) return toFolder ? CHECK_FORMS : ['text'];
  const names = wishes.flatMap((wish) => wish.split(',')).filter((name) => name !== '');
  const unknown = names.find((name) => !CHECK_FORMS.some((form) => form === name));
  if (unknown !== undefined || names.length === 0)
    throw new UserMistake(
      `--format: a check is written as ${CHECK_FORMS.join(', ')}${unknown === undefined ? '' : `, and not as ${unknown}`}.`,
    );
  const chosen = CHECK_FORMS.filter((form) => names.includes(form));
  if (!toFolder && chosen.includes('xlsx') && process.stdout.isTTY)
    throw new UserMistake('A workbook cannot be shown in a terminal. Give a folder for it with --out, or lead the output into a file.');
  if (!toFolder && chosen.length > 1)
    throw new UserMistake('Only one format can be printed at a time. Give --out with a folder for several.');
  return chosen;
}
