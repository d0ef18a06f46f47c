// Whether a verification grows with the batch and no faster: `npm run bench:growth -- [--small 2000] [--large 10000] [--runs 3]`. Exit status 1 where it does not.
// What counts is the CPU time, the least of a few runs taken in turn: other work on the machine makes a run dearer and never cheaper.
import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { parseArgs } from 'node:util';
import { generateBatch } from '../forge/batch.js';
import type { WriteProfile } from '../forge/write/index.js';
import { writeFiles } from '../support/on-disk.js';
import { peakOf } from './peak.js';

/** A page of the large batch may cost so many times what it costs in the small one. What a run costs before its first page helps it, so this is no narrow limit. */
const MOST = 1.1;
/** A film of a daily paper of eight pages. */
const SEED = 14;

const { values } = parseArgs({
  options: {
    small: { type: 'string', default: '2000' },
    large: { type: 'string', default: '10000' },
    runs: { type: 'string', default: '3' },
  },
});

/** Writes a batch and answers the command that verifies it. */
function written(folder: string, profile: WriteProfile, pages: number): readonly string[] {
  const batch = generateBatch({ seed: SEED, pages, profile, style: { technical: 'all-files' } });
  writeFiles(join(folder, String(pages), batch.name), batch.files);
  const record = join(folder, `${String(pages)}.json`);
  writeFileSync(record, JSON.stringify(batch.record));
  return ['dist/cli/main.js', 'verify', '--collation', record, '--batch', join(folder, String(pages), batch.name), '--quiet'];
}

async function growth(profile: WriteProfile): Promise<number> {
  const folder = mkdtempSync(join(tmpdir(), 'reeltally-growth-'));
  try {
    const sizes = [Number(values.small), Number(values.large)];
    const commands = sizes.map((pages) => written(folder, profile, pages));
    const least = sizes.map(() => Number.POSITIVE_INFINITY);
    for (let run = 0; run < Number(values.runs); run += 1)
      for (const [at, args] of commands.entries())
        least[at] = Math.min(least[at] ?? Number.POSITIVE_INFINITY, (await peakOf(process.execPath, args)).cpu);
    const [small = 0, large = 0] = least.map((cpu, at) => cpu / (sizes[at] ?? 1));
    console.log(
      `${profile}: ${(small * 1e6).toFixed(0)} microseconds of CPU a page for ${values.small} pages, ${(large * 1e6).toFixed(0)} for ${values.large}: ${(large / small).toFixed(2)} times`,
    );
    return large / small;
  } finally {
    rmSync(folder, { recursive: true, force: true });
  }
}

for (const profile of ['issue-mets', 'page-mods'] as const) if (!((await growth(profile)) <= MOST)) process.exitCode = 1;
