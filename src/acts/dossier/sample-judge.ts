import { join } from 'node:path';
import { newest } from '../../dossier/journal.js';
import type { DeliveryPlace, DrawPlace } from '../../dossier/places.js';
import type { SavedSample } from '../../model/sample.js';
import { readJsonFile } from '../../read/json.js';
import { UserMistake } from '../../read/mistake.js';
import { judgedSample, sampleFilesFor } from '../sample-judge.js';
import type { Surroundings } from '../surroundings.js';
import { newestDelivery } from './deliveries.js';
import { digestOfFile } from './digest.js';
import { alone } from './lock.js';
import { type OpenDossier, openDossier } from './open.js';
import { resultBehind } from './sample-plan.js';
import { putIn, sourceIn, takeIn } from './write.js';

/** A spot check that was judged, and the folder in which it lies, from that of the dossier. */
export interface JudgedDraw {
  readonly folder: string;
  readonly sample: SavedSample;
  /** Names of the files that were written there. */
  readonly files: readonly string[];
}

/** How the worksheets are to be taken. */
export interface DossierJudgeWish {
  /** Who looked, where a worksheet does not say. */
  readonly by?: string;
  /** Judge although readers disagree. */
  readonly asTheyStand?: true;
}

/** Judges every draw of the newest delivery that is answered and was not judged yet; what cannot be judged yet is said. Throws UserMistake where none can. */
export async function judgedInDossier(root: string, wish: DossierJudgeWish, around: Surroundings): Promise<readonly JudgedDraw[]> {
  return alone(root, around, async () => {
    const dossier = await openDossier(root);
    const { place } = await newestDelivery(dossier);
    if (place.draws.length === 0)
      throw new UserMistake(`No sample of delivery ${String(place.delivery)} was drawn yet: reeltally sample draw --fix.`);
    const open = place.draws.filter(({ judged }) => !judged);
    if (open.length === 0)
      throw new UserMistake(`Every sample of delivery ${String(place.delivery)} is judged: see sample.txt in ${place.folder}/spot.`);
    const judged: JudgedDraw[] = [];
    const refused = new Set<string>();
    for (const draw of open) {
      try {
        judged.push(await judgedHere(dossier, place, draw, wish, around));
      } catch (error) {
        if (!(error instanceof UserMistake)) throw error;
        refused.add(error.message);
      }
    }
    if (judged.length === 0) throw new UserMistake([...refused].join('\n'));
    for (const sentence of refused) around.say(sentence, 'remark');
    return judged;
  });
}

async function judgedHere(
  dossier: OpenDossier,
  place: DeliveryPlace,
  draw: DrawPlace,
  { by, asTheyStand }: DossierJudgeWish,
  around: Surroundings,
): Promise<JudgedDraw> {
  const { root } = dossier;
  const run = resultBehind(dossier, place, `${draw.folder}/draw.json`);
  const { value: result } = await readJsonFile(join(root, run.folder, 'findings.json'), 'findings');
  const worksheets = await answeredWorksheets(dossier, draw);
  const sample = await judgedSample({
    draw: join(root, draw.folder, 'draw.json'),
    worksheets: worksheets.map((name) => join(root, name)),
    ...(by === undefined ? {} : { by }),
  });
  if (sample.disagree.length > 0 && asTheyStand !== true) throw disagreement(sample, draw);
  // read again: another lot of the same throw may have taken its worksheet in
  await takeIn(await openDossier(root), worksheets, around);
  const after = await openDossier(root);
  const from = [`${draw.folder}/draw.json`, ...worksheets, `${run.folder}/findings.json`].map((name) => sourceIn(after, name));
  const files = await sampleFilesFor(sample, result);
  await putIn(root, [{ folder: draw.folder, files, from }], around);
  return { folder: draw.folder, sample, files: files.map(({ name }) => name) };
}

/** What is judged stays as it is: so readers come to terms before, and without knowing what hangs on it. */
function disagreement({ disagree }: SavedSample, { throwFolder }: DrawPlace): UserMistake {
  const names = (list: readonly string[]): string => list.join(', ');
  const told = disagree.slice(0, 10).map(({ id, question, yes, no }) => `  ${id}, ${question}: yes by ${names(yes)}; no by ${names(no)}.`);
  const more = disagree.length > told.length ? [`  and ${String(disagree.length - told.length)} more.`] : [];
  return new UserMistake(
    [
      `Those who looked at the sample in ${throwFolder} disagree, so it is not judged yet:`,
      ...told,
      ...more,
      'Look at these together and write what you agree on into your worksheets, then judge again. Where you go on disagreeing, judge with --as-they-stand: what one of you answers no counts as no.',
    ].join('\n'),
  );
}

/** The worksheets of a draw that somebody filled in: those that the page saved, and the sheets that are not as they were written. Throws UserMistake. */
async function answeredWorksheets({ root, journal }: OpenDossier, { throwFolder, worksheets }: DrawPlace): Promise<readonly string[]> {
  const written = newest(journal);
  const answered: string[] = [];
  for (const name of worksheets.filter((one) => !/\.html$/i.test(one))) {
    const line = written.get(name);
    // taken in for another lot of the same throw, it is answered as well
    if (line?.did !== 'written' || line.sha256 !== (await digestOfFile(join(root, name)))) answered.push(name);
  }
  if (answered.length > 0) return answered;
  throw new UserMistake(
    `No worksheet in ${throwFolder} is answered yet. Fill in worksheet.xlsx or worksheet.csv there, or save what worksheet.html gives into this folder.`,
  );
}
