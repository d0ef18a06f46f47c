// Verifies invented films that a vendor rendered as ordered, all from files on disk, over all policies, both profiles and all ways to write the same:
// npm run bench:clean [-- --films 1000 --seed 1 --first 0]. Nothing of severity minor or above may be found; what is found is told by code with its first films.
import { mkdirSync, mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { dirname, join } from 'node:path';
import { parseArgs } from 'node:util';
import { verification } from '../../src/cli/verification.js';
import type { Findings } from '../../src/model/findings.js';
import { makeFilm } from '../forge/film/make-film.js';
import { drawnOrder } from '../forge/ordered.js';
import { planOf } from '../forge/plan.js';
import { recordOf } from '../forge/record/record-of.js';
import { drawnStyle, folderName, writeReturn } from '../forge/write/index.js';

const { values } = parseArgs({
  options: { seed: { type: 'string', default: '1' }, films: { type: 'string', default: '1000' }, keep: { type: 'string' } },
});
const root = values.keep ?? mkdtempSync(join(tmpdir(), 'reeltally-clean-'));

function put(path: string, text: string): string {
  mkdirSync(dirname(path), { recursive: true });
  writeFileSync(path, text);
  return path;
}

/** One film, its record and its return on disk, verified as the command does it. */
async function verified(seed: number): Promise<{ readonly result: Findings; readonly files: number }> {
  const profile = seed % 2 === 0 ? 'issue-mets' : 'page-mods';
  const { policies, options } = drawnOrder(seed);
  const style = drawnStyle(seed);
  const film = makeFilm({
    seed,
    pages: 40,
    oddPerMille: 450,
    titleIds: profile === 'page-mods' && seed % 3 === 0 ? 'key' : 'number',
    reelNumbers: seed % 5 < 2 ? 'box' : 'short',
    ...(seed % 4 === 1 ? { reels: 2, titles: 1 } : {}),
  });
  const plan = planOf(film, options);
  const here = join(root, String(seed));
  const batch = join(here, folderName(plan, style));
  let files = 0;
  for (const { path, text } of writeReturn(plan, profile, style)) {
    put(join(batch, path), text);
    files += 1;
  }
  const record = put(join(here, 'record.json'), JSON.stringify(recordOf(film)));
  const terms = { ...policies, ...(style.files?.length === 4 ? { files: 'required' as const } : {}) };
  const agreement = put(join(here, 'agreement.json'), JSON.stringify({ format: 'reeltally/agreement/1', policies: terms }));
  const readText = seed % 3 === 1 ? { readText: true as const } : {};
  const result = await verification({ collation: [record], agreement, batch: [batch], at: '2031-03-04', ...readText }, () => undefined);
  if (values.keep === undefined) rmSync(here, { recursive: true });
  return { result, files };
}

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
  const one = await verified(seed);
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
