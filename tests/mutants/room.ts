/** What can be mutated in a room, and by which tests each place is reached. */
import { createHash } from 'node:crypto';
import { readdirSync, readFileSync, statSync } from 'node:fs';
import { join, relative } from 'node:path';
import type { Cache } from './cache.js';
import { distances } from './importers.js';
import { type Mutation, mutationsOf, watchedSource } from './mutations.js';
import type { Program } from './program.js';
import type { Runner } from './runner.js';

/** A mutation with the file that it is in. */
export interface Mutant extends Mutation {
  readonly path: string;
}

/** A test file that leads to the room: how far it is, how long it takes, which places it comes by. */
export interface Reaching {
  readonly test: string;
  readonly distance: number;
  readonly milliseconds: number;
  readonly reached: ReadonlySet<string>;
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
  return files.flatMap((path) => mutationsOf(program.file(path), program.checker()).map((mutation) => ({ ...mutation, path })));
}

export const placeOf = (name: string, { probe }: Mutation): string => `${name} ${probe.start} ${probe.end}`;

/** Runs each test file that leads to the room, once, as it is; those that fail already are told and count for nothing. */
export async function reachingTests(
  root: string,
  mutants: readonly Mutant[],
  tests: readonly string[],
  runner: Runner,
  cache: Cache<{ failed: boolean; milliseconds: number; reached: readonly string[] }>,
  tell: (line: string) => void,
): Promise<readonly Reaching[]> {
  const files = [...new Set(mutants.map(({ path }) => path))];
  const texts = files.map((path) => {
    const its = mutants.filter((mutant) => mutant.path === path);
    return [path, watchedSource(readFileSync(path, 'utf8'), relative(root, path), its)] as const;
  });
  const found: Reaching[] = [];
  for (const [test, steps] of distances(tests)) {
    const near = files.flatMap((path) => steps.get(path) ?? []);
    if (near.length === 0) continue;
    const key = hash(
      [
        relative(root, test),
        ...files.map((path) => relative(root, path)),
        ...[...steps.keys()].map((path) => readFileSync(path, 'utf8')),
      ].join('\n'),
    );
    const known = cache.get(key) ?? (await runner.ask({ texts, tests: [test] }, LONGEST));
    if (known === null || known.failed) {
      tell(
        `${relative(root, test)} fails as it is and is left out${known !== null && 'said' in known ? `: ${known.said.slice(0, 500)}` : ''}`,
      );
      continue;
    }
    cache.set(key, { failed: false, milliseconds: known.milliseconds, reached: known.reached });
    found.push({ test, distance: Math.min(...near), milliseconds: known.milliseconds, reached: new Set(known.reached) });
  }
  return found;
}

/** The tests that reach a mutant, those first that tell soonest, as many as the time allows. */
export function testsFor(root: string, mutant: Mutant, reaching: readonly Reaching[], seconds: number): readonly Reaching[] {
  const place = placeOf(relative(root, mutant.path), mutant);
  const sorted = reaching
    .filter(({ reached }) => reached.has(place))
    .sort((a, b) => a.milliseconds * a.distance - b.milliseconds * b.distance);
  let spent = 0;
  return sorted.filter(({ milliseconds }, index) => {
    if (index > 0 && spent + milliseconds > seconds * 1000) return false;
    spent += milliseconds;
    return true;
  });
}
