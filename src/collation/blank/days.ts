import { addDays, weekday } from '../../calendar/civil.js';
import { readDate } from '../../calendar/edtf.js';
import { expectedDays } from '../../calendar/patterns.js';
import type { BlankDay, BlankDayState } from '../../model/blank-record.js';
import type { CollationRecord } from '../../model/collation-record.js';
import { titleId } from '../../normalise/labels.js';
import type { BlankWish } from './wish.js';

/** What an earlier record says of the days of a title; empty without one. */
export function earlierDays({ old, title, patterns }: Pick<BlankWish, 'old' | 'title' | 'patterns'>): ReadonlyMap<string, BlankDayState> {
  const states = new Map<string, BlankDayState>();
  if (old === null) return states;
  const key = titleId(title);
  const only = old.titles.length === 1 ? old.titles[0]?.id : undefined;
  const isOurs = (entry: { readonly title?: string }): boolean => titleId(entry.title ?? only ?? '') === key;
  const absences = old.reels.flatMap(({ absent }) => absent ?? []).filter(isOurs);
  for (const { date, combinedWith, dateTo, page, order, published } of absences) {
    // A page that is missing from an issue says that the issue is there, unless nothing else does.
    const state = STATES[published ?? 'unknown'];
    for (const day of daysOf(date, combinedWith, gap(dateTo, patterns)))
      if (!states.has(day) || (page ?? order) === undefined) states.set(day, state);
  }
  for (const frame of framesOf(old).filter(isOurs)) for (const day of daysOf(frame.date, frame.combinedWith)) states.set(day, 'film');
  return states;
}

const STATES: Readonly<Record<'yes' | 'no' | 'unknown', BlankDayState>> = { yes: 'wanting', no: 'not-published', unknown: 'unknown' };

/** The first and the last certain day of a title in a record; null where it has none. */
export function spanOf(old: CollationRecord, title: string): readonly [string, string] | null {
  const days = [...earlierDays({ old, title, patterns: [] }).keys()].toSorted();
  const [first, last] = [days[0], days.at(-1)];
  return first === undefined || last === undefined ? null : [first, last];
}

/** Every day of the span: whether an issue is expected, and what is known of it. */
export function calendarDays({ patterns, from, to }: BlankWish, known: ReadonlyMap<string, BlankDayState>): readonly BlankDay[] {
  const expected = new Set(expectedDays(patterns, from, to));
  const days: BlankDay[] = [];
  for (let day = from; day <= to; day = addDays(day, 1))
    days.push({
      day,
      weekday: weekday(day),
      expected: expected.has(day),
      state: known.get(day) ?? (expected.has(day) ? 'open' : null),
    });
  return days;
}

function framesOf(record: CollationRecord): CollationRecord['reels'][number]['frames'] {
  return record.reels.flatMap(({ frames }) => frames).filter(({ kind }) => (kind ?? 'page') === 'page');
}

/** The certain days of an issue or a gap: the first, the second of a combined issue, and what `more` gives behind the first. */
function daysOf(date: string | undefined, second: string | undefined, more?: (first: string) => readonly string[]): readonly string[] {
  const first = readDate(date ?? '').day;
  if (first === null) return [];
  const other = readDate(second ?? '').day;
  return [first, ...(more?.(first) ?? []), ...(other === null ? [] : [other])];
}

/** A gap takes in every expected day up to its last; where no pattern is known, the last alone. */
function gap(to: string | undefined, patterns: BlankWish['patterns']): (first: string) => readonly string[] {
  const last = readDate(to ?? '').day;
  return (first) => (last === null ? [] : patterns.length === 0 ? [last] : expectedDays(patterns, first, last));
}
