import { stat } from 'node:fs/promises';
import { basename, relative, sep } from 'node:path';
import type { Findings } from '../model/findings.js';
import type { LotName, SamplePlan, SampleUnit, SavedDraw, Series } from '../model/sample.js';
import { readJsonFile } from '../read/json.js';
import { UserMistake } from '../read/mistake.js';
import { jsonText } from '../report/json.js';
import { plannedText } from '../report/sample-text.js';
import { worksheetCsv, worksheetRows } from '../report/worksheet/csv.js';
import { worksheetHtml } from '../report/worksheet/html.js';
import { writeTables } from '../report/xlsx/tables.js';
import { drawSample, listHash, seedRemark } from '../sampling/draw.js';
import { type ExtraGroup, type Lot, lotsOf } from '../sampling/lots.js';
import { operatingCurve } from '../sampling/operating-curve.js';
import { savedDraw } from '../sampling/saved.js';
import { planInWords, protectionInWords } from '../sampling/words.js';
import { worksheetOf } from '../sampling/worksheet.js';
import { type PlanWish, plannerOf } from './inputs/sample-plan.js';
import { policyDigest } from './outputs/policy-digest.js';
import type { ResultFile } from './outputs/results-folder.js';
import type { Surroundings } from './surroundings.js';

/** From what is drawn: the saved result, the kind of lot, one reel alone or all, and the unit (the agreement's when left out). */
export interface LotWish {
  readonly findings: string;
  readonly by: LotName['by'];
  readonly reel?: string;
  readonly unit?: SampleUnit;
  /** What is looked at beside the sample. */
  readonly extras: readonly ExtraGroup[];
  readonly plan: PlanWish;
}

/** How a sample of each lot would be drawn; nothing is drawn yet. */
export interface PlannedDraw {
  readonly result: Findings;
  readonly findings: { readonly name: string; readonly sha256: string };
  readonly unit: SampleUnit;
  readonly series: Series | null;
  readonly lots: readonly PlannedLot[];
}

/** One lot with its plan; `folder` tells the lots of one draw apart, and is empty where there is only one. */
export interface PlannedLot {
  readonly lot: Lot;
  readonly name: LotName;
  readonly plan: SamplePlan;
  readonly folder: string;
}

/** The sample of one lot, and its files for the folder of that name. */
export interface DrawnLot {
  readonly draw: SavedDraw;
  readonly folder: string;
  readonly files: readonly ResultFile[];
}

/** Every file that a draw puts into its folder. */
export const DRAW_FILES: ReadonlySet<string> = new Set(['draw.json', 'list.txt', 'worksheet.csv', 'worksheet.html', 'worksheet.xlsx']);

/** Plans a draw from each lot of a saved result. Throws UserMistake. */
export async function plannedDraw(wish: LotWish): Promise<PlannedDraw> {
  const { value: result, sha256 } = await readJsonFile(wish.findings, 'findings');
  const unit = wish.unit ?? result.agreement.sampling.unit;
  const { planFor, series } = await plannerOf(wish.plan, result.agreement.sampling);
  const lots = chosenLots(result, unit, wish.by, wish.reel);
  const planned = lots.map(
    (lot, at): PlannedLot => ({
      lot: { ...lot, extras: lot.extras.filter(({ group }) => wish.extras.includes(group)) },
      name: { by: wish.by, name: lot.name },
      plan: planFor(lot.list.length),
      folder: lots.length === 1 ? '' : folderName(lots, at),
    }),
  );
  return { result, findings: { name: basename(wish.findings), sha256 }, unit, series, lots: planned };
}

/** Draws the sample of each lot from the seed; `baseOf` gives the way from the folder of a lot to the batch, as links in it begin, or null. Throws UserMistake. */
export async function drawnLots(
  { result, findings, unit, series, lots }: PlannedDraw,
  { seed: thrown, baseOf }: { readonly seed: string; readonly baseOf: (folder: string) => Promise<string | null> },
  { say }: Surroundings,
): Promise<readonly DrawnLot[]> {
  const remark = seedRemark(thrown);
  if (remark !== null) say(remark, 'remark');
  const drawn: DrawnLot[] = [];
  for (const one of lots) {
    // lots of one batch share a throw of the dice; the name of the lot makes each draw one of its own
    const seed = lots.length === 1 ? thrown : `${thrown},${one.name.name}`;
    const draw = drawSample({ unit, plan: one.plan, seed, list: one.lot.list, extras: one.lot.extras });
    if ('refused' in draw) throw new UserMistake(draw.refused.join('\n'));
    const { batch: name, delivery } = result.run;
    const saved = savedDraw(draw, { batch: name, delivery, lot: one.name, findings, series });
    drawn.push({ draw: saved, folder: one.folder, files: await filesOf(saved, one.lot, result, await baseOf(one.folder)) });
  }
  return drawn;
}

async function filesOf(saved: SavedDraw, lot: Lot, result: Findings, base: string | null): Promise<readonly ResultFile[]> {
  const worksheet = worksheetOf(saved, lot, result.titles);
  const page = { base, file: 'worksheet.json', digest: policyDigest };
  const [heads = [], ...rows] = worksheetRows(worksheet);
  return [
    { name: 'draw.json', content: jsonText(saved) },
    { name: 'list.txt', content: lot.list.map(({ id }) => `${id}\n`).join('') },
    { name: 'worksheet.csv', content: worksheetCsv(worksheet) },
    { name: 'worksheet.html', content: worksheetHtml(worksheet, page) },
    { name: 'worksheet.xlsx', content: await writeTables([{ name: 'worksheet', heads, rows }]) },
  ];
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

/** What the plan of a lot protects against, in lines of this width. */
export function planText({ lot, name, plan }: PlannedLot, { result: { run }, unit }: PlannedDraw, width: number): string {
  const heading = `${name.by === 'reel' ? `Reel ${name.name}, delivery ${String(run.delivery)} of ${run.batch}` : `Batch ${name.name}, delivery ${String(run.delivery)}`}: a lot of ${String(lot.list.length)} ${unit}s`;
  return plannedText(
    {
      name: heading,
      unit,
      plan: planInWords(plan, unit),
      protection: protectionInWords(plan, unit),
      curve: operatingCurve(plan, 12),
      listSha256: listHash(lot.list.map(({ id }) => id)),
      extras: new Set(lot.extras.map(({ id }) => id)).size,
    },
    width,
  );
}

function chosenLots(result: Findings, unit: SampleUnit, by: LotName['by'], reel: string | undefined): readonly Lot[] {
  const lots = lotsOf(result, unit, by);
  if (lots.length === 0) throw new UserMistake('No page came back in this return: there is nothing to draw from.');
  if (reel === undefined) return lots;
  if (by === 'batch') throw new UserMistake('--reel names one lot of several, and with --lot batch there is only one.');
  const found = lots.filter(({ name }) => name === reel);
  if (found.length === 0)
    throw new UserMistake(`--reel: no page of a reel ${reel} came back. There are ${lots.map(({ name }) => name).join(', ')}.`);
  return found;
}

/** `reel-00417`, with whatever a file system might take amiss replaced; told apart by a count where two reels would share it. */
function folderName(lots: readonly Lot[], at: number): string {
  const plain = lots.map(({ name }) => `reel-${name.replace(/[^A-Za-z0-9_-]/g, '_').slice(0, 60)}`);
  const mine = plain[at] ?? '';
  return plain.indexOf(mine) === at && plain.lastIndexOf(mine) === at ? mine : `${mine}-${String(at + 1)}`;
}
