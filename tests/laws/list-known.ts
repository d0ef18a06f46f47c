// Writes the list of laws that are known to be broken by drawn mistakes: npm run laws:known [-- --grow]. The list may only shrink; where it
// would grow that is told, and the list stays as it is unless --grow says that it is meant (after a change of the algebra itself).
import { existsSync, readFileSync, writeFileSync } from 'node:fs';
import { countsOf, drawnPairs, drawnSingles, KNOWN, kindsOfSingles, type Outcome } from './drawn.js';

const singles: Outcome[] = [];
for (const [kind, places] of kindsOfSingles()) singles.push(...(await drawnSingles(kind, places)));
const now = countsOf([...singles, ...(await drawnPairs())]);
const before = existsSync(KNOWN) ? (JSON.parse(readFileSync(KNOWN, 'utf8')) as typeof now) : {};
const entries = (list: typeof now): [string, number][] =>
  Object.entries(list).flatMap(([kind, laws]) => Object.entries(laws).map(([law, count]): [string, number] => [`${kind}: ${law}`, count]));
const was = new Map(entries(before));
const grown = entries(now).filter(([key, count]) => count > (was.get(key) ?? 0));
const sum = (list: typeof now): number => entries(list).reduce((total, [, count]) => total + count, 0);
for (const [key, count] of grown) console.log(`${key}: ${count}, was ${was.get(key) ?? 0}`);
if (grown.length > 0 && !process.argv.includes('--grow')) {
  console.log('The list may only shrink and stays as it is.');
  process.exitCode = 1;
} else {
  const lines = Object.entries(now).map(
    ([kind, laws]) =>
      `  ${JSON.stringify(kind)}: ${JSON.stringify(laws).replaceAll(':', ': ').replaceAll(',', ', ').replace('{', '{ ').replace('}', ' }')}`,
  );
  writeFileSync(KNOWN, `{\n${lines.join(',\n')}\n}\n`);
  console.log(`${sum(now)} breaches on the list, ${sum(before)} before`);
}
