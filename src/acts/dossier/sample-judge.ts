import { join } from 'node:path';
import { newest } from '../../dossier/journal.js';
import type { DrawPlace } from '../../dossier/places.js';
import type { SavedSample } from '../../model/sample.js';
import { UserMistake } from '../../read/mistake.js';
import { judgedSample, sampleFiles } from '../sample-judge.js';
import type { Surroundings } from '../surroundings.js';
import { newestDelivery } from './deliveries.js';
import { digestOfFile } from './digest.js';
import { alone } from './lock.js';
import { type OpenDossier, openDossier } from './open.js';
import { putIn, sourceIn, takeIn } from './write.js';

/** A spot check that was judged, and the folder in which it lies, from that of the dossier. */
export interface JudgedDraw {
  readonly folder: string;
  readonly sample: SavedSample;
}

/** Judges every draw of the newest delivery that has an answered worksheet and was not judged yet. Throws UserMistake. */
export async function judgedInDossier(root: string, by: string | undefined, around: Surroundings): Promise<readonly JudgedDraw[]> {
  return alone(root, around, async () => {
    const before = await openDossier(root);
    const { place } = await newestDelivery(before);
    if (place.draws.length === 0)
      throw new UserMistake(`No sample of delivery ${String(place.delivery)} was drawn yet: reeltally sample draw --seed DIGITS.`);
    const open = place.draws.filter(({ judged }) => !judged);
    if (open.length === 0)
      throw new UserMistake(`Every sample of delivery ${String(place.delivery)} is judged: see sample.txt in ${place.folder}/spot.`);
    const judged: JudgedDraw[] = [];
    for (const draw of open) {
      const worksheet = await answeredWorksheet(before, draw);
      const sample = await judgedSample({
        draw: join(root, draw.folder, 'draw.json'),
        worksheet: join(root, worksheet),
        ...(by === undefined ? {} : { by }),
      });
      await takeIn(before, [worksheet], around);
      const dossier = await openDossier(root);
      const from = [sourceIn(dossier, `${draw.folder}/draw.json`), sourceIn(dossier, worksheet)];
      await putIn(root, [{ folder: draw.folder, files: sampleFiles(sample), from }], around);
      judged.push({ folder: draw.folder, sample });
    }
    return judged;
  });
}

/** The worksheet of a draw that somebody filled in: the one that the page saved, else the sheet that is not as it was written. Throws UserMistake. */
async function answeredWorksheet({ root, journal }: OpenDossier, { folder, worksheets }: DrawPlace): Promise<string> {
  const saved = worksheets.filter((name) => /\.json$/i.test(name));
  const written = newest(journal);
  const filled: string[] = [];
  for (const name of worksheets.filter((one) => !/\.(json|html)$/i.test(one)))
    if (written.get(name)?.sha256 !== (await digestOfFile(join(root, name)))) filled.push(name);
  const [first, second] = saved.length > 0 ? saved : filled;
  if (first === undefined)
    throw new UserMistake(
      `No worksheet in ${folder} is answered yet. Fill in worksheet.xlsx or worksheet.csv there, or save what worksheet.html gives into this folder.`,
    );
  if (second !== undefined) throw new UserMistake(`${first} and ${second} are both answered; keep one of them in the folder.`);
  return first;
}
