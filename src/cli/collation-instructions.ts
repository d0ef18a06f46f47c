import { INSTRUCTION_FILES, INSTRUCTION_FORMS, recordInstructions } from '../acts/collation-instructions.js';
import { refuseExisting } from '../acts/outputs/results-folder.js';
import { formsFor } from './chosen-forms.js';
import { writeAndSay } from './folder.js';
import { surroundings } from './surroundings.js';

/** Options of `collation instructions` as they come from the command line. */
export interface InstructionsArguments {
  readonly out: string;
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
  await refuseExisting(out, replace, INSTRUCTION_FILES);
  const files = await recordInstructions(paths, { ...order, forms }, surroundings({ quiet }));
  await writeAndSay(files, { out, replace, quiet, ours: INSTRUCTION_FILES });
  return 0;
}
