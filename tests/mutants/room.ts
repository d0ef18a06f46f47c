/** What can be mutated in a room, and which tests could notice each mutant. */
import { createHash } from 'node:crypto';
import { readdirSync, readFileSync, statSync } from 'node:fs';
import { join, relative } from 'node:path';
import type { Cache } from './cache.js';
import { changesIn } from './effects.js';
import { distances } from './importers.js';
import { type Mutation, mutationsOf } from './mutations.js';
import type { Program } from './program.js';
import type { Runner } from './runner.js';
import type { Answered } from './server.js';
import { watchedSource } from './watched.js';

/** A mutation with the file that it is in, and its number in the room. */
export interface Mutant extends Mutation {
  readonly path: string;
  readonly number: number;
}

/** A test file that leads to the room: how far it is, how long it takes by itself, and which mutants it and each of its tests could notice. */
export interface Reaching {
  readonly test: string;
  readonly distance: number;
  readonly milliseconds: number;
  readonly noted: readonly { readonly id: string; readonly milliseconds: number; readonly mutants: ReadonlySet<number> }[];
}

/** What of a test file is to be run for a mutant; `only` is null where it is the whole. */
export interface Telling {
  readonly test: string;
  readonly only: readonly string[] | null;
  readonly milliseconds: number;
}

/** So long may a test file take that is run as it is. */
const LONGEST = 600_000;

export const hash = (text: string): string => createHash('sha256').update(text).digest('hex').slice(0, 16);

/** Files under a folder or the file itself, in one order everywhere. */
export function filesOf(root: string, path: string, ending: string): readonly string[] {
  const whole = join(root, path);
  if (statSync(whole).isFile()) return [whole];
  const names = readdirSync(whole, { recursive: true, encoding: 'utf8' }).filter((name) => name.endsWith(ending));
  return names.map((name) => join(whole, name)).sort();
}

/** All mutations of the files of a room. */
export function mutantsOf(files: readonly string[], program: Program): readonly Mutant[] {
  const changes = changesIn(program.files(), program.checker());
  const all = files.flatMap((path) =>
    mutationsOf(program.file(path), program.checker(), changes).map((mutation) => ({ ...mutation, path })),
  );
  return all.map((mutation, number) => ({ ...mutation, number }));
}

/** The files with everything in them watched. */
function watchedFiles(files: readonly string[], mutants: readonly Mutant[]): readonly (readonly [string, string])[] {
  let first = 0;
  return files.map((path) => {
    const its = mutants.filter((mutant) => mutant.path === path).map((mutation) => ({ mutation, number: mutation.number }));
    const { text, probes } = watchedSource(readFileSync(path, 'utf8'), its, first);
    first += probes;
    return [path, text];
  });
}

/** Runs each test file that leads to the room, once, as it is; those that fail already are told and count for nothing. */
export async function reachingTests(
  root: string,
  mutants: readonly Mutant[],
  tests: readonly string[],
  runner: Runner,
  cache: Cache<Answered>,
  tell: (line: string) => void,
): Promise<readonly Reaching[]> {
  const files = [...new Set(mutants.map(({ path }) => path))];
  const watchedAre = hash(JSON.stringify(mutants.map(({ path, start, end, becomes }) => [relative(root, path), start, end, becomes])));
  let texts: ReturnType<typeof watchedFiles> | null = null;
  const found: Reaching[] = [];
  for (const [test, steps] of distances(tests)) {
    const near = files.flatMap((path) => steps.get(path) ?? []);
    if (near.length === 0) continue;
    const key = hash([relative(root, test), watchedAre, ...[...steps.keys()].map((path) => readFileSync(path, 'utf8'))].join('\n'));
    texts ??= cache.get(key) === undefined ? watchedFiles(files, mutants) : null;
    const known = cache.get(key) ?? (await runner.ask({ texts: texts ?? [], test, only: null }, LONGEST));
    if (known === null || known.failed) {
      tell(`${relative(root, test)} fails as it is and is left out${known !== null ? `: ${known.said.slice(0, 500)}` : ''}`);
      continue;
    }
    const { milliseconds, noted } = known;
    cache.set(key, known);
    const spent = noted.reduce((sum, [id, its]) => sum + (id === '' ? 0 : its), 0);
    found.push({
      test,
      distance: Math.min(...near),
      milliseconds: Math.max(0, milliseconds - spent),
      noted: noted.map(([id, its, all]) => ({ id, milliseconds: its, mutants: new Set(all) })),
    });
  }
  return found;
}

/** What of a test file could notice a mutant; null where nothing could. What is noticed outside of any test may tell in all of them. */
function tellingOf({ test, milliseconds, noted }: Reaching, mutant: Mutant): Telling | null {
  const its = noted.filter(({ mutants }) => mutants.has(mutant.number));
  if (its.length === 0) return null;
  const isWhole = its.some(({ id }) => id === '');
  const spent = (isWhole ? noted : its).reduce((sum, one) => sum + (one.id === '' ? 0 : one.milliseconds), milliseconds);
  return { test, only: isWhole ? null : its.map(({ id }) => id), milliseconds: spent };
}

/** The tests that could notice a mutant, those first that are likely to tell soonest, as many as the time allows. `told` is the share of mutants that a test file told of so far. */
export function testsFor(
  mutant: Mutant,
  reaching: readonly Reaching[],
  seconds: number,
  told: (test: string) => number,
): readonly Telling[] {
  const sorted = reaching
    .flatMap((one) => {
      const telling = tellingOf(one, mutant);
      return telling === null ? [] : [{ telling, costs: (telling.milliseconds * one.distance) / told(one.test) }];
    })
    .sort((a, b) => a.costs - b.costs);
  let spent = 0;
  return sorted
    .map(({ telling }) => telling)
    .filter(({ milliseconds }, index) => {
      if (index > 0 && spent + milliseconds > seconds * 1000) return false;
      spent += milliseconds;
      return true;
    });
}
