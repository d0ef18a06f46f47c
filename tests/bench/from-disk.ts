import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { resolveAgreement } from '../../src/judge/agreement.js';
import type { Findings } from '../../src/model/findings.js';
import { normaliseRecord } from '../../src/normalise/record.js';
import { sideOfRecord } from '../../src/normalise/record-side.js';
import { normaliseReturn } from '../../src/normalise/return.js';
import { PROFILES } from '../../src/profiles/index.js';
import { readReturn } from '../../src/read/return.js';
import { readCsv } from '../../src/read/sheet-csv.js';
import { verify } from '../../src/verify.js';
import type { Spoilt } from '../forge/faults/index.js';
import { frameSheet, reelSheet, titleSheet } from '../forge/record/frame-sheet.js';
import { writeReturn } from '../forge/write/index.js';
import { writeFiles } from '../support/on-disk.js';

/** What only the layout with a manifest, digests and reel documents can show, or what the other layout's terms give another name. */
const ONLY_ISSUE_METS = new Set(['manifest-disagrees', 'file-not-listed', 'same-image-twice', 'target-not-listed', 'documents-disagree']);

/** The layout in which a spoilt return can show all its faults: the one asked for, where both can; null where no layout can show them together. */
export function layoutFor(spoilt: Spoilt, wish: 'issue-mets' | 'page-mods'): 'issue-mets' | 'page-mods' | null {
  const bound = spoilt.expected.some((each) => ONLY_ISSUE_METS.has(each.code) || each.kind === 'numbers-jump');
  if (spoilt.profile !== null && bound) return null;
  return spoilt.profile ?? (bound ? 'issue-mets' : wish);
}

/** The whole way: the return as XML on disk in a layout, the record in its canonical form or as a frame sheet. */
export async function verifyFromDisk(spoilt: Spoilt, profile: 'issue-mets' | 'page-mods', sheet: boolean): Promise<Findings> {
  const root = mkdtempSync(join(tmpdir(), 'reeltally-'));
  const folder = join(root, spoilt.plan.batch);
  writeFiles(folder, writeReturn(spoilt.plan, profile));
  const read = await readReturn([folder], { profiles: PROFILES, readText: false });
  rmSync(root, { recursive: true });
  if (!read.ok) throw new Error(read.says);
  const sheets = [
    readCsv(Buffer.from(frameSheet(spoilt.record)), 'frames.csv'),
    readCsv(Buffer.from(titleSheet(spoilt.record)), 'titles.csv'),
    readCsv(Buffer.from(reelSheet(spoilt.record)), 'reels.csv'),
  ];
  return verify({
    record: sheet ? normaliseRecord({ sheets, records: [], inputs: [] }).side : sideOfRecord(spoilt.record),
    returned: normaliseReturn(read.written, read.profile),
    others: [],
    agreement: resolveAgreement({ format: 'reeltally/agreement/1', policies: spoilt.policies }, read.profile.policies),
    rulings: [],
    earlier: null,
    run: { at: '2000-01-01T00:00:00Z', received: null, batch: 'b', delivery: 1, profile, inputs: [], remarks: [] },
    tool: { name: 'reeltally', version: '0' },
  });
}
