import { describe, expect, it } from 'vitest';
import type { SeriesLot } from '../../src/model/sample.js';
import { nextInspection, type ReducedTerms, seriesAcceptance } from '../../src/sampling/switching.js';

const never: ReducedTerms = { wanted: false, steady: true, limitNumbersDropped: true };
const open: ReducedTerms = { wanted: true, steady: true, limitNumbersDropped: true };

/** `a` accepted, `r` rejected, `b` accepted between the numbers of reduced inspection, `i` accepted after irregular work, `s` accepted, taken up again. */
function lots(letters: string): readonly SeriesLot[] {
  return Array.from(letters, (letter) => ({
    accepted: letter !== 'r',
    betweenNumbers: letter === 'b',
    irregular: letter === 'i',
    resumed: letter === 's',
  }));
}

// MIL-STD-105E (10 May 1989), 4.7.1 to 4.7.4 and 4.8
describe('switching', () => {
  it.each([
    ['', 'normal'],
    ['r', 'normal'],
    ['rr', 'tightened'],
    ['raaar', 'tightened'],
    ['raaaar', 'normal'],
    ['rraaaa', 'tightened'],
    ['rraaaaa', 'normal'],
    ['rraaaaraaaa', 'tightened'],
    ['rraaaaar', 'normal'],
    ['rrrrrr', 'tightened'],
    ['rrrrrrr', 'discontinued'],
    ['rrrarararr', 'discontinued'],
    ['rrrrrrraaaaaaaa', 'discontinued'],
    ['rrrrrrrs', 'tightened'],
    ['rrrrrrrsaaaa', 'normal'],
  ])('%s ends on %s', (letters, severity) => {
    expect(nextInspection(lots(letters), never).severity).toBe(severity);
  });

  it.each([
    ['aaaaaaaaa', 'normal'],
    ['aaaaaaaaaa', 'reduced'],
    ['raaaaaaaaaa', 'reduced'],
    ['aaaaaaaaaaaaa', 'reduced'],
    ['aaaaaaaaaar', 'normal'],
    ['aaaaaaaaaab', 'normal'],
    ['aaaaaaaaaai', 'normal'],
    ['aaaaaaaaaabaaaaaaaaa', 'normal'],
    ['aaaaaaaaaabaaaaaaaaaa', 'reduced'],
  ])('with reduced inspection open, %s ends on %s', (letters, severity) => {
    expect(nextInspection(lots(letters), open).severity).toBe(severity);
  });

  it('keeps reduced inspection shut unless it is wanted, work is steady, and the limit numbers were dropped', () => {
    for (const terms of [never, { ...open, steady: false }, { ...open, limitNumbersDropped: false }])
      expect(nextInspection(lots('aaaaaaaaaaaaaaa'), terms).severity).toBe('normal');
  });

  it('says why', () => {
    expect(nextInspection(lots('rr'), never).because).toBe('Two of five or fewer consecutive lots were not accepted.');
  });
});

describe('the long run of a series', () => {
  it('lies between the two plans, and at the ends is the end', () => {
    const chance = seriesAcceptance(0.9, 0.7);
    expect(chance).toBeGreaterThan(0.7);
    expect(chance).toBeLessThan(0.9);
    expect([seriesAcceptance(1, 1), seriesAcceptance(1, 0.9), seriesAcceptance(0.5, 0)]).toEqual([1, 1, 0]);
  });
});
