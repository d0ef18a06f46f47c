import { join } from 'node:path';
import { EXPECTED_FILES, EXPECTED_FOLDER, EXPECTED_FORMS, expectedListFiles, expectedOf } from '../acts/collation-expected.js';
import { refuseTree, writeTree } from '../acts/outputs/document-tree.js';
import { refuseExisting } from '../acts/outputs/results-folder.js';
import { expectedText } from '../report/expected/text.js';
import { formsFor } from './chosen-forms.js';
import { placeInWords, writeAndSay } from './folder.js';
import { print, tell } from './streams.js';
import { surroundings } from './surroundings.js';

/** Options of `collation expected` as they come from the command line. */
export interface ExpectedArguments {
  readonly out: string;
  readonly agreement?: string;
  readonly profile?: string;
  readonly format?: readonly string[];
  readonly replace?: boolean;
  readonly quiet?: boolean;
}

/** Writes the return that would be right, as a list and as documents, and prints what must, may and must not be said; gives 0. Throws UserMistake. */
export async function expectedCommand(paths: readonly string[], options: ExpectedArguments): Promise<number> {
  const { out, replace = false, quiet = false, format, ...order } = options;
  const forms = formsFor(EXPECTED_FORMS, format, 'what is expected is');
  const folder = join(out, EXPECTED_FOLDER);
  await refuseExisting(out, replace, EXPECTED_FILES);
  await refuseTree(folder, replace);
  const { report, documents } = await expectedOf(paths, order, surroundings({ quiet }));
  await writeAndSay(await expectedListFiles(report, forms), { out, replace, quiet, ours: EXPECTED_FILES });
  if (documents !== null) {
    await writeTree(folder, documents, replace);
    if (!quiet) tell(`Written to ${placeInWords(folder)}: ${String(documents.length)} XML documents, no images.\n`);
  }
  await print(expectedText(report));
  return 0;
}
