// Runs test files with some source files replaced, as often as it is asked to. A process of its own, so that an endless loop can be ended.
import { existsSync, readFileSync, rmSync } from 'node:fs';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { createVitest } from 'vitest/node';

/** What is to be run, with what. */
export interface Asked {
  readonly texts: readonly (readonly [path: string, text: string])[];
  readonly test: string;
  /** Those of its tests that are run, by their ids; null for all of them. */
  readonly only: readonly string[] | null;
}

export type Note = readonly [test: string, milliseconds: number, mutants: readonly number[]];

/** What came of it. `noted` says by test which mutants of watched sources it could notice; under no name what the file as a whole could. */
export interface Answered {
  readonly failed: boolean;
  readonly milliseconds: number;
  readonly noted: readonly Note[];
  readonly said: string;
}

const [root = '', config = '', notes = ''] = process.argv.slice(2);
let texts = new Map<string, string>();
process.env.REELTALLY_REACHED = notes;

const vitest = await createVitest(
  'test',
  {
    config: join(root, config),
    watch: false,
    pool: 'threads',
    maxWorkers: 1,
    // A source that was replaced must be evaluated again.
    isolate: true,
    bail: 1,
    reporters: [{}],
    setupFiles: [fileURLToPath(new URL('reached.ts', import.meta.url))],
    passWithNoTests: true,
  },
  { plugins: [{ name: 'replaced-sources', enforce: 'pre', load: (id) => texts.get(id) }] },
);
await vitest.standalone();

/** The notes that the tests have left, and none from then on. */
function takeNotes(): readonly Note[] {
  if (!existsSync(notes)) return [];
  const lines = readFileSync(notes, 'utf8').split('\n').filter(Boolean);
  rmSync(notes);
  return lines.map((line) => JSON.parse(line) as Note);
}

async function run({ texts: given, test, only }: Asked): Promise<Answered> {
  const changed = new Set([...texts.keys(), ...given.map(([path]) => path)]);
  texts = new Map(given);
  for (const path of changed) vitest.invalidateFile(path);
  // What failed before counts towards `bail` and is told again, unless it is forgotten.
  vitest.state.filesMap.clear();
  vitest.state.idMap.clear();
  vitest.state.clearErrors();
  const project = vitest.getRootProject();
  const started = performance.now();
  const { testModules, unhandledErrors } = await vitest.runTestSpecifications([
    project.createSpecification(test, only === null ? undefined : { testIds: [...only] }),
  ]);
  const errors = testModules.flatMap((module) => [
    ...module.errors(),
    ...[...module.children.allTests('failed')].flatMap((test) => test.result().errors ?? []),
  ]);
  const failed = errors.length > 0 || unhandledErrors.length > 0 || testModules.some((module) => !module.ok());
  const said = [...errors.map(({ message }) => message), ...unhandledErrors.map(String)].join('\n');
  return { failed, milliseconds: performance.now() - started, noted: takeNotes(), said };
}

process.on('message', (asked: Asked) => {
  void run(asked).then((answered) => process.send?.(answered));
});
process.on('disconnect', () => process.exit(0));
process.send?.('ready');
