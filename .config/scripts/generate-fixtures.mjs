// Writes the fixtures: for every kind of fault a small invented film with its record and a spoilt return under `differs`, and the same film
// rendered as ordered under `agrees`. Beside them stand the situations that were written by hand, each with a twin of the same name.
// What must be found stands in expected.json. It writes, and removes, only in the folders that it names in fixtures/made-by-generate.txt.
// With --check it compares and writes nothing.
import { existsSync, mkdirSync, readdirSync, readFileSync, rmSync, statSync, writeFileSync } from 'node:fs';
import { dirname, join } from 'node:path';
import { fileURLToPath, pathToFileURL } from 'node:url';
import { scenarioFixtures } from './scenario-fixtures.mjs';

const root = join(dirname(fileURLToPath(import.meta.url)), '..', '..');
const built = (path) => import(pathToFileURL(join(root, 'dist', path)).href);
const { FAULTS, faultOf, spoilAll } = await built('demo/faults/index.js');
const { makeFilm } = await built('demo/make-film.js');
const { planOf } = await built('demo/plan.js');
const { randomFrom } = await built('demo/random.js');
const { recordOf } = await built('demo/record-of.js');
const { frameSheet, reelSheet, titleSheet } = await built('demo/frame-sheet.js');
const { writeReturn } = await built('demo/write/index.js');

/** What only the layout with a manifest and digests can show. */
const ONLY_ISSUE_METS = new Set(['manifest-disagrees', 'file-not-listed', 'same-image-twice', 'target-not-listed', 'documents-disagree']);
const SEEDS = 400;

/** Mistakes that must be seen together: one frame lost and one too many, so that the counts agree. */
const TOGETHER = [{ kind: 'compensating-errors', faults: ['page-skipped', 'page-twice-delivered'] }];

/** The smallest of the invented films that has a place for the faults; the same films serve as many faults as they can. */
function smallest(name, faults, fits) {
  for (const pages of [10, 24, 48, 90]) {
    for (let seed = 1; seed <= SEEDS; seed++) {
      const film = makeFilm({ seed, pages, oddPerMille: 450, ...(seed % 4 === 1 ? { reels: 2, titles: 1 } : {}) });
      const spoilt = spoilAll(film, faults, randomFrom(seed), { targetsListed: true });
      if (spoilt !== null && fits(spoilt)) return spoilt;
    }
  }
  throw new RangeError(`No invented film has a place for ${name}.`);
}

function recordFiles(record) {
  return [
    { path: 'record/frames.csv', text: frameSheet(record) },
    { path: 'record/titles.csv', text: titleSheet(record) },
    { path: 'record/reels.csv', text: reelSheet(record) },
  ];
}

const json = (value) => `${JSON.stringify(value, null, 1)}\n`;
const files = new Map();
const add = (folder, list) => {
  for (const { path, text } of list) files.set(join(folder, path), text);
};
const twins = new Set();
const cases = [
  ...FAULTS.map((fault) => ({ kind: fault.kind, faults: [fault], fits: () => true })),
  ...TOGETHER.map(({ kind, faults }) => ({ kind, faults: faults.map(faultOf), fits: ({ film, expected }) => film.reels.length === 1 && expected.some(({ count }) => count > 4) })),
];
for (const [at, { kind, faults, fits }] of cases.entries()) {
  const spoilt = smallest(kind, faults, fits);
  const codes = faults.flatMap((fault) => fault.codes);
  const profile = spoilt.profile ?? (at % 4 === 3 && !codes.some((code) => ONLY_ISSUE_METS.has(code)) && kind !== 'numbers-jump' ? 'page-mods' : 'issue-mets');
  const agreement = json({ format: 'reeltally/agreement/1', policies: spoilt.policies });
  const place = (plan) => [...writeReturn(plan, profile)].map(({ path, text }) => ({ path: `return/${path}`, text }));
  const name = `${codes.join('+')}--${kind}`;
  add(join('fixtures', 'differs', name), [
    ...recordFiles(spoilt.record),
    { path: 'agreement.json', text: agreement },
    { path: 'expected.json', text: json(spoilt.expected) },
    ...place(spoilt.plan),
  ]);
  const twin = JSON.stringify([spoilt.film, profile, spoilt.policies]);
  // a vendor who renders every printed date has not rendered this film as ordered
  if (twins.has(twin) || spoilt.policies.printedDate === 'never') continue;
  twins.add(twin);
  add(join('fixtures', 'agrees', `none--as-${kind}-but-as-ordered`), [
    ...recordFiles(recordOf(spoilt.film)),
    { path: 'agreement.json', text: agreement },
    ...place(planOf(spoilt.film, { targetsListed: true, ...(spoilt.policies.reelNumber === 'source' ? { reelNumber: 'source' } : {}) })),
  ]);
}

// What can be wrong with a single document; the rest of the return is as ordered and still verified.
const DAMAGES = [
  ['cut-off-in-the-middle', (text) => text.slice(0, Math.floor(text.length / 2))],
  ['empty', () => ''],
  ['a-web-page-under-an-xml-name', () => '<!DOCTYPE html>\n<html><body>Not found<br></body></html>\n'],
  ['a-document-type-of-its-own', (text) => text.replace(/<(mets|[\w]+:mets)/, '<!DOCTYPE mets [<!ENTITY a "b">]>\n<$1')],
  ['not-the-encoding-it-declares', (text) => text.replace('encoding="UTF-8"', 'encoding="UTF-16"')],
  ['a-tag-crossed', (text) => text.replace('</fileSec>', '</fileSec></nothing>').replace(/<\/(\w+:)fileSec>/, '</$1fileSec></nothing>')],
];
const whole = makeFilm({ seed: 2, pages: 10, oddPerMille: 0 });
for (const [name, damage] of DAMAGES) {
  const documents = [...writeReturn(planOf(whole), 'issue-mets')];
  const victim = documents.find(({ path }) => /\/\d{10}\/\d{10}\.xml$/.test(path));
  add(join('fixtures', 'unreadable', `document-unreadable--${name}`), [
    ...recordFiles(recordOf(whole)),
    ...documents.map(({ path, text }) => ({ path: `return/${path}`, text: path === victim.path ? damage(text) : text })),
  ]);
}

for (const [path, text] of await scenarioFixtures(built)) {
  if (files.has(path)) throw new RangeError(`Two fixtures have the name of ${path}.`);
  files.set(path, text);
}

function present(folder) {
  if (!existsSync(folder)) return [];
  return readdirSync(folder).flatMap((name) => {
    const path = join(folder, name);
    return statSync(path).isDirectory() ? present(path) : [path];
  });
}

// The folders that this command made stand in a list; what lies beside them was written by hand, and is neither touched nor complained about.
const LIST = join('fixtures', 'made-by-generate.txt');
const folderOf = (path) => path.split(/[\\/]/).slice(1, 3).join('/');
const listed = existsSync(join(root, LIST)) ? readFileSync(join(root, LIST), 'utf8').split('\n').filter((line) => line !== '') : [];
const folders = [...new Set([...files.keys()].map(folderOf))].sort();
const byHand = folders.filter((folder) => !listed.includes(folder) && present(join(root, 'fixtures', folder)).length > 0);
if (byHand.length > 0) throw new RangeError(`fixtures/${byHand[0]} was written by hand; this command would write over it. Rename one of the two.`);
files.set(LIST, folders.map((folder) => `${folder}\n`).join(''));

const there = listed.flatMap((folder) => present(join(root, 'fixtures', folder))).map((path) => path.slice(root.length + 1));
const stale = [...there.filter((path) => !files.has(path)), ...[...files].filter(([path, text]) => !existsSync(join(root, path)) || !Buffer.from(text).equals(readFileSync(join(root, path)))).map(([path]) => path)];
if (process.argv.includes('--check')) {
  if (stale.length > 0) {
    process.stderr.write(`The fixtures are out of date (${stale.length} files, first ${stale[0]}): run \`npm run generate\`.\n`);
    process.exitCode = 1;
  }
} else {
  for (const path of there) if (!files.has(path)) rmSync(join(root, path));
  for (const folder of listed) if (!folders.includes(folder)) rmSync(join(root, 'fixtures', folder), { recursive: true, force: true });
  for (const [path, text] of files) {
    mkdirSync(dirname(join(root, path)), { recursive: true });
    writeFileSync(join(root, path), text);
  }
}
