// Writes the fixtures: for every kind of fault a small invented film with its record and a spoilt return under `differs`, and the same film
// rendered as ordered under `agrees`. Beside them stand the situations told frame by frame in ../scenarios, each with a twin of the same name.
// What must be found stands in expected.json. It writes, and removes, only in the folders that it names in fixtures/made-by-generate.txt; what lies
// beside them was written by hand. With --check it compares and writes nothing.
import { join } from 'node:path';
import type { CollationRecord } from '../../../src/model/collation-record.js';
import { FAULTS, type Fault, faultOf, type Spoilt, spoilAll } from '../faults/index.js';
import { makeFilm } from '../film/make-film.js';
import { randomFrom } from '../film/random.js';
import { planOf, type ReturnPlan } from '../plan.js';
import { frameSheet, reelSheet, titleSheet } from '../record/frame-sheet.js';
import { recordOf } from '../record/record-of.js';
import { type WriteProfile, writeReturn } from '../write/index.js';
import { filesIn, json, keep, linesOf } from './made.js';
import { scenarioFixtures } from './scenario-fixtures.js';

/** What only the layout with a manifest and digests can show. */
const ONLY_ISSUE_METS = new Set(['manifest-disagrees', 'file-not-listed', 'same-image-twice', 'target-not-listed', 'documents-disagree']);
const SEEDS = 400;

/** Mistakes that must be seen together: one frame lost and one too many, so that the counts agree. */
const TOGETHER = [{ kind: 'compensating-errors', faults: ['page-skipped', 'page-twice-delivered'] }];

interface PlantedCase {
  readonly kind: string;
  readonly faults: readonly Fault[];
  readonly fits: (spoilt: Spoilt) => boolean;
}

/** The smallest of the invented films that has a place for the faults; the same films serve as many faults as they can. */
function smallest({ kind, faults, fits }: PlantedCase): Spoilt {
  for (const pages of [10, 24, 48, 90]) {
    for (let seed = 1; seed <= SEEDS; seed++) {
      const film = makeFilm({ seed, pages, oddPerMille: 450, ...(seed % 4 === 1 ? { reels: 2, titles: 1 } : {}) });
      const spoilt = spoilAll(film, faults, randomFrom(seed), { targetsListed: true });
      if (spoilt !== null && fits(spoilt)) return spoilt;
    }
  }
  throw new RangeError(`No invented film has a place for ${kind}.`);
}

interface PlacedFile {
  readonly path: string;
  readonly text: string | Buffer;
}

function recordFiles(record: CollationRecord): PlacedFile[] {
  return [
    { path: 'record/frames.csv', text: frameSheet(record) },
    { path: 'record/titles.csv', text: titleSheet(record) },
    { path: 'record/reels.csv', text: reelSheet(record) },
  ];
}

function returnFiles(plan: ReturnPlan, profile: WriteProfile): PlacedFile[] {
  return [...writeReturn(plan, profile)].map(({ path, text }) => ({ path: `return/${path}`, text }));
}

const made = new Map<string, string | Buffer>();
function add(folder: string, files: readonly PlacedFile[]): void {
  for (const { path, text } of files) {
    const whole = join('fixtures', folder, path);
    if (made.has(whole)) throw new RangeError(`Two fixtures have the name of ${whole}.`);
    made.set(whole, text);
  }
}

const twins = new Set<string>();
const cases: readonly PlantedCase[] = [
  ...FAULTS.map((fault) => ({ kind: fault.kind, faults: [fault], fits: () => true })),
  ...TOGETHER.map(({ kind, faults }) => ({
    kind,
    faults: faults.map(faultOf),
    fits: ({ film, expected }: Spoilt) => film.reels.length === 1 && expected.some(({ count }) => (count ?? 0) > 4),
  })),
];
for (const [at, planted] of cases.entries()) {
  const { kind, faults } = planted;
  const spoilt = smallest(planted);
  const codes = faults.flatMap((fault) => fault.codes);
  const either = !codes.some((code) => ONLY_ISSUE_METS.has(code)) && kind !== 'numbers-jump';
  const profile = spoilt.profile ?? (at % 4 === 3 && either ? 'page-mods' : 'issue-mets');
  const agreement = { path: 'agreement.json', text: json({ format: 'reeltally/agreement/2', policies: spoilt.policies }) };
  add(join('differs', `${codes.join('+')}--${kind}`), [
    ...recordFiles(spoilt.record),
    agreement,
    { path: 'expected.json', text: json(spoilt.expected) },
    ...returnFiles(spoilt.plan, profile),
  ]);
  const twin = JSON.stringify([spoilt.film, profile, spoilt.policies]);
  // a vendor who renders every printed date has not rendered this film as ordered
  if (twins.has(twin) || spoilt.policies.printedDate === 'never') continue;
  twins.add(twin);
  const asOrdered = planOf(spoilt.film, {
    targetsListed: true,
    ...(spoilt.policies.reelNumber === 'source' ? { reelNumber: 'source' as const } : {}),
  });
  add(join('agrees', `none--as-${kind}-but-as-ordered`), [
    ...recordFiles(recordOf(spoilt.film)),
    agreement,
    ...returnFiles(asOrdered, profile),
  ]);
}

/** What can be wrong with a single document; the rest of the return is as ordered and still verified. */
const DAMAGES: readonly (readonly [name: string, damage: (text: string) => string])[] = [
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
  add(join('unreadable', `document-unreadable--${name}`), [
    ...recordFiles(recordOf(whole)),
    ...documents.map(({ path, text }) => ({ path: `return/${path}`, text: path === victim?.path ? damage(text) : text })),
  ]);
}

for (const { folder, files } of await scenarioFixtures()) add(folder, files);

const LIST = join('fixtures', 'made-by-generate.txt');
const listed = linesOf(LIST);
const folders = [...new Set([...made.keys()].map((path) => path.split(/[\\/]/).slice(1, 3).join('/')))].sort();
const byHand = folders.find((folder) => !listed.includes(folder) && filesIn(join('fixtures', folder)).length > 0);
if (byHand !== undefined)
  throw new RangeError(`fixtures/${byHand} was written by hand; this command would write over it. Rename one of the two.`);
made.set(LIST, folders.map((folder) => `${folder}\n`).join(''));
keep(
  'The fixtures are',
  made,
  [...new Set([...listed, ...folders])].map((folder) => join('fixtures', folder)),
);
