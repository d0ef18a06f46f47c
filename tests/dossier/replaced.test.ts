import { cpSync, existsSync, mkdirSync, readdirSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { dirname, join } from 'node:path';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { auditOf } from '../../src/acts/dossier/audit/index.js';
import { decideInDossier } from '../../src/acts/dossier/decide.js';
import { verifyInDossier } from '../../src/acts/dossier/verify.js';
import { begun, type Desk, ilse, laidOut } from './order.js';

let desk: Desk;
let root: string;
const returned = { delivery: 'return-for-rework', release: null, also: [], reason: '', by: 'Ilse Marrow', second: null } as const;
const documents = (folder: string): readonly string[] =>
  readdirSync(folder, { recursive: true, encoding: 'utf8' }).filter((name) => name.endsWith('.xml'));
const TIDE = 'sn99018200/55901/';
const LANTERN = 'sn99089156/55901/';

/** A drive that holds only what the vendor changed or calls otherwise, and of that what `kept` lets through. */
function namedItems(drive: string, kept: (name: string) => boolean): string {
  const [before, after] = desk.drives;
  const to = join(desk.desk, drive, 'batch_vzx_tolmouth');
  for (const name of documents(after)) {
    const old = join(before, name);
    const now = readFileSync(join(after, name), 'utf8');
    if (!kept(name) || (existsSync(old) && readFileSync(old, 'utf8') === now)) continue;
    mkdirSync(dirname(join(to, name)), { recursive: true });
    writeFileSync(join(to, name), now);
  }
  return to;
}

beforeAll(async () => {
  desk = laidOut();
  const agreement = JSON.parse(readFileSync(desk.agreement, 'utf8')) as Record<string, unknown>;
  writeFileSync(desk.agreement, JSON.stringify({ ...agreement, policies: { redelivery: 'named-items' } }));
  root = await begun(desk);
  await verifyInDossier(root, { batch: [desk.drives[0]], received: '2031-03-03' }, ilse('2031-03-04'));
  await decideInDossier(root, { ...returned, on: '2031-03-05' }, ilse('2031-03-05'));
});
afterAll(() => {
  rmSync(desk.desk, { recursive: true });
});

describe('a document that comes again under another name', () => {
  it('takes the place of the one that was to be called so, or whose page was to move, and this is said', async () => {
    // one issue is left as it was
    const drive = namedItems('named-2', (name) => !name.includes('1879110101'));
    const { result } = await verifyInDossier(root, { batch: [drive], received: '2031-04-01' }, ilse('2031-04-01'));
    expect(result.run.replaced).toEqual([
      { document: `${TIDE}1879102501/1879102501.xml`, by: [`${TIDE}1879102401/1879102401.xml`] },
      { document: `${LANTERN}1874090201/1874090201.xml`, by: [`${LANTERN}1879090201/1879090201.xml`] },
      { document: `${LANTERN}1879091102/1879091102.xml`, by: [`${LANTERN}1879091101/1879091101.xml`] },
    ]);
    expect(result.run.remarks.join('\n')).toContain(
      `"${LANTERN}1874090201/1874090201.xml" of an earlier folder was left out: "${LANTERN}1879090201/1879090201.xml" of a later one takes its place under another name.`,
    );
    // what was not sent again is still counted one too low, and nothing else is wrong
    expect(new Set(result.findings.flatMap(({ places }) => places.flatMap(({ document }) => document ?? [])))).toEqual(
      new Set([`${TIDE}1879110101/1879110101.xml`]),
    );
    expect(result.counts.pagesReturned).toBe(107);
    expect((await auditOf(root, { batch: null, file: null }, ilse('2031-04-01'))).broken).toEqual([]);
  });

  it('stays replaced in the delivery after it', async () => {
    await decideInDossier(root, { ...returned, on: '2031-04-05' }, ilse('2031-04-05'));
    const drive = namedItems('named-3', (name) => name.includes('1879110101'));
    const { result } = await verifyInDossier(root, { batch: [drive], received: '2031-05-01' }, ilse('2031-05-01'));
    expect([result.findings, result.run.replaced?.length, result.verdict.decision]).toEqual([[], 3, 'accept']);
  });

  it('replaces no issue that nobody asked to be called otherwise', async () => {
    const other = join(desk.desk, 'other');
    cpSync(root, other, { recursive: true });
    for (const name of ['delivery-2', 'delivery-3', 'decisions/delivery-2']) rmSync(join(other, name), { recursive: true });
    // an issue of another day comes with the frames of 1879-08-28, which was right
    const drive = namedItems('named-4', (name) => name.includes('1879090201'));
    const right = readFileSync(join(desk.drives[0], `${LANTERN}1879082801/1879082801.xml`), 'utf8');
    mkdirSync(join(drive, `${LANTERN}1879082901`), { recursive: true });
    writeFileSync(join(drive, `${LANTERN}1879082901/1879082901.xml`), right.replaceAll('1879-08-28', '1879-08-29'));
    const { result } = await verifyInDossier(other, { batch: [drive], received: '2031-04-01', delivery: '2' }, ilse('2031-04-01'));
    expect(result.run.replaced?.map(({ document }) => document)).toEqual([`${LANTERN}1874090201/1874090201.xml`]);
    expect(result.findings.some(({ places }) => places.some(({ document }) => document?.includes('1879082901')))).toBe(true);
  });
});
