import type { PublicationPattern, Weekday } from '../model/collation-record.js';
import { isDay, WEEKDAYS } from './civil.js';
import { frequency } from './frequency.js';
import { weekdayName } from './weekday-names.js';

/** An interval of days in front of its weekdays, open where `..` stands (ISO 8601-2, 4.3: an open interval). */
const DATED = /^(\d{4}-\d{2}-\d{2}|\.\.)?\/(\d{4}-\d{2}-\d{2}|\.\.)?[=:\s]\s*(.*)$/;

/**
 * Reads a publication pattern as people write it on one line: weekdays (`mon-sat`, `wed,sat`), a MARC 21 frequency code beside them
 * (`c wed sat`), and in front the days between which it holds (`1879-01-01/1880-12-31=wed,sat`). Gives a half sentence that follows the
 * text where it cannot be read.
 */
export function readPatternWords(text: string): PublicationPattern | string {
  const [, from, to, rest = text] = DATED.exec(text.trim()) ?? [];
  const days = new Set<Weekday>();
  let code: string | undefined;
  for (const word of rest.toLowerCase().split(/[\s,;]+/)) {
    if (word === '') continue;
    const named = daysOf(word);
    if (named !== null) for (const day of named) days.add(day);
    else if (code === undefined && word.length === 1 && frequency(word) !== null) code = word;
    else return `holds "${word.slice(0, 40)}", which is not a weekday; write days such as mon-sat or wed,sat`;
  }
  const span = boundsOf(from, to);
  if (typeof span === 'string') return span;
  const rule = code === undefined ? null : frequency(code);
  if (days.size === 0)
    return rule === null
      ? 'names no weekday; write days such as mon-sat or wed,sat'
      : `is the code of a paper that came out ${rule.name}, which does not say on which days; write the weekdays, such as mon-sat or wed,sat`;
  const [least, most] = rule?.daysPerWeek ?? [1, 7];
  if (rule !== null && (days.size < least || days.size > most))
    return `says "${rule.name}" by its code ${code ?? ''} and names ${String(days.size)} weekdays; leave the code out, or mend one of the two`;
  return { ...span, days: WEEKDAYS.filter((day) => days.has(day)), ...(code === undefined ? {} : { frequency: code }) };
}

function boundsOf(from: string | undefined, to: string | undefined): Pick<PublicationPattern, 'from' | 'to'> | string {
  const [first, last] = [from, to].map((day) => (day === '..' ? undefined : day));
  for (const day of [first, last]) if (day !== undefined && !isDay(day)) return `names ${day}, which is not a day of the calendar`;
  if (first !== undefined && last !== undefined && first > last) return `ends on ${last}, before it begins on ${first}`;
  return { ...(first === undefined ? {} : { from: first }), ...(last === undefined ? {} : { to: last }) };
}

/** The weekdays that one word names: `sat`, `saturday`, `mon-fri`, `sat-mon`. Null for any other word. */
function daysOf(word: string): readonly Weekday[] | null {
  const [first = '', last = first, ...more] = word.split(/[-\u2013]/);
  const [from, to] = [dayOf(first), dayOf(last)];
  if (from < 0 || to < 0 || more.length > 0) return null;
  const length = ((to - from + 7) % 7) + 1;
  return Array.from({ length }, (_, at) => WEEKDAYS[(from + at) % 7] ?? 'mon');
}

function dayOf(word: string): number {
  return WEEKDAYS.findIndex((day) => word.length >= 3 && weekdayName(day).toLowerCase().startsWith(word));
}
