import { stat } from 'node:fs/promises';
import { join, posix } from 'node:path';
import type { Worksheet } from '../../model/worksheet.js';
import { readJsonFile } from '../../read/json.js';
import { UserMistake } from '../../read/mistake.js';
import { seedRemark } from '../../sampling/draw.js';
import { worksheetOf } from '../../sampling/worksheet.js';
import { PICTURES_FOLDER, type PicturesMade, pagesOf, picturesOf } from '../pictures.js';
import { drawFolders, drawnLots, type SettledLot } from '../sample-draw.js';
import { lotFixed } from '../sample-plan.js';
import type { Surroundings } from '../surroundings.js';
import { newestDelivery } from './deliveries.js';
import { alone } from './lock.js';
import { openDossier } from './open.js';
import { resultBehind, waitingPlans } from './sample-plan.js';
import { nameIn, putIn, sourceIn } from './write.js';

/** What was drawn and where it lies; the folder holds the worksheets, and below it each lot has one of its own where there are several. */
export interface DrawnHere {
  readonly folder: string;
  readonly written: readonly string[];
}

/** Draws the sample of each lot whose list and plan were fixed last, and makes pictures of its pages where that is wished and the batch is at hand. Throws UserMistake. */
export async function drawnInDossier(root: string, seed: string, around: Surroundings, shown = true): Promise<DrawnHere> {
  return alone(root, around, async () => {
    const dossier = await openDossier(root);
    const { place, result: now } = await newestDelivery(dossier);
    const waiting = await waitingPlans(dossier, place);
    const [first] = waiting;
    if (first === undefined)
      throw new UserMistake(
        'No list waits for a seed. A seed proves something only where list and plan were fixed before it was thrown: type "reeltally sample draw --fix", then throw the dice.',
      );
    const { throwFolder } = first;
    const lots: SettledLot[] = [];
    for (const { folder, plan } of waiting)
      lots.push({ planned: lotFixed(plan, now, folder === throwFolder ? '' : posix.relative(throwFolder, folder)), plan });
    const run = resultBehind(dossier, place, `${first.folder}/plan.json`);
    const { value: result } = await readJsonFile(join(root, run.folder, 'findings.json'), 'findings');
    const { value: file } = await readJsonFile(join(root, run.folder, 'delivery.json'), 'delivery');
    // what was drawn here stays: the next list cannot be fixed without a reason
    const weak = seedRemark(seed);
    if (weak !== null) throw new UserMistake(`${weak} Nothing was drawn; the list still waits.`);
    const drawn = drawnLots(lots, seed, { at: around.now, by: around.who }, around);
    const worksheet = worksheetOf(drawn, result.titles);
    const pictures = shown ? await picturesAtHand(worksheet, file.batch, around) : null;
    const folders = await drawFolders(drawn, worksheet, {
      base: baseFrom(file.link, run.folder, throwFolder),
      pictures: pictures?.made ?? null,
    });
    const findings = sourceIn(dossier, `${run.folder}/findings.json`);
    const plans = waiting.map(({ folder }) => sourceIn(dossier, `${folder}/plan.json`));
    const made = folders.map(({ folder, files }) => ({
      folder: folder === '' ? throwFolder : nameIn(throwFolder, folder),
      files,
      from: [findings, ...plans],
    }));
    const small = pictures === null ? [] : [{ folder: nameIn(throwFolder, PICTURES_FOLDER), files: pictures.files, from: [findings] }];
    await putIn(root, small, around);
    return { folder: throwFolder, written: await putIn(root, made, around) };
  });
}

/** Pictures from where the batch lay when it was verified; null where it lies there no more, or is several folders. */
async function picturesAtHand(worksheet: Worksheet, batch: readonly string[], around: Surroundings): Promise<PicturesMade | null> {
  const [only] = batch;
  if (only === undefined || batch.length > 1) return null;
  const found = await stat(only).catch(() => null);
  return found?.isDirectory() === true ? picturesOf(pagesOf(worksheet), only, around) : null;
}

/** The way from the folder of a draw to the batch, from the way that leads there from the folder of the result. */
export function baseFrom(link: string | undefined, result: string, draw: string): string | null {
  return link === undefined ? null : `./${posix.relative(draw, posix.join(result, link))}`;
}
