import { describe, expect, it } from 'vitest';
import { frequency } from '../../src/calendar/frequency.js';
import { expectedDays, isOmittedEntry, patternsOn, statementFor, usualPages } from '../../src/calendar/patterns.js';
import type { PublicationPattern, Weekday } from '../../src/model/collation-record.js';

const EXCEPT_SUNDAY: readonly Weekday[] = ['mon', 'tue', 'wed', 'thu', 'fri', 'sat'];

// Days of a six-day daily and Sundays in a year, computed with Python's datetime.
const YEARS = {
  1899: [312, 53],
  1900: [313, 52],
  1904: [314, 52],
  1905: [312, 53],
  1910: [313, 52],
  1911: [312, 53],
  1912: [314, 52],
  1916: [313, 53],
  1921: [313, 52],
  1922: [312, 53],
};

describe('expectedDays', () => {
  it.each(Object.entries(YEARS))('of a daily without Sundays in %s', (year, [exceptSunday, sundays]) => {
    expect(expectedDays([{ days: EXCEPT_SUNDAY }], `${year}-01-01`, `${year}-12-31`)).toHaveLength(exceptSunday!);
    expect(expectedDays([{ days: ['sun'] }], `${year}-01-01`, `${year}-12-31`)).toHaveLength(sundays!);
  });

  it('counts 53 days without Sundays in a pause in which not one issue is missing', () => {
    // A Santa Barbara daily: vol. 8 no. 283 on 30 June 1880, no. 284 on 1 September 1880.
    expect(expectedDays([{ days: EXCEPT_SUNDAY }], '1880-07-01', '1880-08-31')).toHaveLength(53);
  });

  it('counts 14,523 days without Sundays between two numbered issues', () => {
    // Thursday 18 September 1851 to Saturday 5 February 1898, recomputed from a paper's own note on its numbering.
    expect(expectedDays([{ days: EXCEPT_SUNDAY }], '1851-09-18', '1898-02-05')).toHaveLength(14523);
  });

  it('lists the days of one week of October 1921 without the Sundays', () => {
    // A listing of an open batch of a Wyoming daily has 1, 3, 4, 5, 6, 7, 8 and 10 October 1921.
    expect(expectedDays([{ days: EXCEPT_SUNDAY }], '1921-10-01', '1921-10-10')).toEqual(
      ['01', '03', '04', '05', '06', '07', '08', '10'].map((day) => `1921-10-${day}`),
    );
  });

  it('leaves out what is omitted every year and on one day', () => {
    const pattern: PublicationPattern = { days: EXCEPT_SUNDAY, omitted: ['07-04', '12-25', '1899-11-30'] };
    const days = expectedDays([pattern], '1899-01-01', '1899-12-31');
    expect(days).toHaveLength(312 - 3);
    expect(days).not.toContain('1899-11-30');
    expect(expectedDays([pattern], '1900-01-01', '1900-12-31')).toHaveLength(313 - 2);
    expect(statementFor([pattern], '1899-07-04')).toBe('omitted');
  });

  it('follows a title from one pattern to the next and says nothing in between', () => {
    const patterns: readonly PublicationPattern[] = [
      { to: '1899-12-31', days: ['thu'] },
      { from: '1900-03-01', days: ['tue', 'thu', 'sat'], usualPages: [4, 8] },
    ];
    expect(expectedDays(patterns, '1899-12-20', '1900-03-07')).toEqual([
      '1899-12-21',
      '1899-12-28',
      '1900-03-01',
      '1900-03-03',
      '1900-03-06',
    ]);
    expect(statementFor(patterns, '1900-02-01')).toBe('no-statement');
    expect(statementFor(patterns, '1899-12-29')).toBe('not-a-day-of-issue');
    expect(statementFor(patterns, '1899-12-28')).toBe('expected');
    expect(patternsOn(patterns, '1899-12-29')).toHaveLength(1);
    expect(usualPages(patterns, '1900-03-01')).toEqual([4, 8]);
    expect(usualPages(patterns, '1899-12-28')).toEqual([]);
  });

  it('joins patterns that overlap', () => {
    const patterns: readonly PublicationPattern[] = [
      { days: ['thu'], omitted: ['1900-01-04'], usualPages: [8] },
      { from: '1900-01-01', days: ['thu', 'sun'], usualPages: [4, 8] },
    ];
    expect(statementFor(patterns, '1900-01-04')).toBe('expected');
    expect(statementFor(patterns, '1900-01-07')).toBe('expected');
    expect(usualPages(patterns, '1900-01-07')).toEqual([4, 8]);
  });

  it('has no days where the span is empty or the pattern names no weekday', () => {
    expect(expectedDays([{ days: ['thu'] }], '1900-01-05', '1900-01-04')).toEqual([]);
    expect(expectedDays([{ days: [] }], '1900-01-01', '1900-12-31')).toEqual([]);
    expect(statementFor([{ days: [], frequency: 'm' }], '1900-01-04')).toBe('no-statement');
  });
});

describe('entries of omitted days', () => {
  it('are a month and day or a full day', () => {
    expect(['12-25', '02-29', '1899-11-30'].filter(isOmittedEntry)).toHaveLength(3);
    expect(['25-12', '02-30', '1900-02-29', '12-25-', 'Christmas', ''].filter(isOmittedEntry)).toEqual([]);
  });
});

describe('frequency', () => {
  // MARC 21 bibliographic format, 008/18.
  it('tells twice a week from every two weeks', () => {
    expect(frequency('c')?.issuesPerYear).toEqual([104, 106]);
    expect(frequency('e')?.issuesPerYear).toEqual([26, 27]);
    expect(frequency('i')?.daysPerWeek).toEqual([3, 3]);
    expect(frequency(' ')?.name).toBe('no determinable frequency');
    expect(frequency('y')).toBeNull();
  });

  it('expects what a calendar gives', () => {
    for (const [code, days] of [
      ['c', ['tue', 'fri']],
      ['i', ['tue', 'thu', 'sat']],
      ['w', ['thu']],
      ['d', EXCEPT_SUNDAY],
    ] as const) {
      for (const year of [1899, 1900, 1904]) {
        const [least, most] = frequency(code)!.issuesPerYear!;
        const count = expectedDays([{ days }], `${String(year)}-01-01`, `${String(year)}-12-31`).length;
        expect(count).toBeGreaterThanOrEqual(least);
        expect(count).toBeLessThanOrEqual(most);
      }
    }
  });
});
