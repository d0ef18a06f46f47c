import type { Policies } from '../../../src/model/agreement.js';
import type { CollationRecord } from '../../../src/model/collation-record.js';
import type { Film } from '../film/film.js';
import type { Random } from '../film/random.js';
import { type PlanOptions, planOf, type ReturnPlan } from '../plan.js';
import { recordOf } from '../record/record-of.js';
import { ABSENCE_FAULTS } from './absences.js';
import { CAPTURE_FAULTS } from './captures.js';
import { DATE_FAULTS } from './dates.js';
import { DOCUMENT_FAULTS } from './documents.js';
import { expectedOf } from './expected.js';
import { HALF_FAULTS } from './halves.js';
import { IDENTITY_FAULTS } from './identity.js';
import { PAGE_FAULTS } from './page.js';
import { PRESENCE_FAULTS } from './presence.js';
import { RECORD_FAULTS } from './record.js';
import { REEL_FAULTS } from './reels.js';
import type { Expected, Fault, Outcome, Scene, Site } from './scene.js';
import { SEQUENCE_FAULTS } from './sequence.js';
import { TAKE_FAULTS } from './takes.js';

export type { Expected, Fault, Scene, Site } from './scene.js';

/** Every kind of mistake that can be planted. */
export const FAULTS: readonly Fault[] = [
  ...CAPTURE_FAULTS,
  ...SEQUENCE_FAULTS,
  ...HALF_FAULTS,
  ...REEL_FAULTS,
  ...PRESENCE_FAULTS,
  ...TAKE_FAULTS,
  ...ABSENCE_FAULTS,
  ...IDENTITY_FAULTS,
  ...DATE_FAULTS,
  ...PAGE_FAULTS,
  ...DOCUMENT_FAULTS,
  ...RECORD_FAULTS,
];

/** A spoilt return with everything a verification of it must find. */
export interface Spoilt {
  readonly film: Film;
  readonly record: CollationRecord;
  readonly plan: ReturnPlan;
  readonly expected: readonly Expected[];
  /** Terms under which the faults count, where the usual ones are not enough. */
  readonly policies: Partial<Policies>;
  /** The layout in which alone the faults can be seen; null where either will do. */
  readonly profile: 'page-mods' | null;
}

/** The kind of that name. */
export function faultOf(kind: string): Fault {
  const fault = FAULTS.find((each) => each.kind === kind);
  if (fault === undefined) throw new RangeError(`There is no fault called ${kind}.`);
  return fault;
}

/** Plants one kind of fault somewhere on the film; null when the film offers no place for it. */
export function spoil(film: Film, fault: Fault, random: Random, options: PlanOptions = {}): Spoilt | null {
  return spoilAll(film, [fault], random, options);
}

/**
 * Plants several kinds, none touching another's frames or issues; null when one of them finds no place. What the vendor has `corrected` keeps
 * its place and is not planted there: the others stand where they stood.
 */
export function spoilAll(
  film: Film,
  faults: readonly Fault[],
  random: Random,
  options: PlanOptions = {},
  corrected: ReadonlySet<string> = new Set(),
): Spoilt | null {
  const shaped = faults.reduce<Film | null>(
    (current, fault) => (current === null ? null : fault.reshape === undefined ? current : fault.reshape(current, random)),
    film,
  );
  if (shaped === null) return null;
  const plan = planOf(
    shaped,
    faults.reduce<PlanOptions>((all, fault) => ({ ...all, ...fault.plan }), options),
  );
  const scene: Scene = { film: shaped, plan, record: recordOf(shaped) };
  const sites = choose(scene, faults, random);
  if (sites === null) return null;
  const planted: { kind: string; outcome: Outcome }[] = [];
  for (const [i, fault] of faults.entries()) {
    const site = sites[i];
    if (site === undefined) return null;
    if (corrected.has(fault.kind)) continue;
    const outcomes = fault.plant(scene, site, random);
    if (outcomes.length === 0) return null;
    planted.push(...outcomes.map((outcome) => ({ kind: fault.kind, outcome })));
  }
  const numbered = faults.reduce(
    (current, fault, i) =>
      fault.numbering === undefined || sites[i] === undefined || corrected.has(fault.kind) ? current : fault.numbering(current, sites[i]),
    shaped,
  );
  const policies = faults.reduce<Partial<Policies>>((all, fault) => ({ ...all, ...fault.policies }), {});
  return {
    film: shaped,
    record: scene.record,
    plan: scene.plan,
    expected: expectedOf(numbered, planted),
    policies,
    profile: faults.some((fault) => fault.profile === 'page-mods') ? 'page-mods' : null,
  };
}

/** Draws as many kinds as fit together on the film, up to `count`. */
export function spoilSome(film: Film, count: number, random: Random, options: PlanOptions = {}): Spoilt | null {
  const kinds = random.shuffled(
    FAULTS.filter(
      (fault) => fault.alone !== true && fault.policies === undefined && fault.plan === undefined && fault.reshape === undefined,
    ),
  );
  const scene: Scene = { film, plan: planOf(film, options), record: recordOf(film) };
  const taken: Fault[] = [];
  for (const fault of kinds) {
    if (taken.length === count) break;
    if (fault.sites(scene).length > 0) taken.push(fault);
  }
  while (taken.length > 0) {
    for (let attempt = 0; attempt < 5; attempt += 1) {
      const spoilt = spoilAll(film, taken, random, options);
      if (spoilt !== null) return spoilt;
    }
    taken.pop();
  }
  return null;
}

/** One site for each fault, no two of which touch; null when none is found. The fault with the fewest sites chooses first. */
function choose(scene: Scene, faults: readonly Fault[], random: Random): Site[] | null {
  const open = faults
    .map((fault, index) => ({ index, sites: random.shuffled(fault.sites(scene)) }))
    .sort((a, b) => a.sites.length - b.sites.length || a.index - b.index);
  const chosen = new Map<number, Site>();
  let steps = 0;
  const place = (at: number): boolean => {
    const next = open[at];
    if (next === undefined) return true;
    for (const site of next.sites) {
      steps += 1;
      if (steps > MOST_STEPS) return false;
      if ([...chosen.values()].some((other) => touch(site, other))) continue;
      chosen.set(next.index, site);
      if (place(at + 1)) return true;
      chosen.delete(next.index);
    }
    return false;
  };
  return place(0) ? faults.flatMap((_, index) => chosen.get(index) ?? []) : null;
}

/** Where so many trials found nothing the film has no room. */
const MOST_STEPS = 4000;

function touch(a: Site, b: Site): boolean {
  return a.pictures.some((each) => b.pictures.includes(each)) || a.issues.some((each) => b.issues.includes(each));
}
