import { fileURLToPath } from 'node:url';
import { verifyCase } from '../bench/in-memory.js';
import { judge } from '../bench/judge.js';
import type { Case } from '../forge/algebra/case.js';
import { several, single } from '../forge/algebra/draw.js';
import { randomFrom } from '../forge/film/random.js';
import { reordered } from './reordered.js';

/** A law that a drawn case can break. */
export type Law = 'broke off' | 'not found' | 'untrue' | 'several findings' | 'accepted' | 'code' | 'side' | 'order' | 'not harmless';

/** A drawn case and the laws that it breaks. */
export interface Outcome {
  readonly kind: string;
  readonly breaks: readonly Law[];
  /** What was found, for whoever looks into it. */
  readonly says: readonly string[];
}

/** Of so many cases the return is read again in another order. */
const EVERY_FOR_ORDER = 5;

const SERIES = 7;
const SINGLES = 400;
const PAIRS = 100;

/** Where the laws that are known to be broken are counted, by what, how, scope and side. */
export const KNOWN = fileURLToPath(new URL('known.json', import.meta.url));

/** Cases of one series of the algebra: singles, of every second product, and pairs, half of them beside each other. */
export async function drawn(series = SERIES, singles = SINGLES, pairs = PAIRS): Promise<readonly Outcome[]> {
  const out: Outcome[] = [];
  for (let at = 0; at < singles; at += 1) {
    const one = single(series, at);
    const [planted] = one?.planted ?? [];
    if (one === null || planted === undefined) continue;
    const { what, how, scope, side } = planted.edit;
    out.push(await outcomeOf(one, `${what} ${how} ${scope} ${side}`, at));
  }
  for (let at = 0; at < pairs; at += 1) {
    const one = several(series, at, 2);
    if (one !== null) out.push(await outcomeOf(one, 'pair', at));
  }
  return out;
}

async function outcomeOf(one: Case, kind: string, at: number): Promise<Outcome> {
  const verified = await verifyCase(one).catch(() => null);
  if (verified === null) return { kind, breaks: ['broke off'], says: [] };
  const { findings, returned, again } = verified;
  const { met, untrue, accepted } = judge(one, findings);
  const said = (result: typeof findings): string =>
    JSON.stringify(result.findings.map(({ id, says, instruction }) => [id, says, instruction]));
  const breaks: Law[] = [];
  if (met.length === 0 && untrue.length > 0) breaks.push('not harmless');
  if (met.some((each) => each.findings.length === 0)) breaks.push('not found');
  if (met.length > 0 && untrue.length > 0) breaks.push('untrue');
  if (met.some((each) => each.findings.length > 1)) breaks.push('several findings');
  if (accepted) breaks.push('accepted');
  if (met.some((each) => each.findings.length > 0 && !each.code)) breaks.push('code');
  if (met.some((each) => each.findings.length > 0 && !each.side)) breaks.push('side');
  if (at % EVERY_FOR_ORDER === 0 && said(again(reordered(returned, randomFrom(at)))) !== said(findings)) breaks.push('order');
  return { kind, breaks, says: findings.findings.map(({ code, cause, says }) => `${code} (${cause}): ${says}`) };
}

/** How often each kind breaks each law, in the order of the kinds. */
export function countsOf(outcomes: readonly Outcome[]): Readonly<Record<string, Readonly<Record<string, number>>>> {
  const counts = new Map<string, Map<string, number>>();
  for (const { kind, breaks } of outcomes)
    for (const law of breaks) {
      const laws = counts.get(kind) ?? new Map<string, number>();
      laws.set(law, (laws.get(law) ?? 0) + 1);
      counts.set(kind, laws);
    }
  const sorted = <T>(map: ReadonlyMap<string, T>): [string, T][] => [...map].sort(([a], [b]) => (a < b ? -1 : 1));
  return Object.fromEntries(sorted(counts).map(([kind, laws]) => [kind, Object.fromEntries(sorted(laws))]));
}
