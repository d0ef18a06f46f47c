import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, describe, expect, it } from 'vitest';
import { verifyClean } from '../support/clean-on-disk.js';

const root = mkdtempSync(join(tmpdir(), 'clean-return-'));
afterAll(() => rmSync(root, { recursive: true }));

// `npm run bench:clean` does the same for a thousand films.
describe('a return as ordered, written in one of the ways in which returns are sent', () => {
  it.each(Array.from({ length: 24 }, (_, i) => i + 9001))('seed %i has no finding', async (seed) => {
    const { result, files } = await verifyClean(seed, root);
    expect(files).toBeGreaterThan(5);
    expect(result.findings.map((finding) => finding.says)).toEqual([]);
    expect(result.counts.pagesMatched).toBeGreaterThan(20);
  });
});
