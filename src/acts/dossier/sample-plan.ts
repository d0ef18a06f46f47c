import { join } from 'node:path';
import { newest } from '../../dossier/journal.js';
import { type DeliveryPlace, drawFolder, type RunPlace } from '../../dossier/places.js';
import type { FixedPlan } from '../../model/sample.js';
import { readJsonFile } from '../../read/json.js';
import { UserMistake } from '../../read/mistake.js';
import { fixedPlans, type LotWish, type PlannedDraw, planFiles, plannedDraw } from '../sample-plan.js';
import type { Surroundings } from '../surroundings.js';
import { newestDelivery } from './deliveries.js';
import { alone } from './lock.js';
import { type OpenDossier, openDossier } from './open.js';
import { nameIn, putIn, sourceIn } from './write.js';

/** What a person says about a draw; the result is the newest of the dossier. */
export type DossierLotWish = Omit<LotWish, 'findings'>;

/** Plans a draw from the newest delivery of the dossier; nothing is written. Throws UserMistake. */
export async function plannedInDossier(root: string, wish: DossierLotWish): Promise<PlannedDraw> {
  const { run } = await newestDelivery(await openDossier(root));
  return plannedDraw({ ...wish, findings: join(root, run.folder, 'findings.json') });
}

/** Where list and plan were fixed; `written` is empty where they were fixed before, just so. */
export interface FixedHere {
  readonly folder: string;
  readonly written: readonly string[];
}

/** Fixes list and plan of each lot, in a folder of their own, before the seed is thrown. Throws UserMistake. */
export async function fixedInDossier(root: string, wish: DossierLotWish, reason: string, around: Surroundings): Promise<FixedHere> {
  return alone(root, around, async () => {
    const dossier = await openDossier(root);
    const { run, place } = await newestDelivery(dossier);
    const findings = `${run.folder}/findings.json`;
    const planned = await plannedDraw({ ...wish, findings: join(root, findings) });
    const drawn = await drawnLists(dossier, place);
    const before = (listSha256: string): number => drawn.filter((list) => list === listSha256).length;
    const plans = fixedPlans(planned, { reason, before, fixed: { at: around.now, by: around.who } });
    const there = await fixedSo(dossier, place, plans);
    if (there !== null) return { folder: there, written: [] };
    const numbers = [...place.draws, ...place.fixed].map(({ throwFolder }) => Number(/draw-(\d+)/.exec(throwFolder)?.[1] ?? 0));
    const folder = drawFolder(place.delivery, Math.max(0, ...numbers) + 1);
    const from = [sourceIn(dossier, findings)];
    const made = planned.lots.flatMap(({ lot, folder: own }, at) => {
      const plan = plans[at];
      return plan === undefined ? [] : [{ folder: own === '' ? folder : nameIn(folder, own), files: planFiles(plan, lot), from }];
    });
    return { folder, written: await putIn(root, made, around) };
  });
}

/** The hashes of the lists from which was drawn already, once for each draw. */
async function drawnLists({ root }: OpenDossier, { draws }: DeliveryPlace): Promise<readonly string[]> {
  const lists: string[] = [];
  for (const { folder } of draws) lists.push((await readJsonFile(join(root, folder, 'draw.json'), 'draw')).value.listSha256);
  return lists;
}

/** The folder in which the very same was fixed last and nothing was drawn yet; null where there is none. */
async function fixedSo(dossier: OpenDossier, place: DeliveryPlace, plans: readonly FixedPlan[]): Promise<string | null> {
  const waiting = await waitingPlans(dossier, place);
  // when it was fixed, and from which of two results with the same list, makes no other plan of it
  const key = (plan: FixedPlan): string => JSON.stringify({ ...plan, fixed: null, findings: null });
  const same = waiting.length === plans.length && waiting.every(({ plan }) => plans.some((one) => key(one) === key(plan)));
  return same ? (waiting[0]?.throwFolder ?? null) : null;
}

/** A plan that was fixed and waits for its seed, with the result that it names. */
export interface WaitingPlan {
  readonly folder: string;
  readonly throwFolder: string;
  readonly plan: FixedPlan;
}

/** The plans that were fixed last, where nothing was drawn by them yet. */
export async function waitingPlans({ root }: OpenDossier, { fixed, draws }: DeliveryPlace): Promise<readonly WaitingPlan[]> {
  const number = (folder: string): number => Number(/draw-(\d+)/.exec(folder)?.[1] ?? 0);
  const last = Math.max(0, ...[...fixed, ...draws].map(({ throwFolder }) => number(throwFolder)));
  const waiting: WaitingPlan[] = [];
  for (const { folder, throwFolder } of fixed)
    if (number(throwFolder) === last)
      waiting.push({ folder, throwFolder, plan: (await readJsonFile(join(root, folder, 'plan.json'), 'plan')).value });
  return waiting;
}

/** The result that a file of the dossier was made from, by what the journal says. Throws UserMistake where it does not say. */
export function resultBehind({ journal }: OpenDossier, { runs }: DeliveryPlace, name: string): RunPlace {
  const sources = newest(journal).get(name)?.from ?? [];
  const run = runs.find(({ folder }) => sources.some((source) => source.name === `${folder}/findings.json`));
  if (run === undefined) throw new UserMistake(`the journal does not say which result ${name} was made from.`);
  return run;
}
