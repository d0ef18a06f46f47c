import { describe, expect, it } from 'vitest';
import { CODES } from '../../src/catalogue/codes.js';
import { sideOfPlan } from '../support/sides.js';
import { expectedOf } from './faults/expected.js';
import { FAULTS, faultOf, spoil, spoilAll, spoilSome } from './faults/index.js';
import { makeFilm } from './film/make-film.js';
import { randomFrom } from './film/random.js';
import { planOf } from './plan.js';
import { recordOf } from './record/record-of.js';

const films = Array.from({ length: 200 }, (_, i) =>
  makeFilm({ seed: i + 1, pages: 90, oddPerMille: 450, ...(i % 4 === 0 ? { reels: 2, titles: 1 } : {}) }),
);

describe('the registry of faults', () => {
  it('has every kind once, with codes of the catalogue', () => {
    expect(new Set(FAULTS.map((fault) => fault.kind)).size).toBe(FAULTS.length);
    expect(FAULTS.length).toBeGreaterThanOrEqual(45);
    const known = new Set<string>(CODES.map((entry) => entry.code));
    expect(FAULTS.flatMap((fault) => fault.codes).filter((code) => !known.has(code))).toEqual([]);
  });

  it.each(FAULTS.map((fault) => [fault.kind, fault] as const))(
    '%s finds a place, changes the return or the record and says what must be found',
    (kind, fault) => {
      let planted = 0;
      for (const film of films) {
        const spoilt = spoil(film, fault, randomFrom(film.seed), { targetsListed: true });
        if (spoilt === null) continue;
        planted += 1;
        const changed =
          JSON.stringify([spoilt.plan, spoilt.record]) !==
          JSON.stringify([planOf(spoilt.film, { targetsListed: true }), recordOf(spoilt.film)]);
        expect(changed || kind === 'printed-date-not-wanted').toBe(true);
        expect(spoilt.expected.map((each) => each.code)).toEqual(fault.codes);
        for (const each of spoilt.expected) {
          if (each.frames !== null) expect(each.count).toBeGreaterThan(0);
          const reel = spoilt.film.reels.find((one) => one.number === each.reel);
          if (each.at !== null) expect(reel?.shots.some((shot) => shot.frame === each.at)).toBe(true);
        }
        if (planted === 12) break;
      }
      expect(planted).toBeGreaterThanOrEqual(2);
    },
  );

  it('covers the codes of sequence, presence, identity and page', () => {
    const planted = new Set(FAULTS.flatMap((fault) => fault.codes));
    const groups = new Set(['sequence', 'presence', 'identity', 'page']);
    const left = CODES.filter((entry) => groups.has(entry.group) && !planted.has(entry.code)).map((entry) => entry.code);
    expect(left).toEqual([]);
  });

  it('leaves the return of the same seed the same', () => {
    const film = films[6]!;
    const once = spoilSome(film, 6, randomFrom(5));
    expect(JSON.stringify(spoilSome(film, 6, randomFrom(5)))).toBe(JSON.stringify(once));
    expect(once?.expected.length).toBeGreaterThanOrEqual(4);
  });
});

describe('a missed blank', () => {
  // Scenario of the contract, section 5: a missed blank is one finding, at the blank, its frames the later ones, blanks too.
  it('concerns every later frame of the reel, by the collation numbers', () => {
    const film = makeFilm({ seed: 11, pages: 60, reels: 1, twoUp: false, blankPerMille: 900, oddPerMille: 0 });
    const spoilt = spoil(film, faultOf('blank-skipped'), randomFrom(1))!;
    const [finding] = spoilt.expected;
    const last = film.reels[0]!.shots.at(-1)!;
    expect(finding!.frames).toEqual({ from: String(Number(finding!.at) + 1), to: last.frame });
    expect(finding!.count).toBe(Number(last.frame) - Number(finding!.at));
    const numbers = sideOfPlan(spoilt.plan, 'page-mods').reels[0]!.frames.map((frame) => frame.frame!.exposure);
    expect(numbers).toEqual(Array.from({ length: film.reels[0]!.shots.length - 1 }, (_, i) => i + 1));
  });

  it('ends where a page taken twice brings the numbers back', () => {
    const film = makeFilm({ seed: 12, pages: 80, reels: 1, twoUp: false, blankPerMille: 900, oddPerMille: 0 });
    const shots = film.reels[0]!.shots;
    for (let seed = 1; seed < 40; seed += 1) {
      const spoilt = spoilAll(film, [faultOf('blank-skipped'), faultOf('page-twice-held')], randomFrom(seed))!;
      const [skipped, twice] = spoilt.expected as [(typeof spoilt.expected)[number], (typeof spoilt.expected)[number]];
      const [a, b] = [Number(skipped.at), Number(twice.at)];
      if (a < b) {
        expect(skipped.frames?.from).toBe(String(a + 1));
        // The frame captured twice has itself the wrong number: it lies behind the blank.
        expect(skipped.frames?.to).toBe(String(b));
        expect(twice.frames).toEqual({ from: String(b), to: String(b) });
      } else {
        expect(twice.frames).toEqual({ from: String(b + 1), to: String(a - 1) });
        expect(skipped.frames).toEqual({ from: String(a), to: String(a) });
      }
      expect(shots.some((shot) => shot.frame === skipped.at)).toBe(true);
    }
  });
});

it('writes a list of frames where they are not one run, with reels where they lie on two', () => {
  const film = makeFilm({ seed: 2, reels: 2, titles: 1, twoUp: false });
  const [one, two] = [film.reels[0]!.shots, film.reels[1]!.shots];
  const outcome = { code: 'date-differs', causes: [], issue: null };
  const [broken] = expectedOf(film, [{ kind: 'x', outcome: { ...outcome, pictures: [one[3]!.picture, one[5]!.picture] } }]);
  expect(broken!.frames).toEqual({ from: '4', to: '6', list: ['4', '6'] });
  const [both] = expectedOf(film, [{ kind: 'x', outcome: { ...outcome, pictures: [one[3]!.picture, two[0]!.picture] } }]);
  expect(both!.frames?.list).toEqual([`${film.reels[0]!.number}:4`, `${film.reels[1]!.number}:1`]);
});
