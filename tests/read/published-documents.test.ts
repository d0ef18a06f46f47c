import { existsSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import { describe, expect, it } from 'vitest';
import { PROFILES } from '../../src/profiles/index.js';
import { readReturn } from '../../src/read/return.js';
import { sideOf } from './reading.js';

/**
 * Published documents are no part of this repository. Where a folder holds them, they are read: the newspaper issue of 31 January 1905 that the METS
 * Editorial Board keeps among its examples, a published batch of 1878 with its reel document, and two libraries' METS of 1814 and 1824 that carry no
 * frame numbers.
 */
const beside = fileURLToPath(new URL('../../../shared/real', import.meta.url));
const folder = process.env['PUBLISHED_DOCUMENTS'] ?? (existsSync(beside) ? beside : '');

describe('published documents', () => {
  it('are looked for where PUBLISHED_DOCUMENTS says', () => {
    expect(folder === '' || existsSync(folder)).toBe(true);
  });

  if (existsSync(`${folder}/loc-issue-mets`)) {
    it('of 1905 give every fact that stands in them', async () => {
      const side = await sideOf(`${folder}/loc-issue-mets`);
      expect(side.problems).toEqual([]);
      expect(side.issues).toMatchObject([
        {
          title: 'sn84026749',
          date: { day: '1905-01-31' },
          datePrinted: null,
          edition: 1,
          editionLabel: 'Evening',
          volume: null,
          issueNumber: '3887',
          present: true,
        },
      ]);
      const [reel] = side.reels;
      expect(reel!.number).toBe('100492039');
      expect(reel!.frames.map((frame) => frame.frame?.exposure)).toEqual(Array.from({ length: 12 }, (_, at) => 683 + at));
      expect(reel!.frames.map((frame) => frame.page)).toEqual([null, ...Array.from({ length: 11 }, (_, at) => String(at + 2))]);
      expect(reel!.frames.map((frame) => frame.order)).toEqual(Array.from({ length: 12 }, (_, at) => at + 1));
      expect(reel!.frames[0]!.files[0]).toMatchObject({
        use: 'master',
        href: '0683.tif',
        digest: 'sha1:7e6bd851a298109878d137868157f4e3325d2f32',
        width: 6547,
        height: 8427,
      });
      for (const { copies, frame } of reel!.frames)
        expect(copies.find((copy) => copy.fact === 'frame')?.value).toBe(String(frame?.exposure));
    });
  }

  if (existsSync(`${folder}/german-weekly`)) {
    it("of 1878 give the reel with the targets on it, and no frame for the scanner's own", async () => {
      const side = await sideOf(`${folder}/german-weekly`);
      expect(side.problems).toEqual([]);
      expect(side.issues).toMatchObject([{ title: 'sn83045350', date: { day: '1878-01-03' }, edition: 1, present: true }]);
      expect(side.reels).toHaveLength(1);
      const [reel] = side.reels;
      expect(reel).toMatchObject({ text: '00295876384', targetsListed: true, facts: { position: '1a', reductionRatio: '12x' } });
      expect(reel!.frames.map((frame) => `${frame.kind} ${frame.frame?.text ?? ''}`)).toEqual([
        'target 1',
        'target 2',
        ...Array.from({ length: 8 }, (_, at) => `page ${String(at + 11)}`),
        'target 459',
      ]);
    });
  }

  for (const name of ['bl-1824', 'bnf-1814'].filter((candidate) => existsSync(`${folder}/${candidate}`))) {
    it(`of another layout (${name}) are told apart`, async () => {
      const read = await readReturn([`${folder}/${name}`], { profiles: PROFILES, readText: false });
      expect(read.ok ? '' : read.says).toMatch(/layout of the batch ".*" is not recognised.*<mets TYPE="Newspaper">/);
    });
  }
});
