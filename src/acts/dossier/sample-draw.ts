import { join, posix } from 'node:path';
import { type DeliveryPlace, drawFolder } from '../../dossier/places.js';
import { readJsonFile } from '../../read/json.js';
import { UserMistake } from '../../read/mistake.js';
import { listHash } from '../../sampling/draw.js';
import { drawnLots, type LotWish, type PlannedDraw, plannedDraw } from '../sample-draw.js';
import type { Surroundings } from '../surroundings.js';
import { newestDelivery } from './deliveries.js';
import { alone } from './lock.js';
import { type OpenDossier, openDossier } from './open.js';
import { nameIn, putIn, sourceIn } from './write.js';

/** Plans a draw from the newest delivery of the dossier; nothing is written. Throws UserMistake. */
export async function plannedInDossier(root: string, wish: Omit<LotWish, 'findings'>): Promise<PlannedDraw> {
  const { run } = await newestDelivery(await openDossier(root));
  return plannedDraw({ ...wish, findings: join(root, run.folder, 'findings.json') });
}

/** Draws the sample of each lot and keeps it beside the delivery, each draw in a folder of its own. Gives the folders from that of the dossier, with the names of what was written. Throws UserMistake. */
export async function drawnInDossier(
  root: string,
  wish: Omit<LotWish, 'findings'>,
  seed: string,
  around: Surroundings,
): Promise<{ readonly folders: readonly string[]; readonly written: readonly string[] }> {
  return alone(root, around, async () => {
    const dossier = await openDossier(root);
    const { run, place, file } = await newestDelivery(dossier);
    const findings = `${run.folder}/findings.json`;
    const planned = await plannedDraw({ ...wish, findings: join(root, findings) });
    await refuseSecond(dossier, place, planned);
    const numbers = place.draws.map(({ folder }) => Number(/draw-(\d+)/.exec(folder)?.[1] ?? 0));
    const folder = drawFolder(place.delivery, Math.max(0, ...numbers) + 1);
    const baseOf = (lot: string): Promise<string | null> => Promise.resolve(baseFrom(file.link, run.folder, nameIn(folder, lot)));
    const drawn = await drawnLots(planned, { seed, baseOf }, around);
    const from = [sourceIn(dossier, findings)];
    const folders = drawn.map((lot) => (lot.folder === '' ? folder : nameIn(folder, lot.folder)));
    const written = await putIn(
      root,
      drawn.map(({ files }, at) => ({ folder: folders[at] ?? folder, files, from })),
      around,
    );
    return { folders, written };
  });
}

/** The way from the folder of a draw to the batch, from the way that leads there from the folder of the result. */
export function baseFrom(link: string | undefined, result: string, draw: string): string | null {
  return link === undefined ? null : `./${posix.relative(draw, posix.join(result, link))}`;
}

/** Who may draw until the sample is kind proves nothing: each list is drawn from once. */
async function refuseSecond({ root }: OpenDossier, { draws }: DeliveryPlace, { lots }: PlannedDraw): Promise<void> {
  const lists = new Map(lots.map(({ lot }) => [listHash(lot.list.map(({ id }) => id)), lot.name]));
  for (const { folder } of draws) {
    const { value } = await readJsonFile(join(root, folder, 'draw.json'), 'draw');
    const lot = lists.get(value.listSha256);
    if (lot !== undefined)
      throw new UserMistake(
        `The sample of ${lot} was drawn already: it lies in ${folder}. A second draw from the same list would let one choose between two samples. Judge the first: reeltally sample judge.`,
      );
  }
}
