import { existsSync, readdirSync } from 'node:fs';
import { join } from 'node:path';
import { resolveAgreement } from '../../src/judge/agreement.js';
import type { ResolvedAgreement } from '../../src/model/agreement.js';
import type { Side } from '../../src/model/film.js';
import type { Findings } from '../../src/model/findings.js';
import type { Profile } from '../../src/model/profile.js';
import type { WrittenReturn } from '../../src/model/written-return.js';
import { normaliseReturn } from '../../src/normalise/return.js';
import { statedFacts } from '../../src/normalise/return-needs.js';
import { PROFILES } from '../../src/profiles/index.js';
import { readJsonFile } from '../../src/read/json.js';
import { readRecord } from '../../src/read/record.js';
import { readReturn } from '../../src/read/return.js';
import { understoodRecord } from '../../src/reading/index.js';
import { verify } from '../../src/verify.js';

/** A case in memory: both sides as read from a fixture, and the agreement. */
export interface Case {
  readonly name: string;
  readonly record: Side;
  readonly returned: Side;
  readonly written: WrittenReturn;
  readonly profile: Profile;
  readonly agreement: ResolvedAgreement;
}

const root = new URL('../../fixtures/', import.meta.url).pathname;

/** Names of the fixtures of a kind. */
export const namesOf = (kind: 'agrees' | 'differs'): string[] => readdirSync(join(root, kind)).sort();

/** Names of the fixtures whose return is right. */
export const rightOnes = namesOf('agrees');

/** Both sides of a fixture; tolerances are 0, so that nothing at all is let through. */
export async function caseOf(name: string, kind: 'agrees' | 'differs' = 'agrees'): Promise<Case> {
  const folder = join(root, kind, name);
  const { side } = understoodRecord(await readRecord([join(folder, 'record')]));
  const batch = readdirSync(join(folder, 'return'));
  const read = await readReturn([batch.length === 1 ? join(folder, 'return', batch[0] ?? '') : join(folder, 'return')], {
    profiles: PROFILES,
    readText: false,
  });
  if (!read.ok) throw new Error(read.says);
  const path = join(folder, 'agreement.json');
  const agreement = existsSync(path) ? (await readJsonFile(path, 'agreement')).value : null;
  const resolved = resolveAgreement(agreement, read.profile.policies);
  return {
    name,
    record: side,
    returned: normaliseReturn(read.written, read.profile),
    written: read.written,
    profile: read.profile,
    agreement: { ...resolved, tolerances: { majorShare: 0, minorShare: 0 } },
  };
}

/** The verdict on a case, perhaps with another return than its own. */
export function judged({ record, returned, profile, agreement }: Case, instead: Side = returned): Findings {
  return verify({
    record,
    returned: instead,
    stated: statedFacts(profile),
    others: [],
    agreement,
    rulings: [],
    earlier: null,
    run: { at: '2000-01-01T00:00:00Z', received: null, batch: 'batch', delivery: 1, profile: 'law', inputs: [], remarks: [] },
    tool: { name: 'reeltally', version: '0' },
  });
}
