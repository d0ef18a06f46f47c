// What reading a collation record costs beside `JSON.parse` of the same rows:
// npm run bench:records -- [--rows 10000,100000] [--runs 9] [--write]
// Each form is read in a process of its own, many times over, and CPU is told, of which other work of the machine takes least: the lowest of the runs
// once the code is warm, and that of the whole command. `--write` puts the table into DEVELOPERS.md.

import { spawnSync } from 'node:child_process';
import { mkdirSync, mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join, resolve } from 'node:path';
import { parseArgs } from 'node:util';
import { convertRecord, convertToWorkbook } from '../../src/collation/convert.js';
import type { CollationRecord } from '../../src/model/collation-record.js';
import { normaliseRecord } from '../../src/normalise/record.js';
import { writeTables } from '../../src/report/xlsx/tables.js';
import { generateBatch } from '../forge/batch.js';
import { peakOf } from './peak.js';

const { values } = parseArgs({
  options: {
    rows: { type: 'string', default: '10000,100000' },
    runs: { type: 'string', default: '9' },
    write: { type: 'boolean', default: false },
  },
});

const FORMS = ['json', 'csv', 'xlsx'] as const;

/** The same film as that of the bench of whole batches. */
const SEED = 14;

/** Reads one record over and over, and the JSON text of the same rows in turn with it; prints the CPU of each in milliseconds. */
const READER = `
const { readFileSync } = require('node:fs');
const [home, text, folder, runs] = process.argv.slice(1);
const cpu = (from) => { const { user, system } = process.cpuUsage(from); return (user + system) / 1000; };
(async () => {
  const { readRecord } = await import(home + '/dist/read/record.js');
  const { collationRecord } = await import(home + '/dist/acts/inputs/collation-record.js');
  const json = readFileSync(text, 'utf8');
  const costs = { parse: [], cells: [], record: [] };
  for (let run = 0; run < Number(runs) + 2; run += 1) {
    let from = process.cpuUsage();
    JSON.parse(json);
    costs.parse.push(cpu(from));
    from = process.cpuUsage();
    await readRecord([folder]);
    costs.cells.push(cpu(from));
    from = process.cpuUsage();
    await collationRecord([folder]);
    costs.record.push(cpu(from));
  }
  // The first two runs warm the code.
  console.log(JSON.stringify(Object.fromEntries(Object.entries(costs).map(([name, all]) => [name, Math.min(...all.slice(2))]))));
})();`;

interface Costs {
  readonly parse: number;
  readonly cells: number;
  readonly record: number;
}

function write(folder: string, files: Readonly<Record<string, string | Uint8Array>>): void {
  mkdirSync(folder);
  for (const [name, content] of Object.entries(files)) writeFileSync(join(folder, name), content);
}

/** Writes a film of so many pages in each form, and gives the number of rows of its frame sheet. */
async function writeForms(folder: string, pages: number): Promise<number> {
  const written: CollationRecord = generateBatch({ seed: SEED, pages, profile: 'issue-mets' }).record;
  const { record } = normaliseRecord({ sheets: [], records: [{ name: 'record.json', record: written }] });
  write(join(folder, 'json'), { 'record.json': JSON.stringify(written) });
  write(join(folder, 'csv'), Object.fromEntries(convertRecord(record, 'frame-sheet').files.map(({ name, text }) => [name, text])));
  write(join(folder, 'xlsx'), { 'record.xlsx': await writeTables(convertToWorkbook(record, 'frame-sheet').sheets) });
  return record.reels.reduce((sum, { frames, absent = [] }) => sum + frames.length + absent.length, 0);
}

const tell = (row: string): string => {
  console.log(row);
  return row;
};

const HEADS = ['rows, form', '`JSON.parse`', 'cells alone', 'the record', 'times `JSON.parse`', '`collation check`'];
const table = [tell(`| ${HEADS.join(' | ')} |`), tell(`|${'---|'.repeat(HEADS.length)}`)];

for (const pages of values.rows.split(',').map(Number)) {
  const folder = mkdtempSync(join(tmpdir(), 'reeltally-records-'));
  try {
    const rows = await writeForms(folder, pages);
    for (const form of FORMS) {
      const args = ['-e', READER, resolve('.'), join(folder, 'json', 'record.json'), join(folder, form), values.runs];
      const { stdout, stderr, status } = spawnSync(process.execPath, args, { encoding: 'utf8' });
      if (status !== 0) throw new Error(stderr);
      const { parse, cells, record } = JSON.parse(stdout) as Costs;
      const whole: number[] = [];
      for (let run = 0; run < 3; run += 1)
        whole.push((await peakOf(process.execPath, ['dist/cli/main.js', 'collation', 'check', join(folder, form)])).cpu);
      const costs = [parse, cells, record].map((cost) => `${cost.toFixed(0)} ms`);
      const name = `${rows.toLocaleString('en')}, ${form.toUpperCase()}`;
      table.push(tell(`| ${[name, ...costs, (record / parse).toFixed(1), `${Math.min(...whole).toFixed(1)} s`].join(' | ')} |`));
    }
  } finally {
    rmSync(folder, { recursive: true, force: true });
  }
}

if (values.write) {
  const [begin, end] = ['<!-- begin records -->', '<!-- end records -->'];
  const text = readFileSync('DEVELOPERS.md', 'utf8');
  const [head, tail] = [text.indexOf(begin), text.indexOf(end)];
  if (head < 0 || tail < head) throw new Error('DEVELOPERS.md has no place for the table.');
  writeFileSync('DEVELOPERS.md', `${text.slice(0, head)}${begin}\n\n${table.join('\n')}\n\n${text.slice(tail)}`);
}
