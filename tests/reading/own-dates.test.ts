import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { fromDayNumber } from '../../src/calendar/civil.js';
import { dateForm, readOwnDay } from '../../src/reading/own-dates.js';

const UNKNOWN = { order: null, century: null, year: null };
const BRITISH = { order: 'day month year', century: '18', year: null } as const;
const AMERICAN = { order: 'month day year', century: '18', year: null } as const;

describe('a day as a library writes it', () => {
  it.each([
    '4 January 1899',
    '4 Jan. 1899',
    '4th January 1899',
    '04-Jan-1899',
    'January 4, 1899',
    'Jan. 4th, 1899',
    'Wednesday, January 4, 1899',
    'Wed. 4 Jan 1899',
    '1899 January 4',
    '4. Januar 1899',
    'Mittwoch, 4. Januar 1899',
    '4 janvier 1899',
    '1899/1/4',
    '1899.01.04',
    '18990104',
    '1899-01-04',
  ])('%s is read whatever is known', (text) => {
    expect(readOwnDay(text, UNKNOWN)).toBe('1899-01-04');
  });

  it.each([
    ['4/1/1899', BRITISH],
    ['4.1.1899', BRITISH],
    ['04-01-1899', BRITISH],
    ['4/1/99', BRITISH],
    ['1/4/1899', AMERICAN],
    ['Jan 4, 99', AMERICAN],
  ] as const)('%s is read once the order and the century are known', (text, ways) => {
    expect(readOwnDay(text, ways)).toBe('1899-01-04');
    expect(readOwnDay(text, UNKNOWN)).toBeNull();
  });

  it.each(['29 February 1900', '31/4/1899', '13/13/1899', '', 'unknown', 'January 1900', 'Smarch 4, 1899', '4-Jan', 'x'.repeat(10_000)])(
    '%j is none',
    (text) => {
      expect(readOwnDay(text, BRITISH)).toBeNull();
    },
  );

  it.each(['1899-01-XX', '1899', '1899-01-04?'])('%s stays an uncertain one', (text) => {
    expect(readOwnDay(text, BRITISH)).toBe(text);
    expect(dateForm(text).is).toBe('literal');
  });

  it('comes back from every form, for days from 1600 to 2000', () => {
    const months = [
      'January',
      'February',
      'March',
      'April',
      'May',
      'June',
      'July',
      'August',
      'September',
      'October',
      'November',
      'December',
    ];
    fc.assert(
      fc.property(fc.integer({ min: -135_000, max: 11_000 }), (number) => {
        const day = fromDayNumber(number);
        const [year = '', month = '', date = ''] = day.split('-');
        const [m, d] = [Number(month), Number(date)];
        const name = months[m - 1] ?? '';
        expect(readOwnDay(`${String(d)}/${String(m)}/${year}`, BRITISH)).toBe(day);
        expect(readOwnDay(`${String(m)}/${String(d)}/${year}`, AMERICAN)).toBe(day);
        for (const text of [`${String(d)} ${name} ${year}`, `${name} ${String(d)}, ${year}`, `${name.slice(0, 3)}. ${date}, ${year}`])
          expect(readOwnDay(text, UNKNOWN)).toBe(day);
      }),
    );
  });
});
