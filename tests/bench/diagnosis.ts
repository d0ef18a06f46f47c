// Plants faults in invented returns and counts how they are diagnosed: npm run bench:diagnosis [-- --seed N --films N]
import { parseArgs } from 'node:util';
import type { Findings } from '../../src/model/findings.js';
import { sideOfRecord } from '../../src/normalise/record-side.js';
import { FAULTS, type Spoilt, spoil, spoilSome } from '../forge/faults/index.js';
import { makeFilm } from '../forge/film/make-film.js';
import { randomFrom } from '../forge/film/random.js';
import { planOf } from '../forge/plan.js';
import { recordOf } from '../forge/record/record-of.js';
import { sideOfPlan } from '../support/sides.js';
import { type Baseline, joinOnNumber, lineDiff } from './baselines.js';
import { layoutFor, verifyFromDisk } from './from-disk.js';
import { score, verifyPlan } from './score.js';

const { values } = parseArgs({ options: { seed: { type: 'string', default: '1' }, films: { type: 'string', default: '1000' } } });
const seed0 = Number(values.seed) * 100_000;

interface Tally {
  films: number;
  expected: number;
  found: number;
  code: number;
  frames: number;
  cause: number;
  findings: number;
  surplus: number;
}

const empty = (): Tally => ({ films: 0, expected: 0, found: 0, code: 0, frames: 0, cause: 0, findings: 0, surplus: 0 });
const film = (seed: number): ReturnType<typeof makeFilm> =>
  makeFilm({ seed, pages: 90, oddPerMille: 450, ...(seed % 4 === 1 ? { reels: 2, titles: 1 } : {}) });

function count(tally: Tally, spoilt: Spoilt, result: Findings): void {
  const { met, surplus } = score(spoilt, result);
  tally.films += 1;
  tally.expected += met.length;
  for (const each of met) {
    if (each.finding !== null) tally.found += 1;
    if (each.code) tally.code += 1;
    if (each.frames) tally.frames += 1;
    if (each.cause) tally.cause += 1;
  }
  tally.findings += result.findings.length;
  tally.surplus += surplus.length;
}

function row(name: string, tally: Tally): string {
  const share = (part: number, whole: number): string => `${((100 * part) / Math.max(1, whole)).toFixed(1)} %`.padStart(8);
  const { films, expected, found, code, frames, cause, findings } = tally;
  return `${name.padEnd(34)} ${String(films).padStart(5)} ${String(expected).padStart(7)} ${share(found, expected)} ${share(found, findings)} ${share(code, expected)} ${share(frames, expected)} ${share(cause, expected)} ${(findings / Math.max(1, expected)).toFixed(3).padStart(9)}`;
}

console.log(`${'single faults, by kind'.padEnd(34)} films  faults   recall precision     code   frames    cause per fault`);
const singles = empty();
const baselines = { join: { reports: 0, found: 0, expected: 0 }, diff: { reports: 0, found: 0, expected: 0 } };
const add = (to: { reports: number; found: number; expected: number }, one: Baseline, expected: number): void => {
  to.reports += one.reports;
  to.found += one.found;
  to.expected += expected;
};
for (const fault of FAULTS) {
  const tally = empty();
  for (let seed = seed0 + 1; tally.films < 6 && seed < seed0 + 160; seed++) {
    const spoilt = spoil(film(seed), fault, randomFrom(seed), { targetsListed: true });
    if (spoilt === null) continue;
    const layout = layoutFor(spoilt, tally.films % 2 === 0 ? 'issue-mets' : 'page-mods');
    if (layout === null) continue;
    count(tally, spoilt, await verifyFromDisk(spoilt, layout, tally.films % 3 === 2));
    const sides = [sideOfRecord(spoilt.record), sideOfPlan(spoilt.plan)] as const;
    add(baselines.join, joinOnNumber(...sides, spoilt.expected), spoilt.expected.length);
    add(baselines.diff, lineDiff(...sides, spoilt.expected), spoilt.expected.length);
  }
  for (const key of Object.keys(singles) as (keyof Tally)[]) singles[key] += tally[key];
  console.log(row(fault.kind, tally));
}
console.log(`\n${''.padEnd(34)} films  faults   recall precision     code   frames    cause per fault`);
console.log(row('all single faults', singles));
for (const many of [2, 3, 4, 5, 10]) {
  const tally = empty();
  for (let seed = seed0 + 1000; tally.films < 60 && seed < seed0 + 1400; seed++) {
    const spoilt = spoilSome(film(seed), many, randomFrom(seed + many));
    if (spoilt === null) continue;
    const layout = layoutFor(spoilt, seed % 2 === 0 ? 'issue-mets' : 'page-mods');
    if (layout === null) continue;
    count(tally, spoilt, await verifyFromDisk(spoilt, layout, seed % 3 === 0));
  }
  console.log(row(`${String(many)} faults at once`, tally));
}
let spoiltFilms = 0;
const films = Number(values.films);
for (let seed = seed0 + 5000; seed < seed0 + 5000 + films; seed++) {
  const result = verifyPlan(recordOf(film(seed)), planOf(film(seed)), {}, seed % 2 === 0 ? null : 'page-mods');
  if (result.findings.length > 0) spoiltFilms += 1;
}
console.log(`\nclean films: ${String(films)}, of which ${String(spoiltFilms)} with a false finding`);
const baseline = (name: string, one: { reports: number; found: number; expected: number }): string =>
  `${name}: ${(one.reports / one.expected).toFixed(1)} reports per fault, ${((100 * one.found) / one.expected).toFixed(1)} % of the faults under at least one of them`;
console.log(baseline('the same single faults by a join on frame number', baselines.join));
console.log(baseline('the same single faults by a line diff of the page lists', baselines.diff));
