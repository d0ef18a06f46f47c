import { existsSync, mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { resolveAgreement } from '../../src/judge/agreement.js';
import type { Side } from '../../src/model/film.js';
import type { Findings } from '../../src/model/findings.js';
import type { Profile } from '../../src/model/profile.js';
import type { WrittenReturn } from '../../src/model/written-return.js';
import { sideOfRecord } from '../../src/normalise/record-side.js';
import { normaliseReturn } from '../../src/normalise/return.js';
import { statedFacts } from '../../src/normalise/return-needs.js';
import { PROFILES } from '../../src/profiles/index.js';
import { readReturn } from '../../src/read/return.js';
import { verify } from '../../src/verify.js';
import type { Case } from '../forge/algebra/case.js';
import { folderName, writeReturn } from '../forge/write/index.js';
import { writeFiles } from '../support/on-disk.js';

/** Where the files of a case lie while they are read: in memory, where the system has a folder for that. */
const ROOM = existsSync('/dev/shm') ? '/dev/shm' : tmpdir();

/** A case as it was read, and what was found in it. */
export interface Verified {
  readonly record: Side;
  readonly returned: Side;
  readonly findings: Findings;
  /** The return as it was written, and by which profile it was read. */
  readonly written: WrittenReturn;
  readonly profile: Profile;
  /** The verdict on another return in place of this one. */
  readonly again: (returned: Side) => Findings;
}

/** Verifies a case all the way: the plan as XML, read again, against the record; nothing at all is let through. */
export async function verifyCase(one: Pick<Case, 'scenery' | 'record' | 'plan'>): Promise<Verified> {
  const { plan } = one;
  const { layout, style, policies } = one.scenery;
  const agreement = { format: 'reeltally/agreement/2', policies } as const;
  const root = mkdtempSync(join(ROOM, 'reeltally-'));
  const folder = join(root, folderName(plan, style));
  try {
    writeFiles(folder, writeReturn(plan, layout, style));
    const read = await readReturn([folder], { profiles: PROFILES, readText: false });
    if (!read.ok) throw new Error(read.says);
    const [record, returned] = [sideOfRecord(one.record), normaliseReturn(read.written, read.profile)];
    const again = (instead: Side): Findings =>
      verify({
        record,
        returned: instead,
        stated: statedFacts(read.profile),
        others: [],
        agreement: { ...resolveAgreement(agreement, read.profile.policies), tolerances: { majorShare: 0, minorShare: 0 } },
        rulings: [],
        earlier: null,
        run: { at: '2000-01-01T00:00:00Z', received: null, batch: plan.batch, delivery: 1, profile: layout, inputs: [], remarks: [] },
        tool: { name: 'reeltally', version: '0' },
      });
    return { record, returned, findings: again(returned), written: read.written, profile: read.profile, again };
  } finally {
    rmSync(root, { recursive: true });
  }
}
