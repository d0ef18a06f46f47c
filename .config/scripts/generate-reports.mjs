// Writes the golden reports in reports/: what `reeltally demo` makes, one file for each format. A test holds them against the program.
import { spawnSync } from 'node:child_process';
import { copyFileSync, mkdtempSync, readdirSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { dirname, join } from 'node:path';
import { fileURLToPath } from 'node:url';

const root = join(dirname(fileURLToPath(import.meta.url)), '..', '..');
const run = (args, env = {}) => {
  const { status } = spawnSync(process.execPath, args, { stdio: ['ignore', 'ignore', 'inherit'], env: { ...process.env, ...env } });
  if (status !== 0) process.exit(1);
};
run([join(root, '.config', 'scripts', 'ready.mjs')]);
const made = mkdtempSync(join(tmpdir(), 'reeltally-'));
// The same moment as in tests/cli/demo.test.ts, so that a run today gives the bytes of yesterday.
run([join(root, 'dist', 'cli', 'main.js'), 'demo', join(made, 'demo'), '--quiet'], { SOURCE_DATE_EPOCH: '1930000000' });
const results = join(made, 'demo', 'results');
// The pictures are made by generate-screenshots.mjs.
for (const name of readdirSync(join(root, 'reports'))) if (!name.endsWith('.png')) rmSync(join(root, 'reports', name));
for (const name of readdirSync(results)) copyFileSync(join(results, name), join(root, 'reports', name));
rmSync(made, { recursive: true });
