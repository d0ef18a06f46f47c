// Plants edits of the algebra in invented returns and records, singly and several at once, and says how they were told, beside two simpler ways of comparing:
// npm run bench:diagnosis [-- --cases 2000 --seed 1 --only what,how,scope,side --show 20]
import { parseArgs } from 'node:util';
import type { Finding } from '../../src/model/findings.js';
import type { Case } from '../forge/algebra/case.js';
import { type Series, several, single } from '../forge/algebra/draw.js';
import type { Product } from '../forge/algebra/products.js';
import { joinOnNumber, lineDiff } from './baselines.js';
import { verifyCase } from './in-memory.js';
import { judge, lieUnder, type Verdict } from './judge.js';
import { countCase, countMet, emptyTally, HEAD, row, type Tally } from './tally.js';

const { values } = parseArgs({
  options: {
    cases: { type: 'string', default: '2000' },
    seed: { type: 'string', default: '1' },
    only: { type: 'string', default: '' },
    show: { type: 'string', default: '0' },
  },
});
const cases = Number(values.cases);
const wanted = values.only.split(',').filter((word) => word !== '');
const only = (product: Product): boolean => wanted.every((word) => (Object.values(product) as string[]).includes(word));
const series: Series = { seed: Number(values.seed), pages: 44, only };

const rows = new Map<string, Tally>();
const wrong = new Map<string, { count: number; readonly example: string }>();
const kinds = new Map<string, number>();
const baselines = { join: { reports: 0, found: 0 }, diff: { reports: 0, found: 0 }, mistakes: 0 };
const harmless = { cases: 0, told: 0 };
const broken = new Map<string, { count: number; readonly example: string }>();
let tried = 0;
let placeless = 0;

const tallyOf = (name: string): Tally => {
  const known = rows.get(name) ?? emptyTally();
  rows.set(name, known);
  return known;
};
const kindOf = ({ what, how, scope, side }: Product): string => `${what} ${how}, ${scope}, ${side}`;
const told = ({ severity, code, cause, says, instruction }: Finding): string =>
  `    ${severity} ${code} (${cause}): ${says}${instruction === null ? '' : `\n      -> ${instruction}`}`;

function shown(one: Case, verdict: Verdict): string {
  const lines = one.planted.map(({ edit, params, traces, told: isTold }) => {
    const met = verdict.met.find(({ planted }) => planted.edit === edit);
    const words =
      met === undefined
        ? 'no mistake'
        : `${met.findings.length} findings, code ${met.code ? 'right' : 'wrong'}, side ${met.side ? 'right' : 'wrong'}`;
    const where = Object.entries(params).map(([name, text]) => `${name} ${text}`);
    return `  ${kindOf(edit)}, ${edit.spot}: ${where.join('; ')}; ${traces.length} traces, side ${isTold ? 'told' : 'open'} -- ${words}\n${(met?.findings ?? []).map(told).join('\n')}`;
  });
  const untrue = verdict.untrue.length === 0 ? [] : ['  about nothing that was planted:', ...verdict.untrue.map(told)];
  return [`  film ${one.scenery.seed}, ${one.scenery.layout}`, ...lines, ...untrue].join('\n');
}

function note(list: Map<string, { count: number; readonly example: string }>, key: string, example: () => string): void {
  const known = list.get(key) ?? { count: 0, example: example() };
  known.count += 1;
  list.set(key, known);
}

/** Verifies and judges a case; a case on which the program breaks off is told by itself and counts as not found. */
async function trial(one: Case | null, names: (planted: Case['planted'][number]) => readonly string[], whole: string): Promise<void> {
  if (one === null) {
    placeless += 1;
    return;
  }
  tried += 1;
  const verified = await verifyCase(one).catch((error: unknown) => {
    note(broken, String(error).slice(0, 160), () => one.planted.map(({ edit }) => kindOf(edit)).join(' + '));
    return null;
  });
  if (verified === null) return;
  const verdict = judge(one, verified.findings);
  if (verdict.met.length === 0) {
    harmless.cases += 1;
    if (verdict.untrue.length === 0) return;
    harmless.told += 1;
    for (const { edit } of one.planted) note(wrong, `no mistake: ${kindOf(edit)}`, () => shown(one, verdict));
    return;
  }
  for (const name of new Set([whole, ...one.planted.flatMap(names)])) countCase(tallyOf(name), verdict);
  for (const met of verdict.met) {
    for (const name of [whole, ...names(met.planted)]) countMet(tallyOf(name), met);
    const kind = kindOf(met.planted.edit);
    if (whole === 'single') kinds.set(kind, (kinds.get(kind) ?? 0) + 1);
    const isRight = met.findings.length === 1 && met.code && met.side && verdict.untrue.length === 0;
    if (!isRight && whole === 'single') note(wrong, kind, () => shown(one, verdict));
  }
  const isWrong = verdict.untrue.length > 0 || verdict.met.some(({ findings }) => findings.length !== 1);
  if (whole !== 'single' && isWrong) note(wrong, `${whole}, not one finding each`, () => shown(one, verdict));
  if (whole !== 'single') return;
  baselines.mistakes += verdict.met.length;
  for (const [name, report] of [
    ['join', joinOnNumber],
    ['diff', lineDiff],
  ] as const) {
    const { reports, places } = report(verified.record, verified.returned);
    baselines[name].reports += reports;
    baselines[name].found += lieUnder(one, places);
  }
}

const started = performance.now();
for (let at = 0; at < cases; at += 1)
  await trial(
    single(series, at),
    ({ edit }) => [`in the ${edit.side}`, `scope ${edit.scope}`, `place ${edit.spot}`, `what ${edit.what}`, `how ${edit.how}`],
    'single',
  );
for (const [count, share] of [
  [2, 4],
  [3, 20],
  [4, 20],
  [5, 20],
  [10, 20],
] as const)
  for (let at = 0; at < Math.ceil(cases / share); at += 1)
    await trial(
      several(series, at, count),
      () => (count > 2 ? [] : at % 2 === 1 ? ['2, beside each other'] : ['2, anywhere']),
      `${count} at once`,
    );
const seconds = (performance.now() - started) / 1000;

console.log(HEAD);
for (const name of ['single', 'in the', 'scope', 'place', 'what', 'how', '2', '3', '4', '5', '10'])
  for (const [key, tally] of [...rows].filter(([each]) => each === name || each.startsWith(`${name} `) || each.startsWith(`${name},`)))
    console.log(row(key, tally));
console.log(`\n${harmless.cases} edits that are no mistake: ${harmless.told} with a finding`);
console.log(
  `${tried} cases in ${seconds.toFixed(0)} s, ${(tried / seconds).toFixed(1)} a second; no film has a place for ${placeless} more`,
);
for (const [says, { count, example }] of broken) console.log(`broke off ${count} times: ${says} (${example})`);
const baseline = (name: string, { reports, found }: { readonly reports: number; readonly found: number }): string =>
  `${name}: ${(reports / Math.max(1, baselines.mistakes)).toFixed(1)} reports for each mistake, ${((100 * found) / Math.max(1, baselines.mistakes)).toFixed(1)} % of the mistakes under at least one of them`;
console.log(baseline('the same single edits by a join on frame number', baselines.join));
console.log(baseline('the same single edits by a line diff of the page lists', baselines.diff));
const worst = [...wrong].sort(([, a], [, b]) => b.count - a.count).slice(0, Number(values.show));
for (const [kind, { count, example }] of worst) {
  const all = kinds.get(kind);
  console.log(`\n${kind}: ${count}${all === undefined ? '' : ` of ${all}`} told wrongly, the first:\n${example}`);
}
