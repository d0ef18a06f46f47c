import { describe, expect, it } from 'vitest';
import { addDays, weekday } from '../../src/calendar/civil.js';
import { julianToGregorian, printedDayMeans, readCalendar } from '../../src/calendar/julian.js';

// Last Julian days of several countries as FreeBSD's ncal tabulates them, and the edges of February; computed with Python.
const DAYS = [
  ['1582-10-04', '1582-10-14', 'thu'],
  ['1700-02-18', '1700-02-28', 'sun'],
  ['1752-09-02', '1752-09-13', 'wed'],
  ['1753-02-17', '1753-02-28', 'wed'],
  ['1800-02-28', '1800-03-11', 'tue'],
  ['1800-02-29', '1800-03-12', 'wed'],
  ['1900-02-28', '1900-03-12', 'mon'],
  ['1900-02-29', '1900-03-13', 'tue'],
  ['1916-03-31', '1916-04-13', 'thu'],
  ['1918-01-31', '1918-02-13', 'wed'],
  ['1919-03-31', '1919-04-13', 'sun'],
  ['1924-03-09', '1924-03-22', 'sat'],
] as const;

describe('julianToGregorian', () => {
  it.each(DAYS)('%s Julian is %s, a %s', (julian, gregorian, day) => {
    expect(julianToGregorian(julian)).toBe(gregorian);
    expect(weekday(gregorian)).toBe(day);
  });

  it('goes on by one day at a time over four centuries', () => {
    let expected = julianToGregorian('1582-01-01')!;
    for (let year = 1582; year < 1930; year += 1) {
      for (let month = 1; month <= 12; month += 1) {
        for (let day = 1; day <= 31; day += 1) {
          const text = `${String(year)}-${String(month).padStart(2, '0')}-${String(day).padStart(2, '0')}`;
          const gregorian = julianToGregorian(text);
          if (gregorian === null) continue;
          expect(gregorian).toBe(expected);
          expected = addDays(expected, 1);
        }
      }
    }
    expect(expected).toBe('1930-01-14');
  });

  it.each([
    '1899-02-29',
    '1900-02-30',
    '1900-04-31',
    '1900-13-01',
    '1900-00-01',
    '1900-01-00',
    '1900-2-1',
    'x',
    '0001-01-01',
    '9999-12-31',
  ])('has none for %s', (text) => {
    expect(julianToGregorian(text)).toBeNull();
  });
});

describe('the calendar of a title', () => {
  it('is read from the record', () => {
    expect(readCalendar('gregorian')).toEqual({ julianUntil: null });
    expect(readCalendar('')).toEqual({ julianUntil: null });
    expect(readCalendar('Julian-until 1918-01-31')).toEqual({ julianUntil: '1918-01-31' });
    expect(readCalendar('julian')).toBeNull();
    expect(readCalendar('julian-until 1899-02-29')).toBeNull();
  });

  it('decides what a printed day means', () => {
    const calendar = readCalendar('julian-until 1918-01-31')!;
    expect(printedDayMeans('1900-02-29', calendar)).toBe('1900-03-13');
    expect(printedDayMeans('1918-02-14', calendar)).toBe('1918-02-14');
    expect(printedDayMeans('1900-02-29', { julianUntil: null })).toBeNull();
  });
});
