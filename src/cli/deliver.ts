import { isAbsolute, relative, resolve, sep } from 'node:path';
import type { Findings } from '../model/findings.js';
import { UserMistake } from '../read/mistake.js';
import { CORRECTIONS_FILE, FORMATS, type FormatName, render, renderCorrections } from '../report/index.js';
import { closingLines } from '../report/text/index.js';
import { type ResultFile, refuseExisting, writeResults } from './results-folder.js';
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
}

/** Throws UserMistake at once where the results could not be written later on: nobody should wait for that. */
export async function checkDestination({ formats, folder, replace }: Destination): Promise<void> {
  if (folder !== null) await refuseExisting(folder, replace);
  else if (process.stdout.isTTY && formats.includes('xlsx'))
    throw new UserMistake('A workbook cannot be shown in a terminal. Give a folder for it with --out, or lead the output into a file.');
}

/** The address of the batch as a link in a file of a folder writes it: relative, so that the two can be moved together and no path of this machine is told. */
function linksTo(batch: string | undefined, folder: string): { readonly batch?: string } {
  if (batch === undefined) return {};
  const way = relative(resolve(folder), resolve(batch));
  // From one drive to another there is no relative path.
  if (isAbsolute(way)) return {};
  return { batch: `./${way.split(sep).map(encodeURIComponent).join('/')}` };
}

/** Prints a result, or writes it to the folder and says so. */
export async function deliver(result: Findings, { formats, folder, replace, quiet, batch }: Destination): Promise<void> {
  if (folder === null) {
    const options = { colour: coloured(process.stdout), width: widthOf(process.stdout), ...linksTo(batch, '.') };
    for (const format of formats) await print(await render(result, format, options));
    return;
  }
  const files: ResultFile[] = [];
  for (const { name, file } of FORMATS) {
    if (formats.includes(name)) files.push({ name: file, content: await render(result, name, linksTo(batch, folder)) });
  }
  const corrections = renderCorrections(result);
  if (corrections !== null) files.push({ name: CORRECTIONS_FILE, content: corrections });
  await writeResults(folder, files, replace);
  if (quiet) return;
  tell(`Written to ${folder}: ${files.map((file) => file.name).join(', ')}.\n`);
  process.stderr.write(`${closingLines(result, { colour: coloured(process.stderr), width: widthOf(process.stderr) }).join('\n')}\n`);
}
