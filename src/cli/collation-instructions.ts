import { INSTRUCTION_FILES, INSTRUCTION_FORMS, type InstructionForm, recordInstructions } from '../acts/collation-instructions.js';
import { instructionsInDossier } from '../acts/dossier/record.js';
import { refuseExisting } from '../acts/outputs/results-folder.js';
import { UserMistake } from '../read/mistake.js';
import { formsFor } from './chosen-forms.js';
import { writeAndSay } from './folder.js';
import { namedRecord, sayWritten, typedInDossier } from './in-dossier.js';
import { surroundings } from './surroundings.js';

/** Options of `collation instructions` as they come from the command line. */
export interface InstructionsArguments {
  readonly out?: string;
  readonly agreement?: string;
  readonly profile?: string;
  readonly format?: readonly string[];
  readonly replace?: boolean;
  readonly quiet?: boolean;
}

/** Writes the sheet that goes with the film, and the record as it is sent; gives 0. Throws UserMistake. */
export async function instructionsCommand(paths: readonly string[], options: InstructionsArguments): Promise<number> {
  const { out, replace = false, quiet = false, format, ...order } = options;
  const forms = formsFor(INSTRUCTION_FORMS, format, 'instructions are');
  if (paths.length === 0 && out === undefined) return instructionsHere(forms, options);
  if (out === undefined) throw new UserMistake('Say where the instructions are to be written: --out with a folder.');
  await refuseExisting(out, replace, INSTRUCTION_FILES);
  const files = await recordInstructions((await namedRecord(paths)).paths, { ...order, forms }, surroundings({ quiet }));
  await writeAndSay(files, { out, replace, quiet, ours: INSTRUCTION_FILES });
  return 0;
}

/** The same in a dossier, from its record and agreement into its folder of what was sent. */
async function instructionsHere(
  forms: readonly InstructionForm[],
  { agreement, profile, replace, quiet = false }: InstructionsArguments,
): Promise<number> {
  const root = await typedInDossier('Say which files hold the collation record, and with --out where the instructions go.', {
    agreement,
    profile,
    replace,
  });
  const { folder, names } = await instructionsInDossier(root, forms, surroundings({ quiet }));
  if (!quiet) sayWritten(root, folder, names);
  return 0;
}
