// Spoils files of every kind and holds what the program does: no crash, no endless work, nothing ill-formed accepted in silence, nothing in a text that steers a terminal.
// npm run fuzz [-- --minutes 5 --seed 1 --only "a record"]; without a seed one is drawn and printed. A case is told by its number: --seed NUMBER --cases 1 runs it again.
import { type ChildProcess, fork } from 'node:child_process';
import { rmSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import { parseArgs } from 'node:util';
import { template } from './template.js';

const { values } = parseArgs({
  options: {
    minutes: { type: 'string', default: '5' },
    seed: { type: 'string' },
    cases: { type: 'string' },
    only: { type: 'string', default: '' },
  },
});
/** So long may one case take, on a machine that has other things to do. */
const LONGEST = 30_000;
const TOLD = 12;

interface Told {
  readonly seed: number;
  readonly name: string;
  readonly wrong?: string;
}

const first = values.seed === undefined ? Math.floor(Math.random() * 1_000_000) * 1000 : Number(values.seed);
const last = values.cases === undefined ? Number.MAX_SAFE_INTEGER : first + Number(values.cases);
const end = Date.now() + Number(values.minutes) * 60_000;
console.log(`npm run fuzz -- --seed ${String(first)}`);

const counts = new Map<string, number>();
const wrong: Told[] = [];

/** Runs cases from `from` on in a process of its own, until the time is over or the process ends; gives the next case. */
async function stretch(root: string, from: number): Promise<number> {
  return new Promise((done) => {
    const child: ChildProcess = fork(fileURLToPath(new URL('child.ts', import.meta.url)), [root, String(from), String(last), values.only], {
      execArgv: ['--import', 'tsx'],
    });
    let at: Told | null = null;
    let stopped = false;
    let isLost = false;
    const hang = (): void => {
      if (at !== null) wrong.push({ ...at, wrong: `did not end in ${String(LONGEST / 1000)} s` });
      isLost = true;
      child.kill('SIGKILL');
    };
    let timer = setTimeout(hang, LONGEST * 2);
    child.on('message', (told: Told) => {
      clearTimeout(timer);
      timer = setTimeout(hang, LONGEST);
      if (told.wrong !== undefined) {
        wrong.push(told);
        return;
      }
      at = told;
      counts.set(told.name, (counts.get(told.name) ?? 0) + 1);
      if (Date.now() < end || stopped) return;
      stopped = true;
      child.kill('SIGKILL');
    });
    child.on('exit', (code) => {
      clearTimeout(timer);
      if (!stopped && !isLost && code !== 0)
        wrong.push({ seed: at?.seed ?? from, name: at?.name ?? 'the start', wrong: `the process ended with ${String(code)}` });
      done(code === 0 || at === null ? last : at.seed + 1);
    });
  });
}

const root = template();
try {
  let next = first;
  while (Date.now() < end && next < last && wrong.length < 200) next = await stretch(root, next);
} finally {
  rmSync(root, { recursive: true, force: true });
}
for (const { seed, name, wrong: what = '' } of wrong.slice(0, TOLD))
  console.log(`\n${name}, npm run fuzz -- --seed ${String(seed)} --cases 1\n${what.split('\n').slice(0, 8).join('\n')}`);
const cases = [...counts].toSorted(([a], [b]) => (a < b ? -1 : 1)).map(([name, count]) => `${String(count)} of ${name}`);
console.log(`\n${cases.join(', ')}: ${String(wrong.length)} not as they should be`);
process.exitCode = wrong.length === 0 && counts.size > 0 ? 0 : 1;
