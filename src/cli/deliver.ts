import { keptRulings } from '../acts/inputs/kept-rulings.js';
import { refuseInBatch } from '../acts/outputs/outside-batch.js';
import { linksTo, resultFiles } from '../acts/outputs/result-files.js';
import { refuseExisting, writeResults } from '../acts/outputs/results-folder.js';
import type { Findings } from '../model/findings.js';
import type { PicturesFile } from '../model/pictures.js';
import { UserMistake } from '../read/mistake.js';
import { type FormatName, render } from '../report/index.js';
import { closingLines } from '../report/text/index.js';
import { counted } from '../report/words.js';
import { placeInWords } from './folder.js';
import { coloured, print, tell, widthOf } from './streams.js';

/** Where a result goes: printed in one format, or written as files into a folder. */
export interface Destination {
  readonly formats: readonly FormatName[];
  /** Folder as the user wrote it, or null for the standard output. */
  readonly folder: string | null;
  readonly replace: boolean;
  readonly quiet: boolean;
  /** The folder of the batch as the user wrote it, where the report is to have links to its files. */
  readonly batch?: string;
  /** Small pictures that lie in the folder, for the report to show. */
  readonly pictures?: PicturesFile;
}

/** Throws UserMistake at once where the results could not be written later on: nobody should wait for that. */
export async function checkDestination({ formats, folder, replace, batch }: Destination): Promise<void> {
  if (folder !== null) {
    if (batch !== undefined) await refuseInBatch(folder, [batch]);
    await refuseExisting(folder, replace);
  } else if (process.stdout.isTTY && formats.includes('xlsx'))
    throw new UserMistake('A workbook cannot be shown in a terminal. Give a folder for it with --out, or lead the output into a file.');
}

/** Prints a result, or writes it to the folder and says so. */
export async function deliver(result: Findings, { formats, folder, replace, quiet, batch, pictures }: Destination): Promise<void> {
  if (folder === null) {
    const options = { colour: coloured(process.stdout), width: widthOf(process.stdout), ...linksTo(batch, '.') };
    for (const format of formats) await print(await render(result, format, options));
    return;
  }
  const shown = { ...linksTo(batch, folder), ...(pictures === undefined ? {} : { pictures }) };
  const files = await resultFiles(result, formats, shown, await keptRulings(folder));
  await writeResults(folder, files, replace);
  if (!quiet) sayDelivered(result, folder, [...files.map((file) => file.name), ...picturesWritten(pictures)]);
}

/** The folder of the small pictures with how many lie there. */
function picturesWritten(made: PicturesFile | undefined): readonly string[] {
  const count = made?.pictures.filter((one) => 'picture' in one).length ?? 0;
  return count === 0 ? [] : [`pictures (${counted(count, 'picture')})`];
}

/** Says which files of a result were written into a folder, and what came of it. */
export function sayDelivered(result: Findings, folder: string, names: readonly string[]): void {
  tell(
    names.length === 0
      ? `Nothing has changed: the result in ${folder} still stands.\n`
      : `Written to ${placeInWords(folder)}: ${names.join(', ')}.\n`,
  );
  sayClosing(result);
}

/** Says in a few lines what came of it, where the result itself lies in files; `next` is the step that a dossier knows. */
export function sayClosing(result: Findings, next?: string): void {
  const lines = closingLines(result, { colour: coloured(process.stderr), width: widthOf(process.stderr) }, next);
  process.stderr.write(`${lines.join('\n')}\n`);
}
