// What the verification of a batch costs beside reading its documents, hashing them, and a strict reading by another program:
// npm run bench:speed -- [--pages 1000,10000,100000] [--profiles issue-mets,page-mods] [--cases clean,...] [--runs 3] [--write]
// All that is compared with each other is run in turn, so that whatever else the machine does weighs on all alike; told is the median.
// Times depend on the machine: the ratios are what counts. Needs xmllint (libxml2). `--write` puts the table into the README.

import { spawnSync } from 'node:child_process';
import { mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { parseArgs } from 'node:util';
import type { CollationRecord } from '../../src/model/collation-record.js';
import type { Findings } from '../../src/model/findings.js';
import { generateBatch } from '../forge/batch.js';
import type { WriteProfile } from '../forge/write/index.js';
import { writeFiles } from '../support/on-disk.js';
import { type Cost, peakOf } from './peak.js';

const MAIN = 'dist/cli/main.js';
/** Films of a daily paper of eight pages: 100,000 pages of it are forty years. */
const SEED = 14;
const OTHER_SEED = 16;

const { values } = parseArgs({
  options: {
    pages: { type: 'string', default: '1000,10000,100000' },
    profiles: { type: 'string', default: 'issue-mets,page-mods' },
    cases: { type: 'string', default: 'clean,500 slips,badly misaligned,the wrong record' },
    runs: { type: 'string', default: '3' },
    write: { type: 'boolean', default: false },
  },
});

type Frame = CollationRecord['reels'][number]['frames'][number];

/** The record of each case, of the right one and of another film. */
const CASES: Readonly<Record<string, (record: CollationRecord, other: CollationRecord) => CollationRecord>> = {
  clean: (record) => record,
  '500 slips': (record) => withSlips(record, 500),
  'badly misaligned': withGaps,
  'the wrong record': (_, other) => other,
};

/** So many pages of the record, evenly over it, have another number than the paper: by three to nine too high; what one cause explains is one finding. */
function withSlips(record: CollationRecord, count: number): CollationRecord {
  const pages = record.reels.flatMap((reel) => reel.frames.filter(isNumbered));
  const step = Math.max(1, Math.floor(pages.length / count));
  const slips = new Map(pages.flatMap((frame, at) => (at % step === 0 && at / step < count ? [[frame, 3 + ((at / step) % 7)]] : [])));
  return withFrames(record, (frames) =>
    frames.map((frame) => (slips.has(frame) ? { ...frame, page: String(Number(frame.page) + (slips.get(frame) ?? 0)) } : frame)),
  );
}

const isNumbered = (frame: Frame): boolean => /^\d+$/.test(frame.page ?? '');

/** Every ninth frame is left out and the others are numbered through: from reel to reel nothing stands at its place. */
function withGaps(record: CollationRecord): CollationRecord {
  return withFrames(record, (frames) => frames.filter((_, at) => at % 9 !== 8).map((frame, at) => ({ ...frame, frame: String(at + 1) })));
}

function withFrames(record: CollationRecord, change: (frames: readonly Frame[]) => readonly Frame[]): CollationRecord {
  return { ...record, reels: record.reels.map((reel) => ({ ...reel, frames: change(reel.frames) as Frame[] })) };
}

/** Reads every file of a list into one buffer, and hashes it where it is asked to. */
const READER = `
const fs = require('node:fs'), { createHash } = require('node:crypto');
const [list, hash] = process.argv.slice(1);
let buffer = Buffer.alloc(1 << 20);
for (const path of fs.readFileSync(list, 'utf8').split('\\n')) {
  const file = fs.openSync(path, 'r'), { size } = fs.fstatSync(file);
  if (size > buffer.length) buffer = Buffer.alloc(2 * size);
  const count = fs.readSync(file, buffer, 0, size, 0);
  if (hash) createHash('sha256').update(buffer.subarray(0, count)).digest();
  fs.closeSync(file);
}`;

const median = (numbers: readonly number[]): number => [...numbers].sort((a, b) => a - b)[Math.floor(numbers.length / 2)] ?? 0;

const typical = (costs: readonly Cost[]): Cost => ({
  seconds: median(costs.map(({ seconds }) => seconds)),
  cpu: median(costs.map(({ cpu }) => cpu)),
  mebibytes: Math.max(...costs.map(({ mebibytes }) => mebibytes)),
});

/** What the README shows: a row for each batch. */
const summary: string[] = [];

const tell = (row: string): void => {
  console.log(row);
};

/** A cost in a cell of the README: CPU, how many times that of xmllint, and memory. */
const inShort = (cost: Cost, beside: Cost): string =>
  `${cost.cpu.toFixed(1)} s, ${(cost.cpu / beside.cpu).toFixed(1)} times, ${cost.mebibytes.toFixed(0)} MiB`;

const say = (cost: Cost, beside: Cost): string =>
  `${cost.seconds.toFixed(2)} s | ${cost.cpu.toFixed(2)} s | ${cost.mebibytes.toFixed(0)} MiB | ${(cost.seconds / beside.seconds).toFixed(1)} | ${(cost.cpu / beside.cpu).toFixed(1)}`;

async function measure(folder: string, profile: WriteProfile, pages: number): Promise<void> {
  const style = { technical: 'all-files' } as const;
  const batch = generateBatch({ seed: SEED, pages, profile, style });
  const other = generateBatch({ seed: OTHER_SEED, pages, profile, style }).record;
  const documents: string[] = [];
  let bytes = 0;
  const noted = function* (): Generator<typeof batch.files extends Iterable<infer F> ? F : never> {
    for (const file of batch.files) {
      if (file.path.endsWith('.xml') && file.text !== '') documents.push(join(folder, batch.name, file.path));
      bytes += file.text.length;
      yield file;
    }
  };
  writeFiles(join(folder, batch.name), noted());
  const list = join(folder, 'documents.txt');
  writeFileSync(list, documents.join('\n'));
  const anchors: readonly (readonly [string, string, readonly string[]])[] = [
    ['reading the bytes', process.execPath, ['-e', READER, list]],
    ['reading and hashing them', process.execPath, ['-e', READER, list, 'hash']],
    ['`xmllint --stream`', 'sh', ['-c', 'tr "\\n" "\\0" < "$1" | xargs -0 xmllint --stream --noout', 'sh', list]],
  ];
  const cases = values.cases.split(',').map((name) => {
    const record = join(folder, `${name.replaceAll(' ', '-')}.json`);
    writeFileSync(record, JSON.stringify(CASES[name]?.(batch.record, other)));
    const args = [MAIN, 'verify', '--collation', record, '--batch', join(folder, batch.name), '--profile', profile, '--quiet', '--format'];
    return [name, process.execPath, args] as const;
  });
  const found = cases.map(([, command, args]) => {
    const { stdout } = spawnSync(command, [...args, 'json'], { encoding: 'utf8', maxBuffer: 1 << 30 });
    return (JSON.parse(stdout) as Findings).findings.length;
  });
  const everything = [...anchors, ...cases.map(([name, command, args]) => [name, command, [...args, 'text']] as const)];
  const costs = everything.map((): Cost[] => []);
  for (let run = 0; run < Number(values.runs); run += 1)
    for (const [at, [, command, args]] of everything.entries()) costs[at]?.push(await peakOf(command, args));
  const all = costs.map(typical);
  const beside = all[2] as Cost;
  tell(
    `| **${pages.toLocaleString('en')} pages, ${profile}**: ${String(documents.length)} documents, ${(bytes / 1e6).toFixed(1)} MB | | | | | |`,
  );
  everything.forEach(([name], at) => {
    const count = at < anchors.length ? '' : ` (${String(found[at - anchors.length])} findings)`;
    tell(`| ${name}${count} | ${say(all[at] as Cost, beside)} |`);
  });
  const cells = all.slice(anchors.length).map((cost) => inShort(cost, beside));
  summary.push(
    `| ${[`${pages.toLocaleString('en')}, ${profile}, ${(bytes / 1e6).toFixed(1)} MB`, `${beside.cpu.toFixed(2)} s`, ...cells].join(' | ')} |`,
  );
}

tell('| | clock | CPU | memory | clock, times `xmllint --stream` | CPU, times `xmllint --stream` |');
tell('|---|---|---|---|---|---|');
for (const profile of values.profiles.split(',') as WriteProfile[])
  for (const pages of values.pages.split(',').map(Number)) {
    const folder = mkdtempSync(join(tmpdir(), 'reeltally-speed-'));
    try {
      await measure(folder, profile, pages);
    } finally {
      rmSync(folder, { recursive: true, force: true });
    }
  }

if (values.write) {
  const [begin, end] = ['<!-- begin speed -->', '<!-- end speed -->'];
  const text = readFileSync('README.md', 'utf8');
  const [head, tail] = [text.indexOf(begin), text.indexOf(end)];
  if (head < 0 || tail < head) throw new Error('README.md has no place for the table.');
  const heads = ['pages, layout, documents', '`xmllint --stream`', ...values.cases.split(',')];
  const table = [`| ${heads.join(' | ')} |`, `|${'---|'.repeat(heads.length)}`, ...summary];
  writeFileSync('README.md', `${text.slice(0, head)}${begin}\n${table.join('\n')}\n${text.slice(tail)}`);
}
