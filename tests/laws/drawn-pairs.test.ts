import { describe, expect, it } from 'vitest';
import { drawnPairs, PAIR, surprises } from './drawn.js';

const outcomes = await drawnPairs();

describe('two mistakes drawn from the algebra, half of them beside each other', () => {
  it('are drawn often enough', () => {
    expect(outcomes.length).toBeGreaterThan(80);
  });

  it('are two findings, each with its code and its side; how often they are not yet is on the list, which only shrinks', () => {
    expect(surprises(outcomes, (kind) => kind === PAIR)).toEqual([]);
  });
});
