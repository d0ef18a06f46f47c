import { describe, expect, it } from 'vitest';
import { filmOf } from './scenarios/film-text.js';
import { batchBefore, halvesOf, SCENARIOS } from './scenarios/index.js';
import { paper } from './scenarios/scenario.js';

const TITLES = [paper('sn99071101', 'The Marlbeck Examiner', ['thu'])];

describe('a film written in lines', () => {
  it('has its frames, places, repeats and wanting pages', () => {
    const { film, keys } = filmOf(
      TITLES,
      `
      a = 1903-02-05 Thu v7 n331 printed 1903-02-06 e2 "Extra"
      reel 4410 2B
      1     target START
      2     a A1
      3A-4A a B1(9) xA1 +S1 !torn
      5     a A2 [A3?]
      `,
    );
    expect(keys.get('a')).toBe(0);
    expect(film.issues[0]).toMatchObject({ datePrinted: '1903-02-06', edition: 2, editionLabel: 'Extra', volume: '7', issueNumber: '331' });
    expect(film.issues[0]!.wanting).toEqual([{ page: 'A3', section: 'A', order: 3, published: 'unknown' }]);
    const shots = film.reels[0]!.shots;
    expect(shots.map(({ frame, page, order, duplicateOf }) => [frame, page, order, duplicateOf])).toEqual([
      ['1', null, null, null],
      ['2', 'A1', 1, null],
      ['3A', 'B1', 4, null],
      ['3B', 'A1', null, '2'],
      ['4A', 'S1', 5, null],
      ['5', 'A2', 2, null],
    ]);
    expect(shots[2]).toMatchObject({ pagePrinted: '9', section: 'B', condition: ['torn'] });
  });

  it('is refused where a weekday, a count of frames or a letter is wrong', () => {
    const reel = 'reel 4410\n2-5 a 1-4';
    expect(() => filmOf(TITLES, `a = 1903-02-05 Fri\n${reel}`)).toThrow('1903-02-05 is no Fri.');
    expect(() => filmOf(TITLES, 'a = 1903-02-05 Thu\nreel 4410\n2-5 a 1-3')).toThrow('Frames 2-5 are 4, and 3 pages are named.');
    expect(() => filmOf(TITLES, `b = 1903-02-05 Thu\n${reel}`)).toThrow('No issue is called a.');
    expect(() => filmOf(TITLES, 'a = 1903-02-05 Thu\nreel 4410\n2 a one')).toThrow('"one" names no page.');
  });
});

describe.each(SCENARIOS.map((one) => [one.number, one.slug, one] as const))('%s %s', (_, __, scenario) => {
  it('tells two stories, and names frames that are in the record', () => {
    const { differs, agrees } = halvesOf(scenario);
    expect(JSON.stringify([differs.record, differs.plan, differs.policies, batchBefore(scenario) === null])).not.toBe(
      JSON.stringify([agrees.record, agrees.plan, agrees.policies, batchBefore(scenario) === null]),
    );
    for (const { reel, at, frames, count } of scenario.findings) {
      const names = differs.record.reels.find(({ number }) => number === reel)?.frames.map(({ frame }) => frame) ?? [];
      if (at !== null) expect(names).toContain(at);
      if (frames === null) continue;
      // a page that did not come lies in the range and is not counted
      expect(names.indexOf(frames.to) - names.indexOf(frames.from) + 1).toBeGreaterThanOrEqual(count);
    }
  });
});
