import { describe, expect, it } from 'vitest';
import { score, verifyPlan } from '../bench/score.js';
import { FAULTS, spoil, spoilSome } from '../forge/faults/index.js';
import { makeFilm } from '../forge/film/make-film.js';
import { randomFrom } from '../forge/film/random.js';
import { planOf } from '../forge/plan.js';
import { recordOf } from '../forge/record/record-of.js';

/** Faults of documents as files: they exist only once the return is written, and are tested through the written return. */
const WRITTEN = new Set(['manifest-disagrees', 'document-unreadable', 'file-missing', 'file-not-listed', 'vocabulary-unknown']);

const film = (seed: number): ReturnType<typeof makeFilm> =>
  makeFilm({ seed, pages: 90, oddPerMille: 450, ...(seed % 4 === 1 ? { reels: 2, titles: 1 } : {}) });

describe('a return that renders the film as ordered', () => {
  it('gives no finding, on 60 invented films', () => {
    for (let seed = 1; seed <= 60; seed++) {
      const result = verifyPlan(recordOf(film(seed)), planOf(film(seed)));
      expect([seed, result.verdict.decision, result.findings.map((finding) => finding.says)]).toEqual([seed, 'accept', []]);
    }
  });
});

describe('a single planted fault', () => {
  it.each(FAULTS.filter((fault) => !fault.codes.some((code) => WRITTEN.has(code))).map((fault) => [fault.kind, fault] as const))(
    '%s is one finding with its code and frames, and nothing else is found',
    (_, fault) => {
      let planted = 0;
      for (let seed = 1; seed <= 120 && planted < 4; seed++) {
        const spoilt = spoil(film(seed), fault, randomFrom(seed + 5), { targetsListed: true });
        if (spoilt === null) continue;
        planted++;
        const result = verifyPlan(spoilt.record, spoilt.plan, spoilt.policies, spoilt.profile);
        const { met, surplus } = score(spoilt, result);
        expect({
          seed,
          wrong: met.filter((each) => !each.code || !each.frames).map((each) => [each.expected, each.finding]),
          surplus: surplus.map((finding) => finding.says),
        }).toEqual({ seed, wrong: [], surplus: [] });
      }
      expect(planted).toBeGreaterThan(0);
    },
  );
});

describe('several faults at once', () => {
  it.each([
    [3, 200, 0.99, 0.98],
    [10, 60, 0.97, 0.95],
  ])('%i on one film: recall and precision over %i films', (count, films, recall, precision) => {
    let expected = 0;
    let found = 0;
    let findings = 0;
    for (let seed = 1; seed <= films; seed++) {
      const spoilt = spoilSome(film(seed), count, randomFrom(seed + 3000));
      if (spoilt === null || spoilt.expected.some((each) => WRITTEN.has(each.code))) continue;
      const result = verifyPlan(spoilt.record, spoilt.plan, spoilt.policies, spoilt.profile);
      const { met } = score(spoilt, result);
      expected += met.length;
      found += met.filter((each) => each.finding !== null).length;
      findings += result.findings.length;
    }
    expect(expected).toBeGreaterThan(40);
    expect(found / expected).toBeGreaterThanOrEqual(recall);
    expect(found / findings).toBeGreaterThanOrEqual(precision);
  });
});
