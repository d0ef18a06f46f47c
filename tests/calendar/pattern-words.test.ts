import { describe, expect, it } from 'vitest';
import { readPatternWords } from '../../src/calendar/pattern-words.js';

describe('a pattern on one line', () => {
  it.each([
    ['mon-sat', { days: ['mon', 'tue', 'wed', 'thu', 'fri', 'sat'] }],
    ['sat-mon', { days: ['mon', 'sat', 'sun'] }],
    ['Wednesday, Saturday', { days: ['wed', 'sat'] }],
    ['sat,wed,sat', { days: ['wed', 'sat'] }],
    // MARC 21, 008/18: c is semiweekly.
    ['c wed sat', { days: ['wed', 'sat'], frequency: 'c' }],
    ['1879-01-01/1880-12-31=wed,sat', { from: '1879-01-01', to: '1880-12-31', days: ['wed', 'sat'] }],
    ['1881-01-01/..=mon-sat', { from: '1881-01-01', days: ['mon', 'tue', 'wed', 'thu', 'fri', 'sat'] }],
    // MARC 21 Format for Holdings Data, 853 $y: published on these days; omitted on 25 December; the first Friday of each month.
    ['pdtu,th,sa', { days: ['tue', 'thu', 'sat'], regularity: 'pdtu,th,sa' }],
    ['$ypdtu,th,sa', { days: ['tue', 'thu', 'sat'], regularity: 'pdtu,th,sa' }],
    ['mon-sat od1225,0704', { days: ['mon', 'tue', 'wed', 'thu', 'fri', 'sat'], regularity: 'od1225,0704' }],
    ['1881-01-01/..=pw01fr', { from: '1881-01-01', days: [], regularity: 'pw01fr' }],
    ['../1880-12-31=sun', { to: '1880-12-31', days: ['sun'] }],
  ])('%s', (text, pattern) => {
    expect(readPatternWords(text)).toEqual(pattern);
  });

  it.each([
    ['', 'names no weekday'],
    ['d', 'came out daily, which does not say on which days'],
    ['w wed sat', 'says "weekly" by its code w and names 2 weekdays'],
    ['mo', 'holds "mo"'],
    ['od1225', 'says what is left out and not when the title came out'],
    ['pdxx', 'is not a regularity pattern of MARC 21 853 $y'],
    ['mon-tue-wed', 'not a weekday'],
    ['1880-12-31/1879-01-01=wed', 'before it begins'],
    ['1880-02-30/..=wed', 'not a day of the calendar'],
  ])('refuses %j', (text, says) => {
    expect(readPatternWords(text)).toEqual(expect.stringContaining(says));
  });
});
