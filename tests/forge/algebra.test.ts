import { describe, expect, it } from 'vitest';
import { caseOf, without } from './algebra/case.js';
import { several, single } from './algebra/draw.js';
import { PRODUCTS } from './algebra/products.js';
import { inverse } from './algebra/steps.js';

const singles = PRODUCTS.map((_, at) => single({ seed: 3, pages: 44 }, at)).filter((one) => one !== null);
const pairs = Array.from({ length: 300 }, (_, at) => several({ seed: 3, pages: 44 }, at, 2)).filter((one) => one !== null);

describe('the algebra of mistakes', () => {
  it('has a place on some film for most of its products', () => {
    expect(PRODUCTS.length).toBeGreaterThan(700);
    expect(singles.length).toBeGreaterThan(PRODUCTS.length * 0.7);
    const kinds = (pick: (edit: (typeof PRODUCTS)[number]) => string): Set<string> =>
      new Set(singles.flatMap(({ planted }) => planted.map(({ edit }) => pick(edit))));
    for (const pick of [(e) => e.what, (e) => e.how, (e) => e.scope, (e) => e.side] as ((e: (typeof PRODUCTS)[number]) => string)[])
      expect([...new Set(PRODUCTS.map(pick))].filter((name) => !kinds(pick).has(name))).toEqual([]);
  });

  it('gives the right side back when an edit is undone', () => {
    for (const one of singles) {
      const [planted] = one.planted;
      const right = caseOf(one.scenery, []);
      const back = without(one, planted!);
      expect([planted!.edit, back.plan, back.record]).toEqual([planted!.edit, right.plan, right.record]);
    }
  });

  it('undoes one of two edits and leaves the other as if it had been alone', () => {
    expect(pairs.length).toBeGreaterThan(200);
    for (const one of pairs)
      for (const planted of one.planted) {
        const alone = caseOf(
          one.scenery,
          one.planted.filter((each) => each !== planted),
        );
        const back = without(one, planted);
        expect([one.planted.map(({ edit }) => edit), back.plan, back.record]).toEqual([
          one.planted.map(({ edit }) => edit),
          alone.plan,
          alone.record,
        ]);
      }
  });

  it('has steps that are their own inverse turned round', () => {
    for (const { planted } of singles.slice(0, 100))
      for (const step of planted.flatMap(({ steps }) => steps)) expect(inverse(inverse(step))).toEqual(step);
  });

  it('draws the same case again', () => {
    for (let at = 0; at < 40; at += 1) {
      const [one, again] = [several({ seed: 5, pages: 44 }, at, 3), several({ seed: 5, pages: 44 }, at, 3)];
      expect(again?.planted).toEqual(one?.planted);
      expect(again?.plan).toEqual(one?.plan);
    }
  });

  it('knows an edit that is not a mistake', () => {
    const harmless = singles.filter(({ planted }) => planted.every(({ traces }) => traces.length === 0));
    expect(harmless.length).toBeGreaterThan(0);
    expect(harmless.length).toBeLessThan(singles.length / 10);
    // what the record does not say is nobody's mistake
    expect(harmless.every(({ planted }) => planted.every(({ steps }) => steps.length > 0))).toBe(true);
  });
});
