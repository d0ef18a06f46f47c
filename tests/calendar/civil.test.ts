import { describe, expect, it } from 'vitest';
import { addDays, dayNumber, daysBetween, daysInMonth, fromDayNumber, isDay, readDay, weekday } from '../../src/calendar/civil.js';

// Weekday test table in J. Burkardt's sample code; 1776-07-04 from the README of jazzfan2/perpetualcalendar.
const TABULATED = {
  '1648-06-10': 'wed',
  '1680-06-30': 'sun',
  '1716-07-24': 'fri',
  '1768-06-19': 'sun',
  '1776-07-04': 'thu',
  '1819-08-02': 'mon',
  '1839-03-27': 'wed',
  '1903-04-19': 'sun',
  '1929-08-25': 'sun',
  '1941-09-29': 'mon',
  '1943-04-19': 'mon',
  '1943-10-07': 'thu',
} as const;

// Weekdays that printed sources about newspapers state (first British Sunday paper 1780; a U.S. programme's sample issue 1898; and others), recomputed.
const PRINTED = {
  '1780-03-26': 'sun',
  '1851-09-18': 'thu',
  '1863-07-02': 'thu',
  '1863-07-04': 'sat',
  '1880-06-30': 'wed',
  '1880-09-01': 'wed',
  '1898-02-05': 'sat',
  '1898-02-06': 'sun',
  '1898-02-07': 'mon',
  '1898-11-10': 'thu',
  '1915-08-11': 'wed',
  '1945-08-11': 'sat',
  '1921-10-01': 'sat',
  '1963-12-06': 'fri',
  '1965-12-06': 'mon',
} as const;

// Computed with Python's datetime: turns of the century, days after a change of calendar.
const EDGES = {
  '1899-12-31': 'sun',
  '1900-01-01': 'mon',
  '1900-01-04': 'thu',
  '1899-01-04': 'wed',
  '1900-02-28': 'wed',
  '1900-03-01': 'thu',
  '1904-02-29': 'mon',
  '1752-09-14': 'thu',
  '1918-02-14': 'thu',
  '1883-11-17': 'sat',
  '1883-11-18': 'sun',
} as const;

// Weekday of 1 January by year and whether the year is a leap year, computed with Python's datetime.
const YEARS: Readonly<Record<string, readonly number[]>> = {
  sun: [1809, 1815, 1826, 1837, 1843, 1854, 1865, 1871, 1882, 1893, 1899, 1905, 1911, 1922, 1933, 1939, 1950, 1961],
  mon: [1810, 1821, 1827, 1838, 1849, 1855, 1866, 1877, 1883, 1894, 1900, 1906, 1917, 1923, 1934, 1945, 1951, 1962],
  thu: [1801, 1807, 1818, 1829, 1835, 1846, 1857, 1863, 1874, 1885, 1891, 1903, 1914, 1925, 1931, 1942, 1953, 1959],
  'sun leap': [1804, 1832, 1860, 1888, 1928, 1956],
  'fri leap': [1808, 1836, 1864, 1892, 1904, 1932, 1960],
  'sat leap': [1820, 1848, 1876, 1916, 1944],
};

describe('weekday', () => {
  it.each(Object.entries({ ...TABULATED, ...PRINTED, ...EDGES }))('%s is a %s', (day, expected) => {
    expect(weekday(day)).toBe(expected);
  });

  it.each(Object.entries(YEARS))('of 1 January in the %s years', (key, years) => {
    const [expected, leap] = key.split(' ');
    for (const year of years) {
      expect(weekday(`${String(year)}-01-01`)).toBe(expected);
      expect(daysInMonth(year, 2)).toBe(leap === undefined ? 28 : 29);
    }
  });
});

describe('isDay', () => {
  it.each(['1900-02-29', '1899-02-29', '1900-02-30', '1897-13-01', '1898-04-31', '1752-09-31', '1898-00-10', '1898-01-00', '0000-01-01'])(
    'refuses %s, which no calendar day is',
    (text) => {
      expect(isDay(text)).toBe(false);
    },
  );

  it.each([
    '1888-1-2',
    '88-02-03',
    '1888-01-02Z',
    '1888-01-02 ',
    ' 1888-01-02',
    '18880102',
    '1888',
    '1888-01',
    '1888-01-02T00:00',
    '1888-01-02\n',
    'Feb 30 1888',
    '',
  ])('refuses the spelling %j', (text) => {
    expect(isDay(text)).toBe(false);
  });

  it('accepts the leap days that the Gregorian calendar has', () => {
    expect(['1888-02-29', '1904-02-29', '2000-02-29', '1600-02-29'].every(isDay)).toBe(true);
    expect(readDay('1904-02-29')).toEqual({ year: 1904, month: 2, day: 29 });
  });
});

describe('day numbers', () => {
  it('count from 1970-01-01 and back', () => {
    expect(dayNumber('1970-01-01')).toBe(0);
    // 25,567 days lie between the first day of 1900 and of 1970 (70 years, 17 of them leap years).
    expect(dayNumber('1900-01-01')).toBe(-(70 * 365 + 17));
    expect(fromDayNumber(dayNumber('0001-01-01'))).toBe('0001-01-01');
    expect(fromDayNumber(dayNumber('9999-12-31'))).toBe('9999-12-31');
  });

  it('carry over the ends of months, years and centuries', () => {
    expect(addDays('1900-02-28', 1)).toBe('1900-03-01');
    expect(addDays('1904-02-28', 1)).toBe('1904-02-29');
    expect(addDays('1900-01-01', -1)).toBe('1899-12-31');
    // Santa Barbara, 1880: 62 days lie between the last number before the pause and the first after it.
    expect(daysBetween('1880-06-30', '1880-09-01') - 1).toBe(62);
    // 14 March 1995 and 500 days are 26 July 1996, as a newspaper stated when it went back over its numbering.
    expect(addDays('1995-03-14', 500)).toBe('1996-07-26');
  });

  it('refuse what is not a day', () => {
    expect(() => dayNumber('1900-02-29')).toThrow('"1900-02-29" is not a day');
    expect(() => fromDayNumber(0.5)).toThrow(RangeError);
    expect(() => addDays('9999-12-31', 1)).toThrow(RangeError);
  });
});
