import { stat } from 'node:fs/promises';
import { type PicturesMade, picturesOf, writePictures } from '../acts/pictures.js';
import type { Findings } from '../model/findings.js';
import { readJsonFile } from '../read/json.js';
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
  await checkDestination(destination);
  const { value } = await readJsonFile(path, 'findings');
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

/** Small pictures of the pages that the findings are about, from the batch; null where this copy of it holds none of them. */
async function picturesForReport(result: Findings, batch: string, quiet: boolean): Promise<PicturesMade | null> {
  const { picturedFrames } = await import('../report/html/pictures.js');
  const around = surroundings({ quiet });
  const there = await stat(batch).catch(() => null);
  const made = there?.isDirectory() === true ? await picturesOf(picturedFrames(result), batch, around).finally(around.end) : null;
  if (made === null) around.say(`no pictures were made: ${batch} holds none of the files that the result names.`, 'remark');
  return made;
}
