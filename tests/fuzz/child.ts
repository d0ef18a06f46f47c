// One process of the fuzzer: runs case after case and tells each before it begins, so that the parent knows which one never ended.
import { randomFrom } from '../forge/film/random.js';
import { TARGETS } from './targets.js';
import { WHOLE_CASES } from './whole-cases.js';

const ALL = [...TARGETS, WHOLE_CASES, WHOLE_CASES];

const [root = '', first = '0', last = '0', only = ''] = process.argv.slice(2);
for (let seed = Number(first); seed < Number(last); seed += 1) {
  const random = randomFrom(seed);
  const target = ALL[seed % ALL.length];
  if (target === undefined || (only !== '' && target.name !== only)) continue;
  process.send?.({ seed, name: target.name });
  try {
    await target.run(random, root);
  } catch (error) {
    process.send?.({ seed, name: target.name, wrong: error instanceof Error ? (error.stack ?? error.message) : String(error) });
  }
}
process.disconnect();
