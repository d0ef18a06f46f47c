import { stat } from 'node:fs/promises';
import { basename, join, relative, sep } from 'node:path';
import type { Findings } from '../model/findings.js';
import type { LotName, SamplePlan, SampleUnit, SavedDraw } from '../model/sample.js';
import { readJsonFile } from '../read/json.js';
import { UserMistake } from '../read/mistake.js';
import { jsonText } from '../report/json.js';
import { plannedText } from '../report/sample-text.js';
import { worksheetCsv, worksheetRows } from '../report/worksheet/csv.js';
import { worksheetHtml } from '../report/worksheet/html.js';
import { writeTables } from '../report/xlsx/tables.js';
import { drawSample, listHash, seedRemark } from '../sampling/draw.js';
import { EXTRA_GROUPS, type ExtraGroup, type Lot, lotsOf } from '../sampling/lots.js';
import { operatingCurve } from '../sampling/operating-curve.js';
import { savedDraw } from '../sampling/saved.js';
import { planInWords, protectionInWords } from '../sampling/words.js';
import { worksheetOf } from '../sampling/worksheet.js';
import { policyDigest } from './policy-digest.js';
import { type ResultFile, refuseExisting, writeResults } from './results-folder.js';
import { type PlanArguments, plannerOf } from './sample-plan.js';
import { print, tell, widthOf } from './streams.js';

/** Options of `sample draw` as they come from the command line. */
export interface DrawArguments extends PlanArguments {
  readonly batch?: string;
  readonly lot?: string;
  readonly reel?: string;
  readonly unit?: string;
  readonly seed?: string;
  readonly extras?: readonly string[];
  readonly out?: string;
  readonly replace?: true;
  readonly quiet?: true;
}

/** Every file that a draw puts into its folder. */
export const DRAW_FILES: ReadonlySet<string> = new Set(['draw.json', 'list.txt', 'worksheet.csv', 'worksheet.html', 'worksheet.xlsx']);
const DRAWN_BESIDE: readonly ExtraGroup[] = ['record', 'neighbours', 'ends', 'splices'];

interface PlannedLot {
  readonly lot: Lot;
  readonly name: LotName;
  readonly plan: SamplePlan;
  readonly folder: string;
}

/** Says what the plan protects against, and with a seed draws the sample of each lot and writes its worksheets. Gives 0 when that was done. Throws UserMistake. */
export async function drawCommand(path: string, options: DrawArguments): Promise<number> {
  const { value: result, sha256 } = await readJsonFile(path, 'findings');
  const unit = oneOf('--unit', options.unit ?? result.agreement.sampling.unit, ['page', 'issue']);
  const by = oneOf('--lot', options.lot ?? 'reel', ['reel', 'batch']);
  const groups = chosenExtras(options.extras);
  const { planFor, series } = await plannerOf(options, result.agreement.sampling);
  const lots = chosenLots(result, unit, by, options.reel);
  const out = options.out ?? null;
  if (options.seed !== undefined && out === null)
    throw new UserMistake('--seed draws the sample: name a new folder for the draw and its worksheets with --out.');
  const planned = lots.map(
    (lot, at): PlannedLot => ({
      lot: { ...lot, extras: lot.extras.filter(({ group }) => groups.includes(group)) },
      name: { by, name: lot.name },
      plan: planFor(lot.list.length),
      folder: out === null ? '' : lots.length === 1 ? out : join(out, folderName(lots, at)),
    }),
  );
  const quiet = options.quiet ?? false;
  // the plan and the hash of the list are said before anything is drawn
  if (!quiet || options.seed === undefined) await print(planned.map((one) => planText(one, result, unit)).join('\n'));
  if (options.seed === undefined) {
    tell('\nNothing is drawn yet. Throw dice for at least 24 digits and give them with --seed, and a new folder with --out.\n');
    return 0;
  }
  const remark = seedRemark(options.seed);
  if (remark !== null) tell(`reeltally: ${remark}\n`);
  for (const { folder } of planned) await refuseExisting(folder, options.replace ?? false, DRAW_FILES);
  for (const one of planned) {
    // lots of one batch share a throw of the dice; the name of the lot makes each draw one of its own
    const seed = planned.length === 1 ? options.seed : `${options.seed},${one.name.name}`;
    const wish = { unit, plan: one.plan, seed, list: one.lot.list, extras: one.lot.extras };
    const draw = drawSample(wish);
    if ('refused' in draw) throw new UserMistake(draw.refused.join('\n'));
    const { batch, delivery } = result.run;
    const saved = savedDraw(draw, { batch, delivery, lot: one.name, findings: { name: basename(path), sha256 }, series });
    await writeResults(one.folder, await filesOf(saved, one, result, options.batch ?? null), options.replace ?? false, DRAW_FILES);
    if (!quiet) tell(written(saved, one.folder));
  }
  return 0;
}

async function filesOf(
  saved: SavedDraw,
  { lot, folder }: PlannedLot,
  result: Findings,
  batch: string | null,
): Promise<readonly ResultFile[]> {
  const worksheet = worksheetOf(saved, lot, result.titles);
  const page = {
    base: batch === null ? null : await wayTo(batch, folder),
    file: 'worksheet.json',
    digest: policyDigest,
  };
  const [heads = [], ...rows] = worksheetRows(worksheet);
  return [
    { name: 'draw.json', content: jsonText(saved) },
    { name: 'list.txt', content: lot.list.map(({ id }) => `${id}\n`).join('') },
    { name: 'worksheet.csv', content: worksheetCsv(worksheet) },
    { name: 'worksheet.html', content: worksheetHtml(worksheet, page) },
    { name: 'worksheet.xlsx', content: await writeTables([{ name: 'worksheet', heads, rows }]) },
  ];
}

/** The way from a page in `folder` to the batch, as the beginning of a link. */
async function wayTo(batch: string, folder: string): Promise<string> {
  const found = await stat(batch).catch(() => null);
  if (found?.isDirectory() !== true) throw new UserMistake(`--batch: ${batch} is no folder; name the folder that the vendor sent.`);
  const steps = relative(folder, batch)
    .split(sep)
    .filter((step) => step !== '');
  return `./${steps.map((step) => (step === '..' ? step : encodeURIComponent(step))).join('/')}${steps.length === 0 ? '' : '/'}`;
}

function planText({ lot, name, plan }: PlannedLot, { run }: Findings, unit: SampleUnit): string {
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
    widthOf(process.stdout),
  );
}

function written({ unit, drawn, extras, lot }: SavedDraw, folder: string): string {
  const beside = extras.length === 0 ? '' : ` and ${String(extras.length)} beside them for a reason`;
  return `\n${lot.by === 'reel' ? 'Reel' : 'Batch'} ${lot.name}: drew ${String(drawn.length)} ${unit}${drawn.length === 1 ? '' : 's'}${beside}. Written to ${folder}: ${[...DRAW_FILES].join(', ')}.\n`;
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

function chosenExtras(wishes: readonly string[] | undefined): readonly ExtraGroup[] {
  if (wishes === undefined) return DRAWN_BESIDE;
  const names = wishes.flatMap((wish) => wish.split(',')).filter((name) => name !== '');
  if (names.length === 1 && names[0] === 'none') return [];
  const unknown = names.filter((name) => !EXTRA_GROUPS.some((group) => group === name));
  if (unknown.length > 0 || names.length === 0)
    throw new UserMistake(
      `--extras: ${unknown.length === 0 ? 'no group is named' : `there is no group ${unknown.join(', ')}`}. There are ${EXTRA_GROUPS.join(', ')}, or none.`,
    );
  return EXTRA_GROUPS.filter((group) => names.includes(group));
}

function oneOf<Choice extends string>(option: string, text: string, choices: readonly Choice[]): Choice {
  const choice = choices.find((one) => one === text);
  if (choice === undefined) throw new UserMistake(`${option}: ${text} is none of ${choices.join(', ')}.`);
  return choice;
}

/** `reel-00417`, with whatever a file system might take amiss replaced; told apart by a count where two reels would share it. */
function folderName(lots: readonly Lot[], at: number): string {
  const plain = lots.map(({ name }) => `reel-${name.replace(/[^A-Za-z0-9_-]/g, '_').slice(0, 60)}`);
  const mine = plain[at] ?? '';
  return plain.indexOf(mine) === at && plain.lastIndexOf(mine) === at ? mine : `${mine}-${String(at + 1)}`;
}
