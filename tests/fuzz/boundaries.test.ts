import { mkdtempSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { quietly } from '../../src/acts/surroundings.js';
import { verification } from '../../src/acts/verify.js';
import { schemaCheck } from '../../src/read/schemas.js';
import { generateBatch } from '../forge/batch.js';
import { writeFiles } from '../support/on-disk.js';

// What the fuzzer found, kept.
describe('exposures in front of all frames of the record', () => {
  it.each([2, 4])('are told without a frame that is not there, in a result that can be read again (film %i)', async (seed) => {
    const { record, files, name } = generateBatch({ seed, pages: 8, profile: 'issue-mets' });
    const reels = record.reels.map((reel) => ({
      ...reel,
      frames: reel.frames.filter(({ kind = 'page', deliver }) => kind === 'page' && deliver !== false),
    }));
    const root = mkdtempSync(join(tmpdir(), 'reeltally-boundary-'));
    writeFiles(join(root, name), files);
    writeFileSync(join(root, 'record.json'), JSON.stringify({ ...record, reels }));
    const result = await verification({ collation: [join(root, 'record.json')], batch: [join(root, name)] }, quietly('2031-03-04'));
    const before = result.findings.filter(
      ({ code, says }) => code === 'frame-scanned-twice' && says.includes('before the first frame of the record'),
    );
    expect(before).toHaveLength(1);
    expect(before[0]).toMatchObject({ at: null, cause: 'unclear' });
    expect(schemaCheck('findings', false)(JSON.parse(JSON.stringify(result)))).toBe(true);
  });
});
