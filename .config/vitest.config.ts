import { fileURLToPath } from 'node:url';
import { defineConfig } from 'vitest/config';

export default defineConfig({
  root: fileURLToPath(new URL('..', import.meta.url)),
  test: {
    include: ['tests/**/*.test.ts'],
    pool: 'threads',
    maxWorkers: 2,
    // Generous, because a slow machine is not a failure: no test measures time.
    testTimeout: 60_000,
    hookTimeout: 60_000,
  },
});
