import { type LaterFile, type ResultFile, writeResults } from '../acts/outputs/results-folder.js';
import { tell } from './streams.js';

/** A folder that files are written into, as the command line names it; `ours` are the names of all files that such a folder can hold. */
export interface Folder {
  readonly out: string;
  readonly replace: boolean;
  readonly quiet: boolean;
  readonly ours: ReadonlySet<string>;
}

/** Writes the files, whole or not at all, and says where they are. Throws UserMistake. */
export async function writeAndSay(files: readonly (ResultFile | LaterFile)[], { out, replace, quiet, ours }: Folder): Promise<void> {
  await writeResults(out, files, replace, ours);
  if (!quiet) tell(`Written to ${placeInWords(out)}: ${files.map(({ name }) => name).join(', ')}.\n`);
}

/** A folder in a sentence: the one in which the command was typed has no name there. */
export function placeInWords(folder: string): string {
  return /^(?:\.\/?)?$/.test(folder) ? 'this folder' : folder;
}
