// How the record is checked by itself: which slips are named, what is asked of a right record, and what the check costs beside reading the workbook:
// `npm run bench:record -- [--each 24] [--films 300] [--seed 5] [--reels 60] [--issues 40000]`. Times depend on the machine, so a ratio is printed.
import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { parseArgs } from 'node:util';
import { recordCheck } from '../../src/acts/collation-check.js';
import { collationRecord } from '../../src/acts/inputs/collation-record.js';
import { quietly } from '../../src/acts/surroundings.js';
import { readRecord } from '../../src/read/record.js';
import { writeTables } from '../../src/report/xlsx/tables.js';
import { PRODUCTS } from '../forge/algebra/products.js';
import { plusDays, weekdayOf } from '../forge/film/days.js';
import { makeFilm } from '../forge/film/make-film.js';
import { recordOf } from '../forge/record/record-of.js';
import { drawnSlips, isNamed, shownOf } from '../regular/algebra/drawn.js';
import { kindOf } from '../regular/algebra/table.js';

const { values } = parseArgs({
  options: {
    each: { type: 'string', default: '24' },
    films: { type: 'string', default: '300' },
    seed: { type: 'string', default: '5' },
    reels: { type: 'string', default: '60' },
    issues: { type: 'string', default: '40000' },
  },
});

const share = (part: number, all: number): string => `${((100 * part) / Math.max(1, all)).toFixed(1)} %`;

/** Slips of every kind, and how many of them are named. */
function slips(): void {
  let [shown, named] = [0, 0];
  for (const product of PRODUCTS.filter(({ side }) => side === 'record')) {
    const kind = kindOf(product);
    const drawn = drawnSlips({ seed: Number(values.seed), pages: 120 }, product, Number(values.each));
    const asked = drawn.filter((one) => kind?.but?.where(one) !== true);
    if (asked.length === 0) continue;
    const found = asked.filter(isNamed).length;
    if (kind?.hidden === null) [shown, named] = [shown + asked.length, named + found];
    const name = `${product.what} ${product.how} ${product.scope}`;
    console.log(`  ${kind?.hidden === null ? 'shown ' : 'hidden'} ${name.padEnd(28)} ${String(found)} of ${String(asked.length)}`);
  }
  console.log(`Slips that a regularity shows: ${String(named)} of ${String(shown)} named, ${share(named, shown)}`);
}

/** What is asked of records without a slip, by code. */
function rightRecords(): void {
  const codes = new Map<string, number>();
  let frames = 0;
  for (let seed = 1; seed <= Number(values.films); seed += 1) {
    const record = recordOf(makeFilm({ seed: seed + Number(values.seed) * 1000, pages: 120 }));
    frames += record.reels.reduce((sum, reel) => sum + reel.frames.length, 0);
    const found = shownOf(record);
    if (found === 'refused') throw new Error(`The record of film ${String(seed)} is refused.`);
    for (const { code } of found) codes.set(code, (codes.get(code) ?? 0) + 1);
  }
  const all = [...codes.values()].reduce((sum, count) => sum + count, 0);
  const list = [...codes].map(([code, count]) => `${code} ${String(count)}`).join(', ');
  console.log(
    `Right records: ${String(all)} items in ${String(frames)} frames, ${((1000 * all) / frames).toFixed(2)} in 1,000 (${list === '' ? 'none' : list})`,
  );
}

/** An issue sheet of a daily over many reels, with a slip of some kind in every 200th row. */
async function workbook(): Promise<Uint8Array> {
  const [reels, issues] = [Number(values.reels), Number(values.issues)];
  const rows: string[][] = [];
  const each = Math.ceil(issues / reels);
  let [day, frame, reel] = ['1790-01-01', 4, 0];
  for (let n = 0; n < issues; n += 1) {
    if (n % each === 0) [reel, frame] = [reel + 1, 4];
    do day = plusDays(day, 1);
    while (weekdayOf(day) === 'sun');
    const odd = n % 200 === 199;
    const pages = odd && n % 3 === 0 ? '1-2,4' : '1-4';
    const written = odd && n % 3 === 1 ? plusDays(day, 7) : day;
    const number = odd && n % 3 === 2 ? n + 11 : n + 1;
    rows.push([String(reel), String(frame), written, String(1 + Math.floor(n / 312)), String(number), pages]);
    frame += pages === '1-4' ? 4 : 3;
  }
  return writeTables([
    { name: 'issues', heads: ['reel', 'first frame', 'date', 'volume', 'issue number', 'pages'], rows },
    {
      name: 'titles',
      heads: ['id', 'name', 'language', 'days'],
      rows: [['sn99018200', 'The Tolmouth Lantern', 'eng', 'mon tue wed thu fri sat']],
    },
  ]);
}

async function cost(): Promise<void> {
  const folder = mkdtempSync(join(tmpdir(), 'bench-record-'));
  const path = join(folder, 'record.xlsx');
  try {
    writeFileSync(path, await workbook());
    const bare: number[] = [];
    const loaded: number[] = [];
    let items = 0;
    for (let run = 0; run <= 3; run += 1) {
      const start = performance.now();
      await readRecord([path]);
      const read = performance.now();
      await collationRecord([path]);
      const load = performance.now();
      const { check } = await recordCheck([path], undefined, quietly('1999-12-31'));
      const end = performance.now();
      items = check.items.length;
      // The first run warms code and files.
      if (run === 0) continue;
      bare.push((end - load) / (read - start));
      loaded.push((end - load) / (load - read));
    }
    const middle = (list: readonly number[]): string => (list.toSorted((a, b) => a - b)[1] ?? 0).toFixed(1);
    console.log(
      `${values.reels} reels, ${values.issues} issues: the whole check takes ${middle(loaded)} times as long as reading the record, ${middle(bare)} times as long as taking the bare cells out of the workbook (${String(items)} items)`,
    );
  } finally {
    rmSync(folder, { recursive: true, force: true });
  }
}

if (Number(values.each) > 0) slips();
if (Number(values.films) > 0) rightRecords();
if (Number(values.issues) > 0) await cost();
