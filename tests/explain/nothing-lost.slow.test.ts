import { describe, expect, it } from 'vitest';
import { align } from '../../src/align/index.js';
import { compare } from '../../src/compare/index.js';
import { expectedReturn } from '../../src/expect/index.js';
import { explain } from '../../src/explain/index.js';
import { resolveAgreement } from '../../src/judge/agreement.js';
import { spoilSome } from '../forge/faults/index.js';
import { makeFilm } from '../forge/film/make-film.js';
import { randomFrom } from '../forge/film/random.js';
import { sideOfPlan, sideOfRecord } from '../support/sides.js';

describe('the differences of a return', () => {
  it('are each explained by a finding, on films with one to twelve faults: none is lost', () => {
    let seen = 0;
    for (let seed = 1; seed <= 120; seed++) {
      const spoilt = spoilSome(makeFilm({ seed, pages: 70, oddPerMille: 450 }), 1 + (seed % 12), randomFrom(seed));
      if (spoilt === null) continue;
      const record = sideOfRecord(spoilt.record);
      const returned = sideOfPlan(spoilt.plan);
      const { policies } = resolveAgreement(
        { format: 'reeltally/agreement/2', policies: spoilt.policies },
        { pageNumber: 'printed', unnumberedPage: 'omit' },
      );
      const alignments = align(record, returned);
      const expected = expectedReturn(record, policies, {});
      const compared = compare(alignments, record, expected, returned, policies);
      const { drafts: findings } = explain(alignments, compared, record, expected, returned, policies, []);
      const explained = new Set(findings.flatMap((finding) => finding.explains));
      expect(compared.differences.filter((difference) => !explained.has(difference.id))).toEqual([]);
      for (const finding of findings) expect(finding.explains.length).toBeGreaterThan(0);
      seen += compared.differences.length;
    }
    expect(seen).toBeGreaterThan(1000);
  });

  it('pair every frame of the record and of the return exactly once', () => {
    for (let seed = 1; seed <= 60; seed++) {
      const spoilt = spoilSome(
        makeFilm({ seed, pages: 70, oddPerMille: 450, ...(seed % 3 === 0 ? { reels: 2, titles: 1 } : {}) }),
        1 + (seed % 12),
        randomFrom(seed),
      );
      if (spoilt === null) continue;
      const record = sideOfRecord(spoilt.record);
      const returned = sideOfPlan(spoilt.plan);
      const pairs = align(record, returned).flatMap((alignment) =>
        alignment.pairs.map((pair) => ({ ...pair, reel: alignment.recordReel })),
      );
      const mine = pairs.flatMap((pair) => (pair.record === null ? [] : [`${String(pair.reel)}:${String(pair.record)}`]));
      const theirs = pairs.flatMap((pair) =>
        pair.returned === null ? [] : [`${String(pair.returned.reel)}:${String(pair.returned.frame)}`],
      );
      expect(new Set(mine).size).toBe(mine.length);
      expect(mine.length).toBe(record.reels.reduce((sum, reel) => sum + reel.frames.length, 0));
      expect(new Set(theirs).size).toBe(theirs.length);
      expect(theirs.length).toBe(returned.reels.reduce((sum, reel) => sum + reel.frames.length, 0));
    }
  });
});
