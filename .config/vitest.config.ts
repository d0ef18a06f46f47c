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

export default defineConfig({ root, test: { ...test, include: ['tests/**/*.test.ts'], exclude: [SLOW] } });
