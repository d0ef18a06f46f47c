import { rmSync } from 'node:fs';
import { workFolder } from './copy.js';
import { astonishing, isKnown } from './not-yet.js';
import { PUBLISHED, publishedIn } from './sets.js';
import { type Outcome, tried } from './trial.js';

// `npm run check:real -- DIR` verifies the published returns that lie in DIR against records made by reading their documents, spoils them in every way
// they can carry, and prints what was said. The exit status is 1 where anything was said that is not so, or not said that is so.

const [folder = PUBLISHED] = process.argv.slice(2);
const returns = publishedIn(folder);
const out = (line: string): void => void process.stdout.write(`${line}\n`);
if (returns.length === 0) {
  process.stderr.write(`None of the published returns lies in "${folder}". Name the folder that holds them.\n`);
  process.exitCode = 3;
} else {
  const work = workFolder();
  const outcomes: Outcome[] = [];
  for (const one of returns) {
    const own = await tried(one, work);
    own.forEach(tell);
    outcomes.push(...own);
  }
  rmSync(work, { recursive: true });
  const wrong = outcomes.filter(({ surprises }) => surprises.length > 0);
  const wrongSets = new Set(wrong.filter(({ kind }) => kind === 'right').map(({ set }) => set));
  const figures = (kind: Outcome['kind']): string => {
    const all = outcomes.filter((outcome) => outcome.kind === kind);
    const bad = wrong.filter((outcome) => outcome.kind === kind);
    return `${all.length - bad.length} of ${all.length}, known to be not yet right: ${bad.filter(isKnown).length}`;
  };
  out('');
  out(`Sets right: ${returns.length - wrongSets.size} of ${returns.length}.`);
  out(`Spoilings right: ${figures('spoilt')}.`);
  out(`What is easily passed over, right: ${figures('silence')}.`);
  process.exitCode = astonishing(outcomes).length === 0 ? 0 : 1;
}

function tell(outcome: Outcome): void {
  const { set, trial, verdict, expected, said, surprises } = outcome;
  const held = surprises.length === 0;
  const word = held === isKnown(outcome) ? (held ? 'NOW RIGHT' : 'WRONG') : held ? 'right' : 'not yet';
  out(`${word.padEnd(9)} ${set.padEnd(16)} ${trial.padEnd(36)} ${verdict}`);
  for (const line of expected) out(`            expected  ${line}`);
  for (const line of said) out(`            said      ${line}`);
  for (const line of surprises) out(`            SURPRISE  ${line}`);
}
