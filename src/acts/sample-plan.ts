import { readdir } from 'node:fs/promises';
import { basename, dirname, join } from 'node:path';
import type { Findings } from '../model/findings.js';
import type { Done, FixedPlan, LotName, SamplePlan, SampleUnit, Series } from '../model/sample.js';
import { readJsonFile } from '../read/json.js';
import { UserMistake } from '../read/mistake.js';
import { jsonText } from '../report/json.js';
import { plannedText } from '../report/sample-text.js';
import { planAgain } from '../sampling/again.js';
import { isAgreedPlan } from '../sampling/agreed.js';
import { listHash } from '../sampling/draw.js';
import { inTime, SECONDS } from '../sampling/in-time.js';
import { type ExtraGroup, type Lot, lotsOf } from '../sampling/lots.js';
import { operatingCurve } from '../sampling/operating-curve.js';
import { planInWords, protectionInWords, timeInWords } from '../sampling/words.js';
import { type PlanWish, plannerOf } from './inputs/sample-plan.js';
import type { ResultFile } from './outputs/results-folder.js';
import type { SettledLot } from './sample-draw.js';

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
  readonly agreed: boolean;
  readonly folder: string;
}

/** The files that fix list and plan of a lot. */
export const PLAN_FILES: ReadonlySet<string> = new Set(['plan.json', 'list.txt']);

/** Plans a draw from each lot of a saved result. Throws UserMistake. */
export async function plannedDraw(wish: LotWish): Promise<PlannedDraw> {
  const { value: result, sha256 } = await readJsonFile(wish.findings, 'findings');
  const { sampling } = result.agreement;
  const unit = wish.unit ?? sampling.unit;
  const { planFor, series } = await plannerOf(wish.plan, sampling);
  const lots = chosenLots(result, unit, wish.by, wish.reel);
  const planned = lots.map((lot, at): PlannedLot => {
    const plan = planFor(lot.list.length);
    return {
      lot: { ...lot, extras: lot.extras.filter(({ group }) => wish.extras.includes(group)) },
      name: { by: wish.by, name: lot.name },
      plan,
      agreed: isAgreedPlan(plan, unit, series !== null, sampling),
      folder: lots.length === 1 ? '' : folderName(lots, at),
    };
  });
  return { result, findings: { name: basename(wish.findings), sha256 }, unit, series, lots: planned };
}

/** SHA-256 of the list of a lot. */
export const hashOf = ({ list }: Lot): string => listHash(list.map(({ id }) => id));

/** List and plan of each lot as they are fixed before a seed is thrown; `before` tells how often a list was drawn from already. Throws UserMistake where a reason is wanting. */
export function fixedPlans(
  { result, findings, unit, series, lots }: PlannedDraw,
  { reason, before, fixed }: { readonly reason: string; readonly before: (listSha256: string) => number; readonly fixed: Done },
): readonly FixedPlan[] {
  const { batch, delivery } = result.run;
  const plans = lots.map(({ lot, name, plan, agreed }): FixedPlan => {
    const listSha256 = hashOf(lot);
    return {
      ...{ format: 'reeltally/plan/1', batch, delivery, lot: name, findings, unit, plan, series, agreed },
      ...{ before: before(listSha256), reason: reason.trim(), listSha256 },
      beside: lot.extras.map(({ id, reason: why }) => ({ id, reason: why })),
      fixed,
    };
  });
  const wanting = plans.flatMap(reasonWanting);
  if (wanting.length > 0 && reason.trim() === '') throw new UserMistake([...wanting, 'Say why with --reason TEXT; it is kept.'].join('\n'));
  // a reason is kept where one is needed
  return plans.map((plan) => (reasonWanting(plan).length > 0 ? plan : { ...plan, reason: '' }));
}

function reasonWanting({ agreed, before, lot, plan, unit }: FixedPlan): readonly string[] {
  return [
    ...(agreed ? [] : [`${lot.name}: this is not the plan that the agreement names, or not of its strength: ${planInWords(plan, unit)}`]),
    ...(before === 0
      ? []
      : [
          `${lot.name}: this list was drawn from already. Who draws until the sample is kind proves nothing: every draw stays on record, and a lot is passed only where none of them rejects it.`,
        ]),
  ];
}

/** The files that fix list and plan of a lot. */
export function planFiles(plan: FixedPlan, { list }: Lot): readonly ResultFile[] {
  return [
    { name: 'plan.json', content: jsonText(plan) },
    { name: 'list.txt', content: list.map(({ id }) => `${id}\n`).join('') },
  ];
}

/** The lot of a plan that was fixed, found again in the result that it names. Throws UserMistake where its list or its plan comes out otherwise. */
export function lotFixed(fixed: Omit<FixedPlan, 'format' | 'fixed'>, result: Findings, folder: string): PlannedLot {
  const lot = lotsOf(result, fixed.unit, fixed.lot.by).find(({ name }) => name === fixed.lot.name);
  if (lot === undefined || hashOf(lot) !== fixed.listSha256)
    throw new UserMistake(
      `The list of ${fixed.lot.name} is not the one that was fixed: the result that it was made from has changed. Fix it again.`,
    );
  const plan = planAgain(fixed.plan, lot.list.length, fixed.series);
  if ('refused' in plan) throw new UserMistake(plan.refused.join('\n'));
  const wanted = new Set(fixed.beside.map(({ id, reason }) => `${id}\n${reason}`));
  const extras = lot.extras.filter(({ id, reason }) => wanted.has(`${id}\n${reason}`));
  const agreed = isAgreedPlan(plan, fixed.unit, fixed.series !== null, result.agreement.sampling);
  return { lot: { ...lot, extras }, name: fixed.lot, plan, agreed, folder };
}

/** What a draw into this folder goes by: what was fixed there, else the wish. Throws UserMistake where options contradict what was fixed. */
export async function settledIn(
  out: string,
  findings: string,
  options: readonly string[],
  wish: Omit<LotWish, 'findings'>,
  reason: string,
): Promise<{ readonly result: Findings; readonly lots: readonly SettledLot[]; readonly fixed: boolean }> {
  const { value: result, sha256 } = await readJsonFile(findings, 'findings');
  const folders = await fixedFolders(out);
  if (folders.length === 0) {
    const planned = await plannedDraw({ ...wish, findings });
    const plans = fixedPlans(planned, { reason, before: () => 0, fixed: { at: '', by: '' } });
    const lots = planned.lots.flatMap((lot, at) =>
      plans[at] === undefined ? [] : [{ planned: lot, plan: { ...plans[at], fixed: null } }],
    );
    return { result, lots, fixed: false };
  }
  if (options.length > 0)
    throw new UserMistake(
      `${options[0] ?? ''}: list and plan are fixed in ${out}, and only the seed is given now. Leave it out, or fix them anew in another folder.`,
    );
  const lots: SettledLot[] = [];
  for (const folder of folders) {
    const { value: plan } = await readJsonFile(join(out, folder, 'plan.json'), 'plan');
    if (plan.findings.sha256 !== sha256)
      throw new UserMistake(
        `${findings} is not the result from which list and plan were fixed in ${join(out, folder)}: its SHA-256 is another.`,
      );
    lots.push({ planned: lotFixed(plan, result, folder), plan });
  }
  return { result, lots, fixed: true };
}

/** The folders in this one in which a plan lies: itself, as the empty name, or those of its lots. */
async function fixedFolders(out: string): Promise<readonly string[]> {
  const names = await readdir(out, { recursive: true }).catch(() => []);
  const plans = names.filter((name) => basename(name) === 'plan.json').map((name) => dirname(name));
  return plans.map((name) => (name === '.' ? '' : name)).toSorted();
}

/** The time there is for looking, as texts that somebody wrote. */
export interface TimeTexts {
  readonly minutes?: string;
  readonly secondsPerUnit?: string;
}

/** What the plan of each lot protects against, and what can be learned in the time there is, in lines of this width. Throws UserMistake. */
export function planTexts({ result: { run }, unit, lots }: PlannedDraw, texts: TimeTexts, width: number): readonly string[] {
  const time = timeOf(texts, unit);
  const sizes = lots.map(({ lot }) => lot.list.length);
  const learned = time === null ? null : inTime(sizes, time);
  return lots.map(({ lot, name, plan, agreed }, at) => {
    const beside = new Set(lot.extras.map(({ id }) => id)).size;
    const told = learned?.[at];
    const heading = `${name.by === 'reel' ? `Reel ${name.name}, delivery ${String(run.delivery)} of ${run.batch}` : `Batch ${name.name}, delivery ${String(run.delivery)}`}: a lot of ${String(lot.list.length)} ${unit}${lot.list.length === 1 ? '' : 's'}`;
    return plannedText(
      {
        name: heading,
        unit,
        plan: planInWords(plan, unit),
        protection: [
          ...(agreed ? [] : ['This is not the plan that the agreement names, or not of its strength.']),
          ...protectionInWords(plan, unit),
        ],
        time: told === undefined ? [] : timeInWords(told, plan, unit, beside),
        curve: operatingCurve(plan, 12),
        listSha256: hashOf(lot),
        extras: beside,
      },
      width,
    );
  });
}

function timeOf({ minutes, secondsPerUnit }: TimeTexts, unit: SampleUnit): { readonly minutes: number; readonly seconds: number } | null {
  const whole = (option: string, text: string, most: number): number => {
    const value = /^\d{1,6}$/.test(text) ? Number(text) : 0;
    if (value < 1 || value > most) throw new UserMistake(`${option}: ${text} is no whole number from 1 to ${String(most)}.`);
    return value;
  };
  if (minutes === undefined) {
    if (secondsPerUnit !== undefined)
      throw new UserMistake('--seconds-per-unit says how long a look takes; say with --minutes how much time there is.');
    return null;
  }
  const seconds = secondsPerUnit === undefined ? SECONDS[unit] : whole('--seconds-per-unit', secondsPerUnit, 86_400);
  return { minutes: whole('--minutes', minutes, 100_000), seconds };
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
