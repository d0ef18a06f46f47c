import { describe, expect, it } from 'vitest';
import { isUnobjectionable } from '../../src/read/json-glance.js';
import { scanJson } from '../../src/read/json-scan.js';
import { makeFilm } from '../forge/film/make-film.js';
import { type Random, randomFrom } from '../forge/film/random.js';
import { recordOf } from '../forge/record/record-of.js';

const NAMES = ['a', 'b', 'c', '__proto__', '\\u005f_proto__', '\\u0061', 'a:b', '{', '[x]', '\\"', '\\\\', 'é'];
const SCALARS = [
  '1',
  '-2.5e3',
  'true',
  'null',
  '"a:b"',
  '"{["',
  '"\\"x"',
  '""',
  '123456789012345',
  '1234567890123456',
  '9007199254740993',
  '0.1234567890123456789',
];

function drawn(random: Random, deep: number): string {
  const count = random.below(4);
  const inside = (): string => (deep > 0 && random.chance(400) ? drawn(random, deep - 1) : random.pick(SCALARS));
  const space = random.pick(['', ' ', '\n']);
  return random.chance(700)
    ? `{${Array.from({ length: count }, () => `"${random.pick(NAMES)}"${space}:${inside()}`).join(',')}}`
    : `[${Array.from({ length: count }, inside).join(`,${space}`)}]`;
}

describe('a glance at a JSON text', () => {
  it('finds nothing to object to only where the whole scan finds nothing', () => {
    let [clear, objected, missed] = [0, 0, 0];
    for (let seed = 1; seed <= 20_000; seed += 1) {
      const text = drawn(randomFrom(seed), 4);
      const glanced = isUnobjectionable(text, JSON.parse(text));
      const objection = scanJson(text);
      if (glanced && objection !== null) expect.fail(`${text}: ${objection.says}`);
      if (glanced) clear += 1;
      else if (objection !== null) objected += 1;
      else missed += 1;
    }
    expect(Math.min(clear, objected)).toBeGreaterThan(500);
    // It may ask for the scan without need, but seldom.
    expect(missed).toBeLessThan(clear / 2);
  });

  it('is enough for a record', () => {
    const text = JSON.stringify(recordOf(makeFilm({ seed: 3, pages: 60 })), null, 2);
    expect(isUnobjectionable(text, JSON.parse(text))).toBe(true);
  });

  it('leaves deep nesting and long texts to the scan', () => {
    for (const text of ['['.repeat(65) + ']'.repeat(65), JSON.stringify('x'.repeat(100_001))])
      expect(isUnobjectionable(text, JSON.parse(text))).toBe(scanJson(text) === null);
    const allowed = '['.repeat(64) + ']'.repeat(64);
    expect([isUnobjectionable(allowed, JSON.parse(allowed)), scanJson(allowed)]).toEqual([true, null]);
  });
});
