/** Draws mutants of a room and tries each against the tests that reach it. */
import { readFileSync } from 'node:fs';
import { join, relative } from 'node:path';
import { cacheIn } from './cache.js';
import { mutated } from './mutations.js';
import { programOf } from './program.js';
import { filesOf, hash, type Mutant, mutantsOf, reachingTests, type Telling, testsFor } from './room.js';
import { runnerOf } from './runner.js';

/** What is to be tried. Paths are of `root`. */
export interface Trial {
  readonly root: string;
  /** The compiler's settings, and those of the tests. */
  readonly compiler: string;
  readonly config: string;
  /** Source files or folders to be mutated; tests that may tell. */
  readonly sources: readonly string[];
  readonly tests: readonly string[];
  readonly sample: number;
  readonly seed: number;
  /** So many seconds of tests, as they take unmutated, are given to one mutant. */
  readonly seconds: number;
  /** Beside five times what they take unmutated, so many milliseconds may tests take before it counts as an endless loop: a machine may have other things to do. */
  readonly patience: number;
  readonly cache: string;
  readonly isFresh: boolean;
  readonly tell: (line: string) => void;
}

/** `late`: the tests did not come to an end, which is noticed too. `same`: whatever a test comes by is the same with the change. */
export type Fate = 'killed' | 'late' | 'survived' | 'same';

export interface Tried {
  readonly mutant: Mutant;
  readonly fate: Fate;
  readonly tests: number;
}

export interface Outcome {
  /** Mutants that there are, compiled or not. */
  readonly all: number;
  /** Drawn and refused by the compiler: no test has to notice them, and they count nowhere. */
  readonly refused: number;
  readonly tried: readonly Tried[];
}

/** Numbers from 0 to 1, the same for the same seed (mulberry32). */
export function numbers(seed: number): () => number {
  let state = seed >>> 0;
  return () => {
    state = (state + 0x6d2b79f5) >>> 0;
    let mixed = Math.imul(state ^ (state >>> 15), state | 1);
    mixed ^= mixed + Math.imul(mixed ^ (mixed >>> 7), mixed | 61);
    return ((mixed ^ (mixed >>> 14)) >>> 0) / 2 ** 32;
  };
}

/** All of a list in an order of chance, the same for the same seed. */
export function shuffled<Item>(items: readonly Item[], seed: number): readonly Item[] {
  const next = numbers(seed);
  return items
    .map((item) => ({ item, at: next() }))
    .sort((a, b) => a.at - b.at)
    .map(({ item }) => item);
}

export async function tryMutants(trial: Trial): Promise<Outcome> {
  const { root, sources, tell } = trial;
  const program = programOf(join(root, trial.compiler));
  const files = sources.flatMap((path) => filesOf(root, path, '.ts'));
  const mutants = mutantsOf(files, program);
  const runner = runnerOf(root, trial.config);
  try {
    const tests = trial.tests.flatMap((path) => filesOf(root, path, '.test.ts')).filter((path) => !path.endsWith('.slow.test.ts'));
    const reaching = await reachingTests(root, mutants, tests, runner, cacheIn(join(trial.cache, 'noted.json'), trial.isFresh), tell);
    tell(`${String(mutants.length)} mutants, reached by ${String(reaching.length)} test files`);
    const kills = cacheIn<string>(join(trial.cache, 'kills.json'), trial.isFresh);
    const answers = answersOf();
    const tried: Tried[] = [];
    let refused = 0;
    for (const mutant of shuffled(mutants, trial.seed)) {
      if (tried.length === trial.sample) break;
      const text = mutated(readFileSync(mutant.path, 'utf8'), mutant);
      if (!program.takes(mutant.path, text)) {
        refused += 1;
        continue;
      }
      const its = testsFor(mutant, reaching, trial.seconds, answers.share);
      const fate = await fateOf(trial, mutant, text, its, runner, kills, answers.count);
      tried.push({ mutant, fate, tests: its.length });
      if (fate === 'survived' || fate === 'same')
        tell(`${String(tried.length)}: ${survivorLine(root, { mutant, fate, tests: its.length })}`);
      else if (tried.length % 10 === 0) tell(`${String(tried.length)} tried`);
    }
    return { all: mutants.length, refused, tried };
  } finally {
    runner.end();
  }
}

/** What each test file has told so far, as a share of the mutants that it was asked about; a half before the first. */
function answersOf(): { readonly share: (test: string) => number; readonly count: (test: string, hasTold: boolean) => void } {
  const asked = new Map<string, number>();
  const told = new Map<string, number>();
  return {
    share: (test) => ((told.get(test) ?? 0) + 1) / ((asked.get(test) ?? 0) + 2),
    count: (test, hasTold) => {
      asked.set(test, (asked.get(test) ?? 0) + 1);
      if (hasTold) told.set(test, (told.get(test) ?? 0) + 1);
    },
  };
}

/** Runs the tests one file after the other until one fails. A kill that is known is not looked for again while source and test are the same. */
async function fateOf(
  { root, patience }: Trial,
  mutant: Mutant,
  text: string,
  tests: readonly Telling[],
  runner: ReturnType<typeof runnerOf>,
  kills: ReturnType<typeof cacheIn<string>>,
  count: (test: string, hasTold: boolean) => void,
): Promise<Fate> {
  const key = (test: string): string =>
    hash([relative(root, mutant.path), text, relative(root, test), readFileSync(test, 'utf8')].join('\n'));
  const known = tests.map(({ test }) => kills.get(key(test))).find((fate) => fate !== undefined);
  if (known === 'killed' || known === 'late') return known;
  for (const { test, only, milliseconds } of tests) {
    const answered = await runner.ask({ texts: [[mutant.path, text]], test, only }, patience + milliseconds * 5);
    const isNoticed = answered === null || answered.failed;
    count(test, isNoticed);
    if (!isNoticed) continue;
    const fate = answered === null ? 'late' : 'killed';
    kills.set(key(test), fate);
    return fate;
  }
  return tests.length === 0 ? 'same' : 'survived';
}

/** A mutant that was not noticed, on one line. */
export function survivorLine(root: string, { mutant, fate, tests }: Tried): string {
  const short = (text: string): string => {
    const line = text.replace(/\s+/g, ' ');
    return line.length > 90 ? `${line.slice(0, 87)}...` : line;
  };
  const by = fate === 'same' ? 'no test comes by where it differs' : `${String(tests)} test files say nothing`;
  return `${relative(root, mutant.path)}:${String(mutant.line)}  ${short(mutant.was)}  →  ${short(mutant.becomes)}  (${by})`;
}

/** How many of the mutants tried were noticed. */
export function counted({ tried }: Outcome): {
  readonly tried: number;
  readonly killed: number;
  readonly late: number;
  readonly share: number;
} {
  const late = tried.filter(({ fate }) => fate === 'late').length;
  const killed = tried.filter(({ fate }) => fate === 'killed').length + late;
  return { tried: tried.length, killed, late, share: tried.length === 0 ? 1 : killed / tried.length };
}
