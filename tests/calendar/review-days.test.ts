import { addBusinessDays } from 'date-fns/addBusinessDays';
import { differenceInBusinessDays } from 'date-fns/differenceInBusinessDays';
import { formatISO } from 'date-fns/formatISO';
import { describe, expect, it } from 'vitest';
import { addDays } from '../../src/calendar/civil.js';
import { reviewDaysUsed, reviewDue } from '../../src/calendar/review-days.js';

describe('reviewDue', () => {
  it('counts calendar days from the day after receipt', () => {
    // A library's review of a batch took three weeks: 21 days from 2026-03-02 are 2026-03-23.
    expect(reviewDue('2026-03-02', { reviewDays: 21, reviewDayKind: 'calendar', holidays: [] })).toBe('2026-03-23');
    expect(reviewDue('2026-02-28', { reviewDays: 1, reviewDayKind: 'calendar', holidays: ['2026-03-01'] })).toBe('2026-03-01');
  });

  it('counts working days without weekends and holidays', () => {
    const terms = { reviewDays: 3, reviewDayKind: 'working', holidays: ['2026-04-03', '2026-04-06', '2026-04-05'] } as const;
    // Thursday 2 April 2026; Good Friday and Easter Monday are holidays.
    expect(reviewDue('2026-04-02', terms)).toBe('2026-04-09');
    expect(reviewDue('2026-04-02', { ...terms, holidays: [] })).toBe('2026-04-07');
    expect(reviewDue('2026-04-04', { ...terms, reviewDays: 0 })).toBe('2026-04-04');
  });

  it('agrees with date-fns on working days without holidays', () => {
    for (let start = 0; start < 14; start += 1) {
      const received = addDays('2026-05-04', start);
      for (const reviewDays of [1, 2, 5, 10, 15, 21, 30]) {
        const [year, month, day] = received.split('-').map(Number);
        const reference = formatISO(addBusinessDays(new Date(year!, month! - 1, day, 12), reviewDays), { representation: 'date' });
        expect(reviewDue(received, { reviewDays, reviewDayKind: 'working', holidays: [] })).toBe(reference);
      }
    }
  });

  it('refuses a number that counts no days', () => {
    expect(() => reviewDue('2026-05-04', { reviewDays: -1, reviewDayKind: 'working', holidays: [] })).toThrow('-1 is not a number of days');
    expect(() => reviewDue('2026-05-04', { reviewDays: 1.5, reviewDayKind: 'calendar', holidays: [] })).toThrow(RangeError);
  });
});

describe('reviewDaysUsed', () => {
  const local = (day: string): Date => {
    const [year, month, date] = day.split('-').map(Number);
    return new Date(year!, month! - 1, date, 12);
  };

  it('counts calendar days, and none on the day of receipt or before', () => {
    expect(reviewDaysUsed('2026-02-27', '2026-03-02', { reviewDayKind: 'calendar', holidays: ['2026-03-01'] })).toBe(3);
    for (const on of ['2026-02-27', '2026-02-20'])
      for (const reviewDayKind of ['calendar', 'working'] as const)
        expect(reviewDaysUsed('2026-02-27', on, { reviewDayKind, holidays: [] })).toBe(0);
  });

  it('agrees with date-fns on working days from a working day on', () => {
    for (let days = 0; days < 40; days += 1) {
      const on = addDays('2026-05-04', days);
      // date-fns counts the days from the first up to the last, which is left out when it is no working day; ours are those after the first.
      const after = differenceInBusinessDays(local(addDays(on, 1)), local('2026-05-05'));
      expect(reviewDaysUsed('2026-05-04', on, { reviewDayKind: 'working', holidays: [] })).toBe(after);
    }
  });

  it('is the whole term on the last day of review', () => {
    const holidays = ['2026-04-03', '2026-04-06', '2026-05-01'];
    for (const reviewDayKind of ['calendar', 'working'] as const)
      for (let reviewDays = 1; reviewDays < 40; reviewDays += 1) {
        const terms = { reviewDays, reviewDayKind, holidays };
        expect(reviewDaysUsed('2026-03-28', reviewDue('2026-03-28', terms), terms)).toBe(reviewDays);
      }
  });
});
