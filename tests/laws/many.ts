// Holds many drawn cases to the laws: npm run laws:many [-- --cases 5000 --seed 11 --write]. Most are single mistakes, one in five is a pair, every second pair beside
// each other, one in ten holds three to ten. What share of them may break each law stands in shares.json, which only shrinks; `--write` lowers it to what was found.
import { readFileSync, writeFileSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import { parseArgs } from 'node:util';
import type { Case } from '../forge/algebra/case.js';
import { type Series, several, single } from '../forge/algebra/draw.js';
import { type Law, outcomeOf } from './drawn.js';

const { values } = parseArgs({
  options: {
    cases: { type: 'string', default: '5000' },
    seed: { type: 'string', default: '11' },
    write: { type: 'boolean', default: false },
    show: { type: 'string', default: '' },
  },
});

/** Shares in cases of a hundred by how many mistakes a case holds, and by law. */
type Shares = Record<string, Partial<Record<Law, number>>>;

const FILE = fileURLToPath(new URL('shares.json', import.meta.url));
const series: Series = { seed: Number(values.seed), pages: 30 };

/** Of ten cases seven hold one mistake, two hold a pair, one holds three, four, five or ten. */
function drawn(at: number): readonly [string, Case | null] {
  const turn = at % 10;
  if (turn < 7) return ['one', single(series, at)];
  if (turn < 9) return ['pair', several(series, Math.floor(at / 10) * 2 + (turn - 7), 2)];
  return ['many', several(series, at, [3, 4, 5, 10][Math.floor(at / 10) % 4] ?? 3)];
}

const tried: Record<string, number> = {};
const broken: Record<string, Partial<Record<Law, number>>> = {};
for (let at = 0; at < Number(values.cases); at += 1) {
  const [kind, one] = drawn(at);
  if (one === null) continue;
  tried[kind] = (tried[kind] ?? 0) + 1;
  const laws = (broken[kind] ??= {});
  for (const law of (await outcomeOf(one, kind, at)).breaks) {
    laws[law] = (laws[law] ?? 0) + 1;
    if (law === values.show) console.log(`${kind} ${String(at)}: ${JSON.stringify(one.planted.map(({ edit }) => edit))}`);
  }
}

const known = JSON.parse(readFileSync(FILE, 'utf8')) as Shares;
const found: Shares = {};
let worse = 0;
for (const [kind, count] of Object.entries(tried)) {
  const shares = (found[kind] = {} as Partial<Record<Law, number>>);
  for (const law of [...new Set([...Object.keys(broken[kind] ?? {}), ...Object.keys(known[kind] ?? {})])].sort() as Law[]) {
    const share = (100 * (broken[kind]?.[law] ?? 0)) / count;
    const most = known[kind]?.[law] ?? 0;
    // a share that was counted on other cases is known within its error of sampling
    const error = 200 * Math.sqrt(((most / 100) * (1 - most / 100)) / count);
    if (share > 0) shares[law] = Math.ceil(10 * Math.min(share, most)) / 10;
    if (share > most + error) worse += 1;
    console.log(
      `${kind.padEnd(5)} ${law.padEnd(17)} ${share.toFixed(1).padStart(5)} % of ${String(count)}, at most ${most.toFixed(1)} %${share > most + error ? ': worse' : ''}`,
    );
  }
}
if (values.write && worse === 0) writeFileSync(FILE, `${JSON.stringify(found, null, 2)}\n`);
console.log(worse === 0 ? 'No law is broken more often than is known.' : `${String(worse)} laws are broken more often than is known.`);
process.exitCode = worse === 0 ? 0 : 1;
