// Changes the program in small ways, one at a time, and tells which changes no test notices.
// npm run mutate -- --room payment [--sample 200 --seed 1 --seconds 60 --tests tests/payment --fresh --write]
import { readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { parseArgs } from 'node:util';
import { counted, survivorLine, tryMutants } from './trial.js';

const { values } = parseArgs({
  options: {
    room: { type: 'string', multiple: true, default: [] },
    sample: { type: 'string', default: '200' },
    seed: { type: 'string', default: '1' },
    seconds: { type: 'string', default: '60' },
    tests: { type: 'string', multiple: true, default: ['tests'] },
    fresh: { type: 'boolean', default: false },
    write: { type: 'boolean', default: false },
  },
});
const root = fileURLToPath(new URL('../..', import.meta.url));
const developers = join(root, 'DEVELOPERS.md');

/** Puts the row of a room into the table for developers, in place of its old one. */
function write(room: string, row: string): void {
  const text = readFileSync(developers, 'utf8');
  const [before = '', table = '', after = ''] = text.split(/(?<=<!-- mutants -->\n\n)|(?=\n<!-- end mutants -->)/);
  const rows = table.split('\n').filter((line) => line.startsWith('|') && !line.startsWith(`| \`${room}\` |`));
  const [head = '', line = '', ...others] = rows;
  writeFileSync(developers, `${before}${[head, line, ...[...others, row].sort()].join('\n')}\n${after}`);
}

if (values.room.length === 0) throw new Error('Which room? npm run mutate -- --room payment');
for (const room of values.room) {
  const started = Date.now();
  const outcome = await tryMutants({
    root,
    compiler: 'tsconfig.json',
    config: '.config/vitest.config.ts',
    sources: [`src/${room}`],
    tests: values.tests,
    sample: Number(values.sample),
    seed: Number(values.seed),
    seconds: Number(values.seconds),
    patience: 20_000,
    cache: join(root, 'node_modules/.cache/mutants', room),
    isFresh: values.fresh,
    tell: (line) => process.stderr.write(`${line}\n`),
  });
  const left = outcome.tried.filter(({ fate }) => fate === 'survived' || fate === 'same');
  const lines = left.map((one) => survivorLine(root, one)).sort();
  if (lines.length > 0) console.log(`Not noticed:\n${lines.join('\n')}\n`);
  const { tried, killed, late, share } = counted(outcome);
  const row = `| \`${room}\` | ${String(killed)} of ${String(tried)} | ${(share * 100).toFixed(1)} % | ${String(outcome.all)} | ${values.seed} | ${new Date().toISOString().slice(0, 10)} |`;
  console.log(
    `${row}\n${String(late)} of them by not coming to an end; ${String(outcome.refused)} more were refused by the compiler. ${String(Math.round((Date.now() - started) / 1000))} s`,
  );
  if (values.write) write(room, row);
}
