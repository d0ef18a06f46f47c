import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, describe, expect, it } from 'vitest';
import { resolveAgreement } from '../../src/judge/agreement.js';
import type { Agreement } from '../../src/model/agreement.js';
import type { CollationRecord } from '../../src/model/collation-record.js';
import type { Findings } from '../../src/model/findings.js';
import { sideOfRecord } from '../../src/normalise/record-side.js';
import { normaliseReturn } from '../../src/normalise/return.js';
import { issueMets } from '../../src/profiles/issue-mets.js';
import { pageMods } from '../../src/profiles/page-mods.js';
import { readReturn } from '../../src/read/return.js';
import { verify } from '../../src/verify.js';
import { writeFiles } from '../support/on-disk.js';
import { demoAgreement, demoRecord, demoReturn } from './demonstration.js';
import { FAULTS, type Spoilt, spoil } from './faults/index.js';
import { makeFilm } from './film/make-film.js';
import { randomFrom } from './film/random.js';
import { type PlanOptions, planOf, type ReturnPlan } from './plan.js';
import { recordOf } from './record/record-of.js';
import { type WriteProfile, writeReturn } from './write/index.js';

const root = mkdtempSync(join(tmpdir(), 'invented-batch-'));
afterAll(() => rmSync(root, { recursive: true }));
let count = 0;

/** The whole way: the return is written to disk, read, understood and verified. */
async function verified(record: CollationRecord, plan: ReturnPlan, profile: WriteProfile, agreement: Agreement): Promise<Findings> {
  count += 1;
  const folder = join(root, String(count), plan.batch);
  writeFiles(folder, writeReturn(plan, profile));
  const read = await readReturn([folder], { profiles: [issueMets, pageMods], readText: false });
  if (!read.ok) throw new Error(read.says);
  return verify({
    record: sideOfRecord(record),
    returned: normaliseReturn(read.written, read.profile),
    others: [],
    agreement: resolveAgreement(agreement, read.profile.policies),
    rulings: [],
    earlier: null,
    run: {
      at: '2031-03-04T10:00:00Z',
      received: null,
      batch: plan.batch,
      delivery: 1,
      profile: read.profile.name,
      inputs: [],
      remarks: [],
    },
    tool: { name: 'reeltally', version: '0' },
  });
}

const usual: Agreement = { format: 'reeltally/agreement/2' };
const gist = (result: Findings): unknown => result.findings.map((finding) => [finding.code, finding.at, finding.says]);

describe('a return that agrees, read from disk', () => {
  it.each(Array.from({ length: 16 }, (_, i) => i + 1))('seed %i has no finding in either layout', async (seed) => {
    const film = makeFilm({ seed, pages: 40 });
    for (const profile of ['issue-mets', 'page-mods'] as const) {
      const result = await verified(recordOf(film), planOf(film), profile, usual);
      expect(gist(result)).toEqual([]);
      expect(result.verdict.decision).toBe('accept');
    }
  });

  it('is the demonstration without its mistakes', async () => {
    expect(gist(await verified(demoRecord(), demoReturn('agreeing').plan, 'issue-mets', demoAgreement()))).toEqual([]);
  });
});

describe('a return with mistakes, read from disk', () => {
  it('is the demonstration with each of its mistakes found, and nothing else', async () => {
    const { plan, expected } = demoReturn('faulty');
    const result = await verified(demoRecord(), plan, 'issue-mets', demoAgreement());
    expect(result.findings.map((finding) => [finding.code, finding.at ?? finding.date]).sort()).toEqual(
      expected.map((each) => [each.code, each.at ?? each.date]).sort(),
    );
    expect(result.verdict.decision).toBe('return-for-rework');
  });

  const films = Array.from({ length: 40 }, (_, i) =>
    makeFilm({ seed: i + 1, pages: 40, oddPerMille: 450, ...(i % 4 === 0 ? { reels: 2, titles: 1 } : {}) }),
  );
  const options: PlanOptions = { targetsListed: true };
  const inDocuments = FAULTS.filter((fault) =>
    fault.codes.some((code) =>
      [
        'manifest-disagrees',
        'documents-disagree',
        'document-unreadable',
        'file-missing',
        'file-not-listed',
        'vocabulary-unknown',
        'count-disagrees',
        'reel-facts-differ',
        'frame-number-gap',
      ].includes(code),
    ),
  );
  it.each(inDocuments.map((fault) => [fault.kind, fault] as const))('%s is found', async (_, fault) => {
    const spoilt: Spoilt | undefined = films.flatMap((film) => spoil(film, fault, randomFrom(film.seed), options) ?? [])[0];
    if (spoilt === undefined) throw new Error('no film of forty has a place for it');
    const result = await verified(spoilt.record, spoilt.plan, spoilt.profile ?? 'issue-mets', { ...usual, policies: spoilt.policies });
    const [expected] = spoilt.expected;
    expect(result.findings.map((finding) => finding.code)).toContain(expected?.code);
  });
});
