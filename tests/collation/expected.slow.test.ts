import { mkdirSync, mkdtempSync, readdirSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { dirname, join } from 'node:path';
import { afterAll, describe, expect, it } from 'vitest';
import { expectedDelivery } from '../../src/collation/expected/delivery.js';
import { expectedReturn } from '../../src/expect/index.js';
import { resolveAgreement } from '../../src/judge/agreement.js';
import type { Policies } from '../../src/model/agreement.js';
import type { CollationRecord, FrameEntry } from '../../src/model/collation-record.js';
import type { Findings } from '../../src/model/findings.js';
import type { Profile } from '../../src/model/profile.js';
import { normaliseRecord } from '../../src/normalise/record.js';
import { normaliseReturn } from '../../src/normalise/return.js';
import { statedFacts } from '../../src/normalise/return-needs.js';
import { PROFILES } from '../../src/profiles/index.js';
import { readRecord } from '../../src/read/record.js';
import { readReturn } from '../../src/read/return.js';
import { understoodRecord } from '../../src/reading/index.js';
import { expectedFiles } from '../../src/report/expected/index.js';
import { verify } from '../../src/verify.js';
import { makeFilm } from '../forge/film/make-film.js';
import { drawnOrder } from '../forge/ordered.js';
import { recordOf } from '../forge/record/record-of.js';

const root = mkdtempSync(join(tmpdir(), 'expected-'));
afterAll(() => rmSync(root, { recursive: true }));
let count = 0;

/** Writes the return that would be right, and verifies it against the record from which it was made. */
async function verified(record: CollationRecord, profile: Profile, own: Partial<Policies>): Promise<Findings> {
  const { side, problems } = normaliseRecord({ records: [{ name: 'r.json', record }], sheets: [] });
  expect(problems).toEqual([]);
  const agreement = resolveAgreement({ format: 'reeltally/agreement/2', policies: own }, profile.policies);
  const { policies } = agreement;
  count += 1;
  const folder = join(root, String(count), 'expected-return');
  const delivery = expectedDelivery(side, expectedReturn(side, policies, {}), policies, profile.layout);
  for (const { path, text } of expectedFiles(delivery, profile, 'expected-return')) {
    mkdirSync(dirname(join(folder, path)), { recursive: true });
    writeFileSync(join(folder, path), text, { flag: 'wx' });
  }
  const read = await readReturn([folder], { profiles: PROFILES, readText: false, fixity: false });
  if (!read.ok) throw new Error(read.says);
  expect(read.profile.name).toBe(profile.name);
  return verify({
    record: side,
    returned: normaliseReturn(read.written, read.profile),
    stated: statedFacts(read.profile),
    others: [],
    agreement,
    rulings: [],
    earlier: null,
    run: {
      at: '2031-01-01T00:00:00Z',
      received: null,
      batch: 'expected-return',
      delivery: 1,
      profile: profile.name,
      inputs: [],
      remarks: [],
    },
    tool: { name: 'reeltally', version: '0' },
  });
}

const told = (result: Findings): readonly string[] => result.findings.map(({ code, says }) => `${code}: ${says}`);

describe('the return that would be right, verified against its own record', () => {
  const fixtures = new URL('../../fixtures/', import.meta.url).pathname;
  const records = ['agrees', 'differs', 'unreadable'].flatMap((kind) =>
    readdirSync(join(fixtures, kind)).map((name) => join(fixtures, kind, name, 'record')),
  );

  it.each(PROFILES.map((profile) => [profile.name, profile] as const))(
    'has no finding: every fixture, %s',
    { timeout: 600_000 },
    async (_, profile) => {
      const wrong: string[] = [];
      const seen = new Set<string>();
      for (const path of [...records, join(fixtures, 'demonstration', 'record')]) {
        const { record } = understoodRecord(await readRecord([path]));
        // A fixture that differs and its twin that agrees have one record.
        const text = JSON.stringify(record);
        if (seen.has(text)) continue;
        seen.add(text);
        for (const says of told(await verified(record, profile, {}))) wrong.push(`${path.slice(fixtures.length)} ${says}`);
      }
      expect(seen.size).toBeGreaterThan(50);
      expect(wrong).toEqual([]);
    },
  );

  const pages = (from: number, facts: Partial<FrameEntry>): FrameEntry[] =>
    ['1', '2', '3', '4'].map((page, at) => ({ frame: String(from + at), title: 'sn99018200', page, ...facts }));
  const dated = [
    ...pages(1, { date: '1879-03-15', issueNumber: '11' }),
    ...pages(5, { date: '1879-03-XX', issueNumber: '12' }),
    ...pages(9, { date: '1879-03-29?', issueNumber: '13' }),
    ...pages(13, { date: '1879', issueNumber: '14' }),
    ...pages(17, { date: '1879-04-12', datePrinted: '1879-04-31', datePrintedJudged: 'unclear', issueNumber: '15' }),
  ];
  it.each(
    PROFILES.flatMap((profile) =>
      (['film', 'print'] as const).map((carrier) => [profile.name, carrier, profile, { number: '00417', carrier, frames: dated }] as const),
    ),
  )('has no finding: days that nobody knows for certain, %s, carrier %s', { timeout: 600_000 }, async (_, __, profile, reel) => {
    const record: CollationRecord = {
      format: 'reeltally/collation-record/2',
      titles: [{ id: 'sn99018200', name: 'The Lantern' }],
      reels: [reel],
    };
    const result = await verified(record, profile, {});
    expect(told(result)).toEqual([]);
    // every page is there: nothing agrees because nothing was compared
    expect(result.counts).toMatchObject({ pagesReturned: 20, pagesMatched: 20 });
  });

  it.each(PROFILES.map((profile) => [profile.name, profile] as const))(
    'has no finding: forged films under every policy, %s',
    { timeout: 600_000 },
    async (_, profile) => {
      const wrong: string[] = [];
      const seen = new Set<string>();
      for (let seed = 4001; seed <= 4016; seed += 1) {
        const policies = { ...drawnOrder(seed).policies, frameNumbers: seed % 2 === 0 ? ('unbroken' as const) : ('gaps-allowed' as const) };
        for (const [name, value] of Object.entries(policies)) seen.add(`${name} ${value}`);
        const film = makeFilm({ seed, pages: 40, oddPerMille: 450, ...(seed % 4 === 1 ? { reels: 2, titles: 1 } : {}) });
        for (const says of told(await verified(recordOf(film), profile, policies))) wrong.push(`${String(seed)} ${says}`);
      }
      expect(wrong).toEqual([]);
      expect(seen.size).toBe(26);
    },
  );
});
