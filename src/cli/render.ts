import { stat } from 'node:fs/promises';
import { type PicturesMade, picturesOf, writePictures } from '../acts/pictures.js';
import type { Findings } from '../model/findings.js';
import { readJsonFile } from '../read/json.js';
import { UserMistake } from '../read/mistake.js';
import { picturesWished } from './chosen-forms.js';
import { checkDestination, deliver } from './deliver.js';
import { chosenFormats } from './formats.js';
import { surroundings } from './surroundings.js';

/** Options of `render` as they come from the command line. */
export interface RenderArguments {
  readonly format?: readonly string[];
  readonly out?: string;
  readonly batch?: string;
  readonly pictures?: string;
  readonly sample?: readonly string[];
  readonly replace?: true;
  readonly quiet?: true;
}

/** Renders a saved result again; gives 0 when that was done, whatever the verdict in it. */
export async function renderCommand(path: string, options: RenderArguments): Promise<number> {
  const { out: folder = null, replace = false, quiet = false } = options;
  const wished = picturesWished(options);
  const destination = {
    formats: chosenFormats(options.format, folder !== null),
    folder,
    replace,
    quiet,
    ...(options.batch === undefined ? {} : { batch: options.batch }),
  };
  if (options.batch !== undefined) await refuseNoFolder(options.batch);
  await checkDestination(destination);
  const { value: saved } = await readJsonFile(path, 'findings');
  const value = await withSamples(saved, options.sample, destination.formats);
  const { batch } = options;
  if (folder === null || batch === undefined || !wished || !destination.formats.includes('html')) {
    await deliver(value, destination);
    return 0;
  }
  const small = await picturesForReport(value, batch, quiet);
  if (small !== null) await writePictures(folder, small.files, replace);
  await deliver(value, small === null ? destination : { ...destination, pictures: small.made });
  return 0;
}

/** The formats of the list that goes to the vendor: the others tell the verdict, which no spot check changes. */
const LISTS: ReadonlySet<string> = new Set(['csv', 'xlsx', 'xml']);

/** The result with what spot checks of it found wrong. Throws UserMistake. */
async function withSamples(result: Findings, paths: readonly string[] | undefined, formats: readonly string[]): Promise<Findings> {
  if (paths === undefined) return result;
  const other = formats.find((name) => !LISTS.has(name));
  if (other !== undefined)
    throw new UserMistake(
      `--sample puts what was found wrong in a spot check into the list for the vendor: --format csv, xlsx or xml, and not ${other}. "reeltally decide" weighs the spot check itself.`,
    );
  const { withImageFindings } = await import('../acts/sample-findings.js');
  const samples = [];
  for (const name of paths) samples.push({ sample: (await readJsonFile(name, 'sample')).value, name });
  return withImageFindings(result, samples);
}

/** Throws UserMistake where the batch is no folder. */
async function refuseNoFolder(batch: string): Promise<void> {
  const there = await stat(batch).catch(() => null);
  if (there === null) throw new UserMistake(`--batch ${batch}: there is no such folder. Name the folder in which the batch lies.`);
  if (!there.isDirectory()) throw new UserMistake(`--batch ${batch} is not a folder. Name the folder in which the batch lies.`);
}

/** Small pictures of the pages that the findings are about, from the batch; null where this copy of it holds none of them. */
async function picturesForReport(result: Findings, batch: string, quiet: boolean): Promise<PicturesMade | null> {
  const { picturedFrames } = await import('../report/html/pictures.js');
  const around = surroundings({ quiet });
  const made = await picturesOf(picturedFrames(result), batch, around).finally(around.end);
  if (made === null) around.say(`no pictures were made: ${batch} holds none of the files that the result names.`, 'remark');
  return made;
}
