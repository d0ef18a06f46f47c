import type { Terms } from '../model/agreement.js';
import { dayNumber, fromDayNumber, weekdayOfNumber } from './civil.js';

/** The last day of review: the day after `received` (`YYYY-MM-DD`) is day 1. Working days are Monday to Friday without the holidays of the terms. */
export function reviewDue(received: string, terms: Pick<Terms, 'reviewDays' | 'reviewDayKind' | 'holidays'>): string {
  const { reviewDays, reviewDayKind, holidays } = terms;
  if (!Number.isSafeInteger(reviewDays) || reviewDays < 0) throw new RangeError(`${reviewDays} is not a number of days`);
  let number = dayNumber(received);
  if (reviewDayKind === 'calendar') return fromDayNumber(number + reviewDays);
  const closed = new Set(holidays);
  for (let left = reviewDays; left > 0; ) {
    number += 1;
    if (isWorkingDay(number, closed)) left -= 1;
  }
  return fromDayNumber(number);
}

function isWorkingDay(number: number, closed: ReadonlySet<string>): boolean {
  const on = weekdayOfNumber(number);
  return on !== 'sat' && on !== 'sun' && !closed.has(fromDayNumber(number));
}

/** How many days of the review were used up on `on`: the day after `received` is day 1, and only days that count are counted. 0 on the day of receipt and before. */
export function reviewDaysUsed(received: string, on: string, terms: Pick<Terms, 'reviewDayKind' | 'holidays'>): number {
  const [from, to] = [dayNumber(received), dayNumber(on)];
  if (terms.reviewDayKind === 'calendar') return Math.max(0, to - from);
  const closed = new Set(terms.holidays);
  let used = 0;
  for (let number = from + 1; number <= to; number += 1) if (isWorkingDay(number, closed)) used += 1;
  return used;
}
