import { describe, expect, it } from 'vitest';
import { align } from '../../src/align/index.js';
import { makeFilm } from '../forge/film/make-film.js';
import { planOf, type ReturnPlan } from '../forge/plan.js';
import { recordOf } from '../forge/record/record-of.js';
import { sideOfPlan, sideOfRecord } from '../support/sides.js';

const films = Array.from({ length: 12 }, (_, seed) => makeFilm({ seed: seed + 1, pages: 60, reels: 2, titles: 1 }));

/** The issue of the nth page of a reel, the first page being 0 and the last -1. */
const issueAt = (plan: ReturnPlan, reel: number, n: number): number =>
  plan.reels[reel]?.captures.filter(({ issue }) => issue !== null).at(n)?.issue ?? -1;

/** The first issue of the second reel under the number of the first one, and an issue that no record knows under a number of its own. */
function withStrangers(plan: ReturnPlan): ReturnPlan {
  const [misplaced, unknown] = [issueAt(plan, 1, 0), issueAt(plan, 1, -1)];
  const captures = plan.reels.flatMap((reel) => reel.captures);
  for (const capture of captures) {
    if (capture.issue === misplaced) capture.reel = plan.reels[0]?.number ?? '';
    if (capture.issue === unknown) capture.reel = '99999';
  }
  const issue = plan.issues[unknown];
  if (issue !== undefined) Object.assign(issue, { title: 'sn00000000', date: '1700-01-01', issueNumber: null });
  return plan;
}

describe('a reel that the record does not have, beside documents under the number of another reel', () => {
  it('ends, and leaves every frame of the return in one place', () => {
    for (const film of films) {
      const returned = sideOfPlan(withStrangers(structuredClone(planOf(film))));
      const placed = align(sideOfRecord(recordOf(film)), returned).flatMap(({ pairs }) =>
        pairs.flatMap((pair) => (pair.returned === null ? [] : `${pair.returned.reel} ${pair.returned.frame}`)),
      );
      const all = returned.reels.flatMap(({ frames }, reel) => frames.map((_, frame) => `${reel} ${frame}`));
      expect(placed.toSorted()).toEqual(all.toSorted());
    }
  });
});
