import { spawnSync } from 'node:child_process';
import { chmodSync, cpSync, mkdirSync, readdirSync, readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { describe, expect, it } from 'vitest';
import { MAIN, newFolder } from './command.js';

const here = (path: string): string => fileURLToPath(new URL(path, import.meta.url));
const HELP = readFileSync(here('../../src/help/batches.md'), 'utf8');
const recipe = (name: string): string =>
  new RegExp(`<!-- begin ${name} recipe -->\\n\`\`\`\\w+\\n([\\s\\S]*?)\`\`\`\\n<!-- end`).exec(HELP)?.[1] ?? '';

const isThere = (command: string): boolean => spawnSync(command, ['--version']).status === 0;

/** Two batches with their records, laid out as the recipes have it, and the command on the path. */
function order(): { readonly root: string; readonly env: NodeJS.ProcessEnv } {
  const root = newFolder();
  const bin = join(root, 'bin');
  for (const folder of [bin, join(root, 'drive'), join(root, 'reels')]) mkdirSync(folder);
  writeFileSync(join(bin, 'reeltally'), `#!/bin/sh\nexec "${process.execPath}" "${MAIN}" "$@"\n`);
  chmodSync(join(bin, 'reeltally'), 0o755);
  const demonstration = here('../../fixtures/demonstration');
  for (const name of ['batch_a', 'batch_b']) {
    cpSync(join(demonstration, 'return', 'batch_vzx_tolmouth'), join(root, 'drive', name), { recursive: true });
    for (const sheet of ['frames', 'titles', 'reels'])
      cpSync(join(demonstration, 'record', `${sheet}.csv`), join(root, 'reels', `${name}${sheet === 'frames' ? '' : `-${sheet}`}.csv`));
  }
  return { root, env: { ...process.env, PATH: `${bin}:${process.env.PATH ?? ''}` } };
}

const verdicts = (root: string): readonly unknown[] =>
  readdirSync(join(root, 'results'))
    .toSorted()
    .map(
      (name) =>
        (JSON.parse(readFileSync(join(root, 'results', name, 'findings.json'), 'utf8')) as { verdict: { decision: string } }).verdict
          .decision,
    );

describe('the recipes of "reeltally help batches"', () => {
  it.skipIf(!isThere('parallel'))('for GNU parallel (skipped where it is not installed)', () => {
    const { root, env } = order();
    for (const round of [1, 2]) {
      const { status, stdout, stderr } = spawnSync('sh', ['-ec', recipe('parallel')], { cwd: root, env, encoding: 'utf8' });
      expect([round, status, stderr.replace(/^.*citation[\s\S]*$/im, '')]).toEqual([round, 0, '']);
      expect(stdout.split('\n').filter((line) => line.includes('"verdict":"return-for-rework"'))).toHaveLength(2);
    }
    expect(verdicts(root)).toEqual(['return-for-rework', 'return-for-rework']);
  });

  it.skipIf(!isThere('snakemake'))('for Snakemake (skipped where it is not installed)', () => {
    const { root, env } = order();
    writeFileSync(join(root, 'Snakefile'), recipe('snakemake'));
    const { status } = spawnSync('snakemake', ['--cores', '2'], { cwd: root, env, encoding: 'utf8' });
    expect(status).toBe(0);
    expect(verdicts(root)).toEqual(['return-for-rework', 'return-for-rework']);
    const again = spawnSync('snakemake', ['--cores', '2'], { cwd: root, env, encoding: 'utf8' });
    expect(again.stderr).toContain('Nothing to be done');
  });
});
