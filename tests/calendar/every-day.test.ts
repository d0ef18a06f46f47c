import { CalendarGregorian, CalendarJulian } from 'astronomia/julian';
import { describe, expect, it } from 'vitest';
import { dayNumber, fromDayNumber, weekdayOfNumber, writeDay } from '../../src/calendar/civil.js';
import { julianToGregorian, printedDayMeans, readCalendar } from '../../src/calendar/julian.js';

// astronomia, an independent library after J. Meeus, Astronomical Algorithms (2nd edition, 1998), chapter 7: the Julian day of 1970-01-01 is 2440587.5.
const EPOCH = 2440587.5;
const NAMES = ['sun', 'mon', 'tue', 'wed', 'thu', 'fri', 'sat'];
const FIRST = dayNumber('1600-01-01');
const LAST = dayNumber('2000-12-31');

/** What differs over every day of four centuries; the first few are enough to see. */
function differing(differs: (number: number) => string | null): readonly string[] {
  const found: string[] = [];
  for (let number = FIRST; number <= LAST && found.length < 5; number += 1) {
    const one = differs(number);
    if (one !== null) found.push(one);
  }
  return found;
}

describe('every day from 1600 to 2000', () => {
  it('has the date and the weekday that an independent library gives it', () => {
    expect(LAST - FIRST + 1).toBe(401 * 365 + 98);
    expect(
      differing((number) => {
        const theirs = new CalendarGregorian().fromJD(EPOCH + number);
        const ours = `${fromDayNumber(number)} ${weekdayOfNumber(number)}`;
        const right = `${writeDay(theirs)} ${NAMES[theirs.dayOfWeek()] ?? ''}`;
        return ours === right ? null : `${ours}, not ${right}`;
      }),
    ).toEqual([]);
  });

  it('is reached from its day of the Julian calendar', () => {
    expect(
      differing((number) => {
        const julian = writeDay(new CalendarJulian().fromJD(EPOCH + number));
        return julianToGregorian(julian) === fromDayNumber(number) ? null : `${julian}: ${String(julianToGregorian(julian))}`;
      }),
    ).toEqual([]);
  });

  it('is Julian up to the last day of a title that is dated so, and Gregorian behind it', () => {
    const calendar = readCalendar('julian-until 1918-01-31')!;
    expect(
      differing((number) => {
        const julian = writeDay(new CalendarJulian().fromJD(EPOCH + number));
        const gregorian = fromDayNumber(number);
        const ours = julian <= '1918-01-31' ? printedDayMeans(julian, calendar) : printedDayMeans(gregorian, calendar);
        return ours === gregorian ? null : `${julian} / ${gregorian}: ${String(ours)}`;
      }),
    ).toEqual([]);
  });
});
