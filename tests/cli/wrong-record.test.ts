import { writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { expect, it } from 'vitest';
import type { Findings } from '../../src/model/findings.js';
import { generateBatch } from '../forge/batch.js';
import { writeFiles } from '../support/on-disk.js';
import { newFolder, reeltally } from './command.js';

// Two daily papers of the same size and years are not each other because some of their issues share a day.
it('the record of another film is told as that: nothing of its reels came, and nothing is said of single pages', () => {
  const folder = newFolder();
  const pages = 2400;
  const batch = generateBatch({ seed: 14, pages, profile: 'issue-mets' });
  const other = generateBatch({ seed: 16, pages, profile: 'issue-mets' }).record;
  expect(other.reels.length).toBeGreaterThan(1);
  writeFiles(join(folder, batch.name), batch.files);
  writeFileSync(join(folder, 'record.json'), JSON.stringify(other));
  const { stdout } = reeltally([
    ...['verify', '--collation', join(folder, 'record.json'), '--batch', join(folder, batch.name)],
    ...['--format', 'json', '--quiet'],
  ]);
  const { findings, unchecked } = JSON.parse(stdout) as Findings;
  for (const { number } of other.reels)
    expect(unchecked.some(({ what, why }) => what === `reel ${number} of the record` && why === 'nothing of it is in this batch')).toBe(
      true,
    );
  expect(findings.filter(({ frames }) => frames !== null)).toEqual([]);
});
