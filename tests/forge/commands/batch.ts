// Writes an invented batch of any size with its collation record:
// npm run batch -- --pages 10000 --seed 7 --out DIR [--profile issue-mets|page-mods] [--faults N] [--reel-pages N]
// Technical metadata is written for all files of a page, as a supplier sends it, so that the size is a real batch's.
import { existsSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { parseArgs } from 'node:util';
import { writeFiles } from '../../support/on-disk.js';
import { generateBatch } from '../batch.js';

const { values } = parseArgs({
  options: {
    pages: { type: 'string', default: '10000' },
    seed: { type: 'string', default: '7' },
    out: { type: 'string' },
    profile: { type: 'string', default: 'issue-mets' },
    faults: { type: 'string', default: '0' },
    'reel-pages': { type: 'string', default: '800' },
  },
});

const { out, profile } = values;
const numbers = [values.pages, values.seed, values.faults, values['reel-pages']];
if (out === undefined) stop('Say where to write with --out DIR.');
if (profile !== 'issue-mets' && profile !== 'page-mods') stop(`--profile is "${profile}"; it can be issue-mets or page-mods.`);
if (numbers.some((each) => !/^\d{1,7}$/.test(each))) stop('--pages, --seed, --faults and --reel-pages take whole numbers.');
if (existsSync(out)) stop(`"${out}" is there already; name a folder that is not.`);

const batch = generateBatch({
  pages: Number(values.pages),
  seed: Number(values.seed),
  profile,
  faults: Number(values.faults),
  pagesPerReel: Math.max(1, Number(values['reel-pages'])),
  style: { technical: 'all-files' },
});

const folder = join(out, batch.name);
const count = writeFiles(folder, batch.files);
writeFileSync(join(out, 'collation-record.json'), `${JSON.stringify(batch.record, null, 1)}\n`);
writeFileSync(join(out, 'expected.json'), `${JSON.stringify(batch.expected, null, 1)}\n`);
const frames = batch.record.reels.reduce((sum, reel) => sum + reel.frames.length, 0);
process.stdout.write(
  `${folder}: ${count} files, ${batch.record.reels.length} reels, ${frames} frames, ${batch.expected.length} findings to expect\n`,
);

function stop(sentence: string): never {
  process.stderr.write(`${sentence}\n`);
  process.exit(3);
}
