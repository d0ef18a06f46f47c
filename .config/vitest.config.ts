import { fileURLToPath } from 'node:url';
import { defineConfig } from 'vitest/config';

/** Tests that take long, because they make films, start a browser or an office program, or read whole published batches. */
export const SLOW = 'tests/**/*.slow.test.ts';

/** How tests are run, whichever. */
export const test = {
  pool: 'threads',
  maxWorkers: 2,
  // Generous, because a slow machine is not a failure: no test measures time.
  testTimeout: 60_000,
  hookTimeout: 60_000,
} as const;

export const root = fileURLToPath(new URL('..', import.meta.url));

// The files of one worker share what they import: half of the time went into evaluating the same modules anew for each file. No test replaces a
// module or changes one, the runner of mutants and the slow tests, some of which set the environment, still give each file a world of its own.
export default defineConfig({ root, test: { ...test, isolate: false, include: ['tests/**/*.test.ts'], exclude: [SLOW] } });
