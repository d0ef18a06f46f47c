import { describe, expect, it } from 'vitest';
import { PRODUCTS } from '../forge/algebra/products.js';
import { makeFilm } from '../forge/film/make-film.js';
import { recordOf } from '../forge/record/record-of.js';
import { drawnSlips, isNamed, shownOf } from './algebra/drawn.js';
import { KINDS, kindOf } from './algebra/table.js';

const SERIES = { seed: 5, pages: 60 };
/** Slips that are drawn of each kind; `npm run bench:record` draws more. */
const EACH = 6;
const OF_RECORD = PRODUCTS.filter(({ side }) => side === 'record');

describe('the slips of a record that the algebra makes', () => {
  it('each have a row in the table, and each row a sentence where something stays unseen', () => {
    expect(OF_RECORD.filter((product) => kindOf(product) === undefined)).toEqual([]);
    for (const kind of KINDS) {
      expect(OF_RECORD.some((product) => kindOf(product) === kind)).toBe(true);
      for (const why of [kind.hidden, kind.but?.why]) if (why != null) expect(why).toMatch(/^[A-Z].*\.$/);
    }
  });

  it('are named by the record alone in at least 98 % where a regularity shows them', () => {
    let [all, named] = [0, 0];
    const missed: string[] = [];
    for (const product of OF_RECORD) {
      const kind = kindOf(product);
      if (kind?.hidden !== null) continue;
      for (const drawn of drawnSlips(SERIES, product, EACH)) {
        if (kind.but?.where(drawn) === true) continue;
        all += 1;
        if (isNamed(drawn)) named += 1;
        else
          missed.push(
            `${product.what} ${product.how} ${product.scope}: film ${String(drawn.scenery.seed)}, ${JSON.stringify(drawn.planted.params)}`,
          );
      }
    }
    expect(all).toBeGreaterThan(500);
    expect(named / all, missed.join('\n')).toBeGreaterThanOrEqual(0.98);
  });
});

describe('a right record', () => {
  it('is asked about at most one thing in a thousand frames', () => {
    let [frames, items] = [0, 0];
    const asked: string[] = [];
    for (let seed = 1; seed <= 120; seed += 1) {
      const record = recordOf(makeFilm({ seed, pages: 120 }));
      frames += record.reels.reduce((sum, reel) => sum + reel.frames.length, 0);
      const found = shownOf(record);
      expect(found).not.toBe('refused');
      if (found === 'refused') continue;
      items += found.length;
      asked.push(...found.map(({ says }) => says));
    }
    expect(frames).toBeGreaterThan(10_000);
    expect(items / frames, asked.join('\n')).toBeLessThanOrEqual(0.001);
  });
});
