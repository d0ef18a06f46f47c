import { createHash } from 'node:crypto';
import { cpSync, readdirSync, readFileSync, rmSync, statSync, writeFileSync } from 'node:fs';
import { dirname, extname, join, relative } from 'node:path';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { auditOf } from '../../src/acts/dossier/audit/index.js';
import { decideInDossier } from '../../src/acts/dossier/decide.js';
import { invoiceInDossier } from '../../src/acts/dossier/invoice.js';
import { openDossier } from '../../src/acts/dossier/open.js';
import { judgedInDossier } from '../../src/acts/dossier/sample-judge.js';
import { verifyInDossier } from '../../src/acts/dossier/verify.js';
import { journalFaults } from '../../src/dossier/journal.js';
import { answered, begun, type Desk, drawnHere, ilse, invoiceOf, laidOut } from './order.js';

const SEED = '463152513642516344215362';
const WHOLE = { batch: 'none', file: null } as const;
const decided = { delivery: 'accept', release: null, also: [], reason: '', by: 'Ilse Marrow', second: null } as const;
const LATER = ilse('2031-05-01');
let desk: Desk;
let root: string;

/** The whole way: sent back, delivered again, looked at, paid. */
async function walked(): Promise<void> {
  desk = laidOut();
  root = await begun(desk);
  await verifyInDossier(root, { batch: [desk.drives[0]], received: '2031-03-03' }, ilse('2031-03-04'));
  await decideInDossier(root, { ...decided, delivery: 'return-for-rework', on: '2031-03-05' }, ilse('2031-03-05'));
  const { result } = await verifyInDossier(root, { batch: [desk.drives[1]], received: '2031-04-01' }, ilse('2031-04-02'));
  const spot = await drawnHere(root, SEED, { by: 'reel', extras: ['record'], plan: {} }, '2031-04-02');
  answered(join(spot, 'worksheet.csv'));
  await judgedInDossier(root, { by: 'Teo Anselm' }, ilse('2031-04-03'));
  writeFileSync(join(desk.desk, 'invoice-17.csv'), invoiceOf(result));
  const { held } = await invoiceInDossier(root, join(desk.desk, 'invoice-17.csv'), ilse('2031-04-03'));
  const release = held.results[0]?.due ?? '';
  await decideInDossier(root, { ...decided, release, on: '2031-04-04' }, ilse('2031-04-04'));
}

const files = (folder: string): readonly string[] =>
  readdirSync(folder, { recursive: true, encoding: 'utf8' })
    .map((name) => name.replaceAll('\\', '/'))
    .filter((name) => statSync(join(folder, name)).isFile())
    .sort();

/** Every file is spoilt with the slow tests; every day, one of each kind. */
const SPOILT = process.env['SPOILT'] ?? 'one of each kind';
const ofEachKind = (names: readonly string[]): readonly string[] => [...new Map(names.map((name) => [extname(name), name])).values()];

const sha256 = (content: string | Buffer): string => createHash('sha256').update(content).digest('hex');

/** The same journal with every digest made again after `change`, as somebody would who knows how. */
function rewritten(lines: readonly string[], change: (line: Record<string, unknown>) => Record<string, unknown>): readonly string[] {
  let last = '';
  return lines.map((text) => {
    const line: Record<string, unknown> = {
      ...change(JSON.parse(text) as Record<string, unknown>),
      before: last === '' ? '' : sha256(last),
    };
    delete line['own'];
    last = JSON.stringify({ ...line, own: sha256(JSON.stringify(line)) });
    return last;
  });
}

beforeAll(walked, 300_000);
afterAll(() => {
  rmSync(desk.desk, { recursive: true, force: true });
});

describe('the audit of a whole dossier', () => {
  it('makes every link again, the comparison too', async () => {
    const { broken, remarks, held } = await auditOf(root, { batch: null, file: null }, LATER);
    expect(broken).toEqual([]);
    expect(remarks.map(({ says }) => says)).toEqual([]);
    const made = files(root).filter((name) => /^(delivery|decisions|invoices)/.test(name));
    // What people brought or filled in cannot be made again.
    const brought = ['delivery-2/spot/draw-1/worksheet.csv', 'invoices/invoice-17/invoice-17.csv'];
    expect([...new Set(held)].sort()).toEqual(made.filter((name) => !brought.includes(name)));
  });

  it('names the file of which one byte was changed', { timeout: 300_000 }, async () => {
    for (const name of SPOILT === 'every file' ? files(root) : ofEachKind(files(root))) {
      const path = join(root, name);
      const before = readFileSync(path);
      const spoilt = Buffer.from(before);
      const at = Math.floor(spoilt.length / 2);
      spoilt.writeUInt8((spoilt.readUInt8(at) ^ 1) & 0xff, at);
      writeFileSync(path, spoilt);
      const { broken } = await auditOf(root, WHOLE, LATER);
      writeFileSync(path, before);
      expect({ name, named: broken.some(({ says }) => says.includes(name)) }).toEqual({ name, named: true });
    }
  });

  it('names a line of the journal of which one byte was changed, wherever it stands', { timeout: 300_000 }, async () => {
    const path = join(root, 'journal.jsonl');
    const before = readFileSync(path);
    const quiet: number[] = [];
    // A byte of each line, and each line break: a prime step meets every part of a line.
    const breaks = [...before.keys()].filter((at) => before[at] === 10);
    for (const at of [...Array.from({ length: Math.ceil(before.length / 211) }, (_, step) => step * 211), ...breaks]) {
      const spoilt = Buffer.from(before);
      spoilt.writeUInt8(spoilt.readUInt8(at) ^ 1, at);
      writeFileSync(path, spoilt);
      const { journal } = await openDossier(root);
      if (journalFaults(journal, 'journal.jsonl', (text) => sha256(text)).length === 0) quiet.push(at);
    }
    writeFileSync(path, before);
    expect(breaks.length).toBeGreaterThan(40);
    expect(quiet).toEqual([]);
  });

  it('names a file that is gone, and one that no line tells of', async () => {
    const page = join(root, 'decisions/delivery-1/decision.txt');
    const text = readFileSync(page);
    rmSync(page);
    const gone = await auditOf(root, WHOLE, LATER);
    writeFileSync(page, text);
    expect(gone.broken.map(({ says }) => says).join('\n')).toContain('decisions/delivery-1/decision.txt is gone');
    const planted = join(root, 'delivery-2/run-9');
    cpSync(join(root, 'delivery-1'), planted, { recursive: true });
    const strange = await auditOf(root, WHOLE, LATER);
    rmSync(planted, { recursive: true });
    expect(strange.broken.map(({ says }) => says).join('\n')).toContain('delivery-2/run-9/findings.json is in no line of journal.jsonl');
  });

  it('tells of a journal whose end was cut off', async () => {
    const path = join(root, 'journal.jsonl');
    const before = readFileSync(path, 'utf8');
    writeFileSync(path, `${before.split('\n').slice(0, -3).join('\n')}\n`);
    const { broken } = await auditOf(root, WHOLE, LATER);
    writeFileSync(path, before);
    expect(broken.map(({ says }) => says).join('\n')).toMatch(/decision\.txt is in no line of journal\.jsonl/);
  });

  it('judges the findings again, whoever made all digests fit', async () => {
    const copy = join(dirname(root), 'judged');
    cpSync(root, copy, { recursive: true });
    const path = join(copy, 'delivery-1/findings.json');
    const result = JSON.parse(readFileSync(path, 'utf8')) as { verdict: { decision: string } };
    result.verdict.decision = 'accept';
    writeFileSync(path, `${JSON.stringify(result, null, 2)}\n`);
    const journal = join(copy, 'journal.jsonl');
    const digest = sha256(readFileSync(path));
    const lines = rewritten(readFileSync(journal, 'utf8').trimEnd().split('\n'), (line) => {
      const from = line['from'] as readonly { readonly name: string; readonly sha256: string }[];
      const own = line['name'] === 'delivery-1/findings.json' ? { sha256: digest } : {};
      return { ...line, ...own, from: from.map((one) => (one.name === 'delivery-1/findings.json' ? { ...one, sha256: digest } : one)) };
    });
    writeFileSync(journal, `${lines.join('\n')}\n`);
    const { broken } = await auditOf(copy, WHOLE, LATER);
    rmSync(copy, { recursive: true });
    const says = broken.map((one) => one.says).join('\n');
    expect(says).toContain('delivery-1/findings.json has the verdict accept; its own findings give return-for-rework');
    expect(says).toContain('The decision cannot be made again: The advice is to accept, and the decision is to return for rework.');
  });

  it('decides nothing while a link does not hold', async () => {
    const path = join(root, 'delivery-2/spot/draw-1/sample.json');
    const before = readFileSync(path);
    writeFileSync(path, readFileSync(path, 'utf8').replace('"wrong": 0', '"wrong": 1'));
    await expect(decideInDossier(root, { ...decided, on: '2031-04-05' }, ilse('2031-04-05'))).rejects.toThrow(
      /delivery-2\/spot\/draw-1\/sample\.json was changed since/,
    );
    writeFileSync(path, before);
    expect(files(root)).not.toContain('lock.json');
  });

  it('speaks of one file and what it rests on alone, where that is asked', async () => {
    const path = join(root, 'delivery-1/summary.txt');
    const before = readFileSync(path);
    writeFileSync(path, 'All is well.\n');
    const about = async (file: string) => (await auditOf(root, { batch: 'none', file }, LATER)).broken.length;
    expect([await about('delivery-1/summary.txt'), await about('decisions/delivery-2/decision.json')]).toEqual([1, 0]);
    writeFileSync(path, before);
  });
});

describe('a digest that was typed from a signed page', () => {
  const asked = async (digest: string) => auditOf(root, { ...WHOLE, digest }, LATER);

  it('is held against the journal, all of it or its beginning, however it is spaced', async () => {
    const [page] = (await auditOf(root, WHOLE, LATER)).pages;
    for (const typed of [page!.sha256, page!.sha256.slice(0, 16), page!.sha256.toUpperCase().replace(/(.{8})/g, '$1 ')]) {
      const { broken, remarks } = await asked(typed);
      expect(broken).toEqual([]);
      expect(remarks.map(({ says }) => says).join(' ')).toContain(`is that of ${page!.page}`);
    }
  });

  it('that no line has is named as what does not hold; so is one of another line', async () => {
    const strange = await asked('0123456789abcdef0123');
    expect(strange.broken.map(({ says }) => says).join(' ')).toContain('No line of journal.jsonl has the digest 0123456789abcdef0123');
    const first = sha256(readFileSync(join(root, 'journal.jsonl'), 'utf8').split('\n')[0]!);
    expect((await asked(first)).broken.map(({ says }) => says).join(' ')).toContain('is that of line 1 of journal.jsonl');
    await expect(asked('0123')).rejects.toThrow(/not a SHA-256 or the beginning of one/);
  });
});

describe('whoever writes the journal anew', () => {
  it('is shown by the digest on the signed page, though every digest in the folder fits', async () => {
    const copy = join(dirname(root), 'copy');
    cpSync(root, copy, { recursive: true });
    const journal = join(copy, 'journal.jsonl');
    const lines = readFileSync(journal, 'utf8').trimEnd().split('\n');
    const printed = (await auditOf(root, WHOLE, LATER)).pages;
    writeFileSync(journal, `${rewritten(lines, (line) => (line['by'] === 'ilse' ? { ...line, by: 'teo' } : line)).join('\n')}\n`);
    const { broken, pages } = await auditOf(copy, WHOLE, LATER);
    // The pages in the folder still show the old digest, and the spot check names who fixed and who drew.
    expect(broken.map(({ about }) => about[0]).sort()).toEqual([
      'decisions/delivery-1/decision.html',
      'decisions/delivery-1/decision.txt',
      'decisions/delivery-2/decision.html',
      'decisions/delivery-2/decision.txt',
      'delivery-2/spot/draw-1/draw.json',
      'delivery-2/spot/draw-1/plan.json',
    ]);
    // With the pages made again too, nothing but the paper tells.
    for (const { page, sha256: digest } of printed) {
      const now = pages.find((one) => one.page === page);
      expect(readFileSync(join(root, page), 'utf8')).toContain(digest);
      expect(now?.sha256).not.toBe(digest);
    }
    rmSync(copy, { recursive: true });
  });
});

describe('the same dossier made again', () => {
  it('has the same bytes but for where the drives lay', { timeout: 300_000 }, async () => {
    const before = new Map(files(root).map((name) => [name, sha256(readFileSync(join(root, name)))]));
    const [firstRoot, firstDesk] = [root, desk];
    await walked();
    const differing = files(root).filter((name) => before.get(name) !== sha256(readFileSync(join(root, name))));
    expect(files(root)).toEqual([...before.keys()]);
    // The path of the drive stands in delivery.json, and so its digest in the journal and on the pages.
    expect(differing.filter((name) => !/delivery\.json$|journal\.jsonl$|decision\.(html|txt)$/.test(name))).toEqual([]);
    rmSync(dirname(firstRoot), { recursive: true });
    expect(relative(firstDesk.desk, firstRoot)).toBe('order');
  });
});
