import { spawnSync } from 'node:child_process';
import { readdirSync, readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { pathToFileURL } from 'node:url';
import { describe, expect, it } from 'vitest';
import { readRegularFile } from '../../src/read/regular-file.js';
import { SET_NOTE } from '../../src/read/set-note.js';
import { MAIN, newFolder, reeltallyProcess, savedResult } from '../cli/command.js';
import { EXAMPLE, finding } from '../report/example.js';

const FILES = [
  'discrepancies.csv',
  'discrepancies.xlsx',
  'discrepancies.xml',
  'findings.json',
  'report.html',
  'rulings.xlsx',
  'summary.txt',
];
const WISH = ['--format', 'text,json,csv,html,xml,xlsx'];

/** Kills its own process before the call of that number among those that write or change a folder: nothing can be caught, as when the power is cut. */
const KILLER = `
import fs from 'node:fs';
import { syncBuiltinESMExports } from 'node:module';
let left = Number(process.env.KILL_BEFORE);
const counted = (holder, name) => {
  const real = holder[name];
  holder[name] = function (...args) {
    left -= 1;
    if (left === 0) process.kill(process.pid, 'SIGKILL');
    return real.apply(this, args);
  };
};
const handle = await fs.promises.open(process.execPath);
for (const name of ['writeFile', 'sync', 'close']) counted(Object.getPrototypeOf(handle), name);
for (const name of ['renameSync', 'rmSync']) counted(fs, name);
for (const name of ['rename', 'rm', 'open', 'readdir', 'writeFile']) counted(fs.promises, name);
syncBuiltinESMExports();
`;

const result = (word: string) => ({
  ...EXAMPLE,
  run: { ...EXAMPLE.run, batch: `batch_${word}` },
  findings: Array.from({ length: 50 }, (_, at) =>
    finding({ id: `${word}-${String(at)}`, code: 'volume-differs', severity: 'minor', says: `${word} `.repeat(20) }),
  ),
});

describe('kill -9 while results are replaced', () => {
  const paths = { old: savedResult(result('old')), new: savedResult(result('new')) };
  const written = (which: 'old' | 'new', folder: string): string[] => ['render', paths[which], ...WISH, '--out', folder, '--replace'];
  const killer = join(newFolder(), 'killer.mjs');
  writeFileSync(killer, KILLER);
  const whole = (which: 'old' | 'new'): readonly string[] => {
    const folder = newFolder();
    expect(reeltallyProcess(written(which, folder)).status).toBe(0);
    return FILES.map((name) => readFileSync(join(folder, name), 'base64'));
  };

  it('at each of its moments, forty and more, leaves all old or all new, and the next run cleans up', async () => {
    const [before, after] = [whole('old'), whole('new')];
    const seen = { old: 0, new: 0, killed: 0, halfInPlace: 0 };
    for (let moment = 1; ; moment += 1) {
      const folder = newFolder();
      for (const [at, name] of FILES.entries()) writeFileSync(join(folder, name), before[at] ?? '', 'base64');
      const { signal } = spawnSync(process.execPath, ['--import', pathToFileURL(killer).href, MAIN, ...written('new', folder)], {
        env: { ...process.env, KILL_BEFORE: String(moment) },
      });
      // The run has fewer moments than that: it ended by itself.
      if (signal !== 'SIGKILL') break;
      seen.killed += 1;
      const half = readdirSync(folder).includes(SET_NOTE);
      if (half) seen.halfInPlace += 1;
      // As every command reads them.
      const found = await Promise.all(FILES.map(async (name) => (await readRegularFile(join(folder, name), 1 << 28)).toString('base64')));
      const isOld = found.every((text, at) => text === before[at]);
      const isNew = found.every((text, at) => text === after[at]);
      expect([moment, isOld || isNew]).toEqual([moment, true]);
      seen[isOld ? 'old' : 'new'] += 1;
      if (!half && moment % 16 !== 0) continue;
      expect(reeltallyProcess(written('new', folder)).status).toBe(0);
      expect(readdirSync(folder).toSorted()).toEqual(FILES);
      expect(FILES.map((name) => readFileSync(join(folder, name), 'base64'))).toEqual(after);
    }
    // The moments reach from before the first file is written to the last one put in place.
    expect(seen.killed).toBeGreaterThanOrEqual(40);
    expect(Math.min(seen.old, seen.new, seen.halfInPlace)).toBeGreaterThan(3);
  }, 240_000);
});
