// What a ledger of many results needs of memory: `npm run bench:ledger -- [--results 1000] [--pages 800] [--keep DIR]`.
// One invented batch is verified, and its saved result written again under other names, vendors and days, with some of its findings left out. Then
// `reeltally ledger --from LIST --out DIR` reads them all; printed is its highest resident memory (VmHWM of /proc), beside that for a single result.
import { spawnSync } from 'node:child_process';
import { createHash } from 'node:crypto';
import { mkdirSync, mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { parseArgs } from 'node:util';
import type { Findings } from '../../src/model/findings.js';
import { generateBatch } from '../forge/batch.js';
import { writeFiles } from '../support/on-disk.js';
import { peakOf } from './peak.js';

const { values } = parseArgs({
  options: {
    results: { type: 'string', default: '1000' },
    pages: { type: 'string', default: '800' },
    seed: { type: 'string', default: '7' },
    keep: { type: 'string' },
  },
});
const MAIN = fileURLToPath(new URL('../../dist/cli/main.js', import.meta.url));
const VENDORS = ['Skerry Imaging, Port Hallam', 'Quillhaven Imaging', 'Gannet Films, Ombersea'];
const count = Number(values.results);
const folder = values.keep ?? mkdtempSync(join(tmpdir(), 'reeltally-ledger-'));

const digest = (text: string): number => Number.parseInt(createHash('sha256').update(text).digest('hex').slice(0, 8), 16);

/** The saved result of one invented batch with mistakes. */
function oneResult(): Findings {
  const batch = generateBatch({
    pages: Number(values.pages),
    seed: Number(values.seed),
    profile: 'issue-mets',
    faults: 12,
    pagesPerReel: 800,
    style: { technical: 'none' },
  });
  const made = join(folder, 'batch', batch.name);
  writeFiles(made, batch.files);
  const record = join(folder, 'record.json');
  writeFileSync(record, JSON.stringify(batch.record));
  const { stdout } = spawnSync(process.execPath, [MAIN, 'verify', '--collation', record, '--batch', made, '--format', 'json', '--quiet'], {
    encoding: 'utf8',
    maxBuffer: 2 ** 30,
  });
  return JSON.parse(stdout) as Findings;
}

/** The day so many days after the start of an invented contract. */
const day = (days: number): string => new Date(Date.UTC(2029, 0, 8 + days)).toISOString().slice(0, 10);

const result = oneResult();
const list: string[] = [];
let bytes = 0;
mkdirSync(join(folder, 'results'), { recursive: true });
for (let at = 0; at < count; at++) {
  const name = `batch_${String(at).padStart(4, '0')}`;
  const received = day(Math.floor((at * 720) / count));
  const vendor = VENDORS[digest(name) % VENDORS.length] ?? '';
  const often = 1 + (digest(`${vendor}${received.slice(0, 7)}`) % 4);
  const findings = result.findings.filter(({ id }) => digest(`${name}${id}`) % 6 < often);
  const text = JSON.stringify({
    ...result,
    run: { ...result.run, batch: name, received },
    agreement: { ...result.agreement, vendor },
    findings,
  });
  bytes += Buffer.byteLength(text);
  writeFileSync(join(folder, 'results', `${name}.json`), text);
  list.push(`results/${name}.json`);
  if (at < count * 0.96) {
    const accepted = digest(`decided${name}`) % 5 > 0;
    const on = day(Math.floor((at * 720) / count) + 12);
    const decision = {
      ...{ format: 'reeltally/decision/2', batch: name, deliveryNumber: result.run.delivery, by: 'Ilse Marrow', on },
      delivery: accepted ? 'accept' : 'return-for-rework',
      review: { received, days: 21, dayKind: 'calendar', holidays: [], due: day(Math.floor((at * 720) / count) + 21), inTime: true },
      samples: [],
    };
    writeFileSync(join(folder, 'results', `${name}.decision.json`), JSON.stringify(decision));
    list.push(`results/${name}.decision.json`);
  }
}
writeFileSync(join(folder, 'all.txt'), `${list.join('\n')}\n`);
writeFileSync(join(folder, 'one.txt'), `${list[0] ?? ''}\n`);

for (const name of ['one', 'all']) {
  const args = [
    MAIN,
    'ledger',
    '--from',
    join(folder, `${name}.txt`),
    '--out',
    join(folder, `ledger-${name}`),
    '--quiet',
    '--at',
    day(730),
  ];
  const { seconds, mebibytes } = await peakOf(process.execPath, args);
  const many = name === 'one' ? 1 : count;
  process.stdout.write(`${String(many)} results: ${mebibytes.toFixed(0)} MiB at most, ${seconds.toFixed(1)} s\n`);
}
process.stdout.write(`${(bytes / 2 ** 20).toFixed(0)} MiB of results, ${(bytes / count / 2 ** 10).toFixed(0)} KiB each\n`);
readFileSync(join(folder, 'ledger-all', 'ledger.html'));
if (values.keep === undefined) rmSync(folder, { recursive: true });
