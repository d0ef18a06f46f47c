// What the verification of a batch costs beside a strict reading of the same files: `npm run bench:speed -- [--pages 10000] [--runs 5]`.
// Times depend on the machine, so a ratio is printed; needs xmllint (libxml2).
import { mkdirSync, mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { dirname, join } from 'node:path';
import { parseArgs } from 'node:util';
import { generateBatch } from '../forge/batch.js';
import { type Cost, peakOf } from './peak.js';

const { values } = parseArgs({
  options: { pages: { type: 'string', default: '10000' }, runs: { type: 'string', default: '5' }, seed: { type: 'string', default: '7' } },
});

const median = (numbers: readonly number[]): number => [...numbers].sort((a, b) => a - b)[Math.floor(numbers.length / 2)] ?? 0;

const folder = mkdtempSync(join(tmpdir(), 'reeltally-speed-'));
try {
  const batch = generateBatch({
    seed: Number(values.seed),
    pages: Number(values.pages),
    profile: 'issue-mets',
    style: { technical: 'all-files' },
  });
  const files: string[] = [];
  let bytes = 0;
  for (const { path, text } of batch.files) {
    const file = join(folder, batch.name, path);
    mkdirSync(dirname(file), { recursive: true });
    writeFileSync(file, text);
    if (path.endsWith('.xml') && text !== '') files.push(file);
    bytes += text.length;
  }
  const record = join(folder, 'collation-record.json');
  writeFileSync(record, JSON.stringify(batch.record));
  const verify = ['dist/cli/main.js', 'verify', '--collation', record, '--batch', join(folder, batch.name), '--format', 'text'];
  const ours: Cost[] = [];
  const theirs: Cost[] = [];
  for (let run = 0; run <= Number(values.runs); run += 1) {
    const verified = await peakOf(process.execPath, verify);
    const linted = await peakOf('xmllint', ['--stream', '--noout', ...files]);
    // The first run warms the file cache.
    if (run > 0) ours.push(verified);
    if (run > 0) theirs.push(linted);
  }
  const ratio = median(ours.map(({ seconds }, at) => seconds / (theirs[at]?.seconds ?? 1)));
  const memory = Math.max(...ours.map(({ mebibytes }) => mebibytes));
  console.log(`${String(files.length)} documents, ${(bytes / 1e6).toFixed(1)} MB`);
  console.log(
    `verify: ${ratio.toFixed(1)} times as long as xmllint --stream over the same files (median of ${values.runs}), at most ${memory.toFixed(0)} MiB`,
  );
} finally {
  rmSync(folder, { recursive: true, force: true });
}
