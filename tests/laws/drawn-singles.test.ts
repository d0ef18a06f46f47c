import { describe, expect, it } from 'vitest';
import { drawnSingles, kindsOfSingles, knownKinds, type Outcome, PAIR, surprises, untouched } from './drawn.js';

const kinds = kindsOfSingles();

describe('a mistake drawn from the algebra', () => {
  const all: Outcome[] = [];

  it.each(kinds)(
    '%s, is one finding, at its place, with its code and its side, in whatever order it is read, or on the list, which only shrinks',
    async (kind, places) => {
      const outcomes = await drawnSingles(kind, places);
      all.push(...outcomes);
      expect(surprises(outcomes, (one) => one === kind)).toEqual([]);
    },
  );

  it('is drawn often enough, on every side and scope, and nothing else is on the list', () => {
    expect(all.length).toBeGreaterThan(300);
    for (const word of ['return', 'record', 'page', 'issue', 'run', 'reel', 'title', 'batch'])
      expect(all.filter(({ kind }) => kind.split(' ').includes(word)).length).toBeGreaterThan(20);
    const drawn = new Set(kinds.map(([kind]) => kind));
    expect(knownKinds().filter((kind) => kind !== PAIR && !drawn.has(kind))).toEqual([]);
  });
});

describe('the films on which mistakes are drawn', () => {
  it.each(Array.from({ length: 24 }, (_, at) => at * 2))('give no finding without them: %i', async (n) => {
    expect(await untouched(n)).toEqual([]);
  });
});
