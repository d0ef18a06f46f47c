import { stat } from 'node:fs/promises';
import { relative, sep } from 'node:path';
import type { PicturesFile } from '../model/pictures.js';
import type { Done, FixedPlan, SavedDraw } from '../model/sample.js';
import type { Worksheet } from '../model/worksheet.js';
import { UserMistake } from '../read/mistake.js';
import { jsonText } from '../report/json.js';
import { worksheetCsv, worksheetRows } from '../report/worksheet/csv.js';
import { worksheetHtml } from '../report/worksheet/html.js';
import { writeTables } from '../report/xlsx/tables.js';
import { drawSample, seedRemark } from '../sampling/draw.js';
import { savedDraw } from '../sampling/saved.js';
import { policyDigest } from './outputs/policy-digest.js';
import type { ResultFile } from './outputs/results-folder.js';
import { PICTURES_FILE } from './pictures.js';
import type { PlannedLot } from './sample-plan.js';
import type { Surroundings } from './surroundings.js';

/** A lot whose list and plan are settled; `fixed` is null where nothing shows when. */
export interface SettledLot {
  readonly planned: PlannedLot;
  readonly plan: Omit<FixedPlan, 'fixed'> & { readonly fixed: Done | null };
}

/** Files of a draw for one folder; empty is the folder of the draw itself, the others are those of its lots. */
export interface DrawFolder {
  readonly folder: string;
  readonly files: readonly ResultFile[];
}

/** The sample of one lot, and the folder in which it lies. */
export interface DrawnLot {
  readonly draw: SavedDraw;
  readonly folder: string;
  readonly lot: PlannedLot['lot'];
}

/** Every file that a draw puts into its folder or that of a lot. */
export const DRAW_FILES: ReadonlySet<string> = new Set(['draw.json', 'worksheet.csv', 'worksheet.html', 'worksheet.xlsx', PICTURES_FILE]);

/** Draws the sample of each lot from one throw of the dice; says where the seed is too short to be believed. Throws UserMistake. */
export function drawnLots(lots: readonly SettledLot[], seed: string, thrown: Done, { say }: Surroundings): readonly DrawnLot[] {
  const remark = seedRemark(seed);
  if (remark !== null) say(remark, 'remark');
  // lots of one batch share a throw of the dice; the name of the lot makes each draw one of its own
  return lots.map((one) => drawnLot(one, lots.length === 1 ? seed : `${seed},${one.planned.name.name}`, thrown));
}

/** Draws the sample of one lot from its own seed. Throws UserMistake. */
export function drawnLot({ planned: { lot, folder }, plan }: SettledLot, seed: string, thrown: Done): DrawnLot {
  const draw = drawSample({ unit: plan.unit, plan: plan.plan, seed, list: lot.list, extras: lot.extras });
  if ('refused' in draw) throw new UserMistake(draw.refused.join('\n'));
  return { draw: savedDraw(draw, { ...plan, thrown }), folder, lot };
}

/** From where the files of a batch are shown: `base` is the way from the folder of the draw to it, as links begin, or null; `pictures` what was made of them. */
export interface ShownFrom {
  readonly base: string | null;
  readonly pictures: PicturesFile | null;
}

/** The files of a draw: each lot's own, and the worksheet of all of them in each of its forms. The pictures themselves lie beside. */
export async function drawFolders(drawn: readonly DrawnLot[], worksheet: Worksheet, from: ShownFrom): Promise<readonly DrawFolder[]> {
  const page = { ...from, file: 'worksheet.json', digest: policyDigest };
  const [heads = [], ...rows] = worksheetRows(worksheet);
  const sheets: readonly ResultFile[] = [
    { name: 'worksheet.csv', content: worksheetCsv(worksheet) },
    { name: 'worksheet.html', content: worksheetHtml(worksheet, page) },
    { name: 'worksheet.xlsx', content: await writeTables([{ name: 'worksheet', heads, rows }]) },
    ...(from.pictures === null ? [] : [{ name: PICTURES_FILE, content: jsonText(from.pictures) }]),
  ];
  const own = drawn.map(({ draw, folder }) => ({ folder, files: [{ name: 'draw.json', content: jsonText(draw) }] }));
  const [only] = own;
  if (only !== undefined && own.length === 1) return [{ folder: only.folder, files: [...only.files, ...sheets] }];
  return [...own, { folder: '', files: sheets }];
}

/** The way from a page in `folder` to the batch, as the beginning of a link. Throws UserMistake where the batch is no folder. */
export async function wayTo(batch: string, folder: string): Promise<string> {
  const found = await stat(batch).catch(() => null);
  if (found?.isDirectory() !== true) throw new UserMistake(`--batch: ${batch} is not a folder; name the folder that the vendor sent.`);
  const steps = relative(folder, batch)
    .split(sep)
    .filter((step) => step !== '');
  return `./${steps.map((step) => (step === '..' ? step : encodeURIComponent(step))).join('/')}${steps.length === 0 ? '' : '/'}`;
}
