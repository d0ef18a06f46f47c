import { describe, expect, it } from 'vitest';
import { drawnSingles, PAIR, surprises, untouched } from './drawn.js';

const outcomes = await drawnSingles();

describe('a mistake drawn from the algebra', () => {
  it('is drawn often enough, on every side and scope', () => {
    expect(outcomes.length).toBeGreaterThan(300);
    for (const word of ['return', 'record', 'page', 'issue', 'run', 'reel', 'title', 'batch'])
      expect(outcomes.filter(({ kind }) => kind.split(' ').includes(word)).length).toBeGreaterThan(20);
  });

  it('is one finding, at its place, with its code and its side, in whatever order it is read; what is not so yet is on the list, which only shrinks', () => {
    expect(surprises(outcomes, (kind) => kind !== PAIR)).toEqual([]);
  });
});

describe('the films on which mistakes are drawn', () => {
  it('give no finding without them', async () => {
    for (let n = 0; n < 48; n += 2) expect([n, await untouched(n)]).toEqual([n, []]);
  });
});
