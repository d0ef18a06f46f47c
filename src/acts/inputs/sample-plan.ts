import type { Sampling } from '../../model/agreement.js';
import type { InspectionLevel, SamplePlan, Series, Severity } from '../../model/sample.js';
import { UserMistake } from '../../read/mistake.js';
import { USUAL_SHARE } from '../../sampling/agreed.js';
import { limitingQualityPlan } from '../../sampling/limiting-quality.js';
import { standingAfter } from '../../sampling/saved.js';
import { sharePlan } from '../../sampling/share-plan.js';
import { tablePlan } from '../../sampling/table-plan.js';
import { readLotHistory } from './lot-history.js';

/** What makes a plan, as texts that somebody wrote; what is left out is the agreement's. */
export interface PlanWish {
  readonly plan?: string;
  readonly limit?: string;
  readonly risk?: string;
  readonly accept?: string;
  readonly level?: string;
  readonly aql?: string;
  readonly severity?: string;
  readonly ledger?: string;
  readonly reducedAgreed?: true;
  readonly resumed?: true;
  readonly percent?: string;
  readonly atLeast?: string;
  readonly stated?: string;
}

/** A way to plan for a lot of any size, and the lots before where the switching rules were followed. */
export interface Planner {
  readonly planFor: (lot: number) => SamplePlan;
  readonly series: Series | null;
}

const LEVELS: readonly InspectionLevel[] = ['I', 'II', 'III', 'S-1', 'S-2', 'S-3', 'S-4'];
const SEVERITIES: readonly Severity[] = ['normal', 'tightened', 'reduced'];
/** The names of the plans, and the options that each of them takes. */
const PLANS: ReadonlyMap<string, readonly (keyof PlanWish)[]> = new Map([
  ['limiting-quality', ['limit', 'risk', 'accept']],
  ['table', ['level', 'aql', 'severity', 'ledger', 'reducedAgreed', 'resumed']],
  ['share', ['percent', 'atLeast', 'accept', 'stated']],
]);

/** The options that say something of list or plan, as they are typed; of what else stands there only those that choose a lot. */
export function wishedOf(options: PlanWish & { readonly [Lot in (typeof CHOOSE)[number]]?: unknown }): readonly string[] {
  const names: readonly (keyof PlanWish | (typeof CHOOSE)[number])[] = [...CHOOSE, 'plan', ...[...PLANS.values()].flat()];
  return [...new Set(names)].filter((name) => options[name] !== undefined).map(flag);
}

/** Options that choose what is drawn from. */
const CHOOSE = ['lot', 'reel', 'unit', 'extras', 'minutes'] as const;

/** Makes a planner of the options; what is not given is taken from the agreement. Throws UserMistake, as the planner does for a lot that no such plan fits. */
export async function plannerOf(options: PlanWish, agreed: Sampling): Promise<Planner> {
  const name = options.plan ?? (agreed.plan === 'acceptance-quality-limit' ? 'table' : agreed.plan);
  const own = PLANS.get(name);
  if (own === undefined) throw new UserMistake(`--plan: there is no plan ${name}. There are ${[...PLANS.keys()].join(', ')}.`);
  const all = [...PLANS.values()].flat();
  const strange = all.find((option) => options[option] !== undefined && !own.includes(option));
  if (strange !== undefined)
    throw new UserMistake(`${flag(strange)} does not belong to the plan ${name}, which takes ${own.map(flag).join(', ')}.`);
  if (name === 'table') return tablePlanner(options, agreed);
  const accept = count('--accept', options.accept, 0);
  if (name === 'share') {
    const atLeast = count('--at-least', options.atLeast, USUAL_SHARE.atLeast);
    const { percent = USUAL_SHARE.percent, stated = agreed.limitingQuality } = options;
    return { series: null, planFor: (lot) => made(sharePlan({ lot, percent, atLeast, accept, stated })) };
  }
  const { limit = agreed.limitingQuality, risk = agreed.risk } = options;
  return { series: null, planFor: (lot) => made(limitingQualityPlan({ lot, limit, risk, accept })) };
}

async function tablePlanner(options: PlanWish, agreed: Sampling): Promise<Planner> {
  const level = LEVELS.find((one) => one === (options.level ?? agreed.level));
  if (level === undefined)
    throw new UserMistake(`--level: there is no inspection level ${String(options.level)}. There are ${LEVELS.join(', ')}.`);
  if (options.ledger !== undefined && options.severity !== undefined)
    throw new UserMistake('--severity says how strict the inspection is, and --ledger lets the lots so far decide it: give one of them.');
  const loose = (['reducedAgreed', 'resumed'] as const).find((option) => options[option] === true);
  if (loose !== undefined && options.ledger === undefined)
    throw new UserMistake(`${flag(loose)} concerns a series of lots; the lots so far are needed with --ledger.`);
  const series =
    options.ledger === undefined ? null : { lots: await readLotHistory(options.ledger), reducedAgreed: options.reducedAgreed ?? false };
  const severity = series === null ? given(options.severity ?? 'normal') : followed(series, options.resumed ?? false);
  const { aql = agreed.aql } = options;
  return { series, planFor: (lot) => made(tablePlan({ lot, level, severity, aql })) };
}

function given(text: string): Severity {
  const severity = SEVERITIES.find((one) => one === text);
  if (severity === undefined) throw new UserMistake(`--severity: there is no ${text} inspection. There are ${SEVERITIES.join(', ')}.`);
  return severity;
}

function followed(series: Series, resumed: boolean): Severity {
  const { severity, because } = standingAfter(series);
  if (severity !== 'discontinued') return severity;
  if (resumed) return 'tightened';
  throw new UserMistake(
    `By the lots so far inspection is discontinued. ${because} Once the vendor has mended what was wrong, take it up again with --resumed.`,
  );
}

function made<Plan extends SamplePlan>(plan: Plan | { readonly refused: readonly string[] }): Plan {
  if ('refused' in plan) throw new UserMistake(plan.refused.join('\n'));
  return plan;
}

function count(option: string, text: string | undefined, usual: number): number {
  if (text === undefined) return usual;
  if (!/^\d{1,7}$/.test(text)) throw new UserMistake(`${option}: ${text} is not a count. Write a whole number, 0 or more.`);
  return Number(text);
}

const flag = (option: string): string => `--${option.replace(/[A-Z]/g, (letter) => `-${letter.toLowerCase()}`)}`;
