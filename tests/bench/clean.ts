// Verifies invented films that a vendor rendered as ordered, all from files on disk, over all policies, both profiles and all ways to write the same:
// npm run bench:clean [-- --films 1000 --seed 1 --keep DIR]. Nothing of severity minor or above may be found; what is found is told by code with its first films.
import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { parseArgs } from 'node:util';
import { verifyClean } from '../support/clean-on-disk.js';

const { values } = parseArgs({
  options: { seed: { type: 'string', default: '1' }, films: { type: 'string', default: '1000' }, keep: { type: 'string' } },
});
const root = values.keep ?? mkdtempSync(join(tmpdir(), 'reeltally-clean-'));

interface Told {
  count: number;
  readonly films: Set<number>;
  readonly first: string;
}

const told = new Map<string, Told>();
const note = (key: string, seed: number, says: string): void => {
  const one = told.get(key) ?? { count: 0, films: new Set<number>(), first: `film ${seed}: ${says}` };
  one.count += 1;
  one.films.add(seed);
  told.set(key, one);
};

const first = Number(values.seed);
const films = Number(values.films);
const wrong = new Set<number>();
let files = 0;
for (let seed = first; seed < first + films; seed += 1) {
  const one = await verifyClean(seed, root, values.keep !== undefined);
  files += one.files;
  for (const finding of one.result.findings) {
    if (finding.severity !== 'note') wrong.add(seed);
    note(`${finding.severity} ${finding.code}`, seed, finding.says);
  }
  if (one.result.verdict.decision !== 'accept') note(`verdict ${one.result.verdict.decision}`, seed, one.result.verdict.reasons.join(' '));
}
if (values.keep === undefined) rmSync(root, { recursive: true });
for (const [key, one] of [...told].sort(([, a], [, b]) => b.films.size - a.films.size))
  console.log(`${key}: ${one.count} in ${one.films.size} films (${[...one.films].slice(0, 6).join(', ')})\n  ${one.first}`);
console.log(`${films} clean films, ${files} files: ${wrong.size} with a false finding`);
process.exitCode = wrong.size === 0 ? 0 : 1;
