import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, describe, expect, it } from 'vitest';
import type { CollationRecord } from '../../src/model/collation-record.js';
import { normaliseRecord } from '../../src/normalise/record.js';
import { sideOfRecord as normalisedSide } from '../../src/normalise/record-side.js';
import { readRecord } from '../../src/read/record.js';
import { understoodRecord } from '../../src/reading/index.js';
import { sideOfRecord } from '../support/sides.js';
import { demoRecord } from './demonstration.js';
import { makeFilm } from './film/make-film.js';
import { frameSheet, reelSheet, titleSheet } from './record/frame-sheet.js';
import { recordOf } from './record/record-of.js';

const root = mkdtempSync(join(tmpdir(), 'invented-record-'));
afterAll(() => rmSync(root, { recursive: true }));

async function fromSheets(record: CollationRecord, name: string): Promise<ReturnType<typeof normaliseRecord>> {
  const files: [string, string][] = [
    [`${name}-frames.csv`, frameSheet(record)],
    [`${name}-titles.csv`, titleSheet(record)],
    [`${name}-reels.csv`, reelSheet(record)],
  ];
  for (const [file, text] of files) writeFileSync(join(root, file), text);
  return understoodRecord(await readRecord(files.map(([file]) => join(root, file))));
}

describe('the record of the invented film', () => {
  it('means the same to the program as to a reader written apart from it, for 100 seeds', () => {
    for (let seed = 1; seed <= 100; seed += 1) {
      const record = recordOf(makeFilm({ seed, pages: 40 }));
      expect(normalisedSide(record)).toEqual(sideOfRecord(record));
    }
  });

  it('comes back from its sheets as it was, for 20 seeds and the demonstration', async () => {
    const records = Array.from({ length: 20 }, (_, i) => recordOf(makeFilm({ seed: i + 1, pages: 40 })));
    for (const [i, record] of [demoRecord(), ...records].entries()) {
      const read = await fromSheets(record, `r${i}`);
      expect(read.problems).toEqual([]);
      expect(read.record).toEqual(record);
    }
  });
});
