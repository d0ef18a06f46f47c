import { readFileSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import { verifyCase } from '../bench/in-memory.js';
import { judge } from '../bench/judge.js';
import { type Case, caseOf } from '../forge/algebra/case.js';
import { filmOf, productAt, type Series, several, single } from '../forge/algebra/draw.js';
import type { Product } from '../forge/algebra/products.js';
import { randomFrom } from '../forge/film/random.js';
import { reordered } from './reordered.js';
import { leftAfterRepair } from './repaired.js';

/** A law that a drawn case can break. */
export type Law =
  | 'broke off'
  | 'not found'
  | 'untrue'
  | 'several findings'
  | 'accepted'
  | 'code'
  | 'not all pages'
  | 'same readings'
  | 'side'
  | 'order'
  | 'repair'
  | 'not harmless';

/** A drawn case and the laws that it breaks. */
export interface Outcome {
  readonly kind: string;
  readonly breaks: readonly Law[];
  /** What was found, for whoever looks into it. */
  readonly says: readonly string[];
}

/** How often each kind of edit breaks each law. */
export type Counts = Readonly<Record<string, Readonly<Record<string, number>>>>;

/** Of so many cases the return is read again in another order. */
const EVERY_FOR_ORDER = 5;

/** Films of the series are short, so that many cases are read in little time. */
const SERIES: Series = { seed: 7, pages: 30 };
const SINGLES = 400;
const PAIRS = 120;

/** What pairs are called on the list. */
export const PAIR = 'pair';

/** Where the laws that are known to be broken are counted, by what, how, scope and side. */
export const KNOWN = fileURLToPath(new URL('known.json', import.meta.url));

/** What a single edit of the series is called on the list, by its place there. */
function kindOf({ what, how, scope, side }: Product): string {
  return `${what} ${how} ${scope} ${side}`;
}

/** The kinds of the single edits of the series, of every second product, each with the places where it is drawn. */
export function kindsOfSingles(): readonly (readonly [kind: string, places: readonly number[]])[] {
  const kinds = new Map<string, number[]>();
  for (let at = 0; at < SINGLES; at += 1) {
    const product = productAt(SERIES, at);
    if (product === undefined) continue;
    const kind = kindOf(product);
    kinds.set(kind, [...(kinds.get(kind) ?? []), at]);
  }
  return [...kinds];
}

/** What became of the single edits at some places of the series. */
export async function drawnSingles(kind: string, places: readonly number[]): Promise<readonly Outcome[]> {
  const out: Outcome[] = [];
  for (const at of places) {
    const one = single(SERIES, at);
    if (one !== null) out.push(await outcomeOf(one, kind, at));
  }
  return out;
}

/** What became of some pairs of the series, half of them beside each other. */
export async function drawnPairs(): Promise<readonly Outcome[]> {
  const out: Outcome[] = [];
  for (let at = 0; at < PAIRS; at += 1) {
    const one = several(SERIES, at, 2);
    if (one !== null) out.push(await outcomeOf(one, PAIR, at));
  }
  return out;
}

const known = (): Counts => JSON.parse(readFileSync(KNOWN, 'utf8')) as Counts;

/** The kinds that are on the list. */
export const knownKinds = (): readonly string[] => Object.keys(known());

/** Where the outcomes are other than the list says: worse, or better so that the list must shrink. */
export function surprises(outcomes: readonly Outcome[], isMine: (kind: string) => boolean): readonly unknown[] {
  const list = known();
  const now = countsOf(outcomes);
  const kinds = [...new Set([...Object.keys(now), ...Object.keys(list)])].filter(isMine).sort();
  return kinds.flatMap((kind) =>
    [...new Set([...Object.keys(now[kind] ?? {}), ...Object.keys(list[kind] ?? {})])].flatMap((law) => {
      const [is, was] = [now[kind]?.[law] ?? 0, list[kind]?.[law] ?? 0];
      if (is === was) return [];
      const says = outcomes.find((one) => one.kind === kind && one.breaks.some((each) => each === law))?.says ?? [];
      return [{ kind, law, is, was, says: is > was ? says : 'better than the list: npm run laws:known' }];
    }),
  );
}

/** The films that cases of the series stand on, without a mistake in them, and what is found there. */
export async function untouched(n: number): Promise<readonly string[]> {
  const { findings } = await verifyCase(caseOf(filmOf(SERIES, n), []));
  const says = findings.findings.filter(({ severity }) => severity !== 'note').map(({ says: sentence }) => sentence);
  return findings.verdict.decision === 'accept' ? says : [...says, findings.verdict.decision];
}

/** Which laws a drawn case breaks; every fifth is read in another order as well. */
export async function outcomeOf(one: Case, kind: string, at: number): Promise<Outcome> {
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
  if (met.some((each) => each.findings.length > 0 && !each.owned)) breaks.push('not all pages');
  if (findings.findings.some((finding) => finding.collation !== null && finding.collation === finding.return)) breaks.push('same readings');
  if (at % EVERY_FOR_ORDER === 0 && said(again(reordered(returned, randomFrom(at)))) !== said(findings)) breaks.push('order');
  const left = (await leftAfterRepair(one, verified)) ?? [];
  if (left.length > 0) breaks.push('repair');
  return { kind, breaks, says: [...findings.findings.map(({ code, cause, says }) => `${code} (${cause}): ${says}`), ...left] };
}

/** How often each kind breaks each law, in the order of the kinds. */
export function countsOf(outcomes: readonly Outcome[]): Counts {
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
