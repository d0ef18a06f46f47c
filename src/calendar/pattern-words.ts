import type { PublicationPattern, Weekday } from '../model/collation-record.js';
import { isDay, WEEKDAYS } from './civil.js';
import { frequency } from './frequency.js';
import { readRegularity } from './regularity.js';
import { weekdayName } from './weekday-names.js';

/** An interval of days in front of its weekdays, open where `..` stands (ISO 8601-2, 4.3: an open interval). */
const DATED = /^(\d{4}-\d{2}-\d{2}|\.\.)?\/(\d{4}-\d{2}-\d{2}|\.\.)?[=:\s]\s*(.*)$/;

/** Regularity patterns as MARC 21 853 $y writes them, among other words. */
const MARC = /(?:^|[\s;])(?:\$y)?[poc][dwmsy](?:\d{0,4}[a-z]{2}|\d{2,4})(?:[,/](?:\d{0,4}[a-z]{2}|\d{2,4}))*(?=$|[\s;])/gi;

/**
 * Reads a publication pattern as people write it on one line: weekdays (`mon-sat`, `wed,sat`), a MARC 21 frequency code beside them
 * (`c wed sat`), a regularity pattern of MARC 21 853 $y instead or besides (`pdtu,th,sa`, `mon-sat od1225`), and in front the days between which it holds (`1879-01-01/1880-12-31=wed,sat`). Gives a half sentence that follows the
 * text where it cannot be read.
 */
export function readPatternWords(text: string): PublicationPattern | string {
  const [, from, to, whole = text] = DATED.exec(text.trim()) ?? [];
  const regularity = (whole.match(MARC) ?? []).map((one) => one.replace(/[\s;]|\$y/g, '')).join(';');
  const rest = whole.replace(MARC, ' ');
  const days = new Set<Weekday>(publishedDays(regularity));
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
  if (regularity !== '' && readRegularity(regularity) === null)
    return `holds "${regularity.slice(0, 40)}", which is not a regularity pattern of MARC 21 853 $y, such as pdtu,th,sa`;
  const named = regularity !== '' && readRegularity(regularity)?.some(({ says }) => says === 'published') === true;
  if (days.size === 0 && !named)
    return regularity !== ''
      ? 'says what is left out and not when the title came out; write the weekdays beside it, such as mon-sat od1225'
      : rule === null
        ? 'names no weekday; write days such as mon-sat or wed,sat'
        : `is the code of a paper that came out ${rule.name}, which does not say on which days; write the weekdays, such as mon-sat or wed,sat`;
  const [least, most] = rule?.daysPerWeek ?? [1, 7];
  if (rule !== null && !named && (days.size < least || days.size > most))
    return `says "${rule.name}" by its code ${code ?? ''} and names ${String(days.size)} weekdays; leave the code out, or mend one of the two`;
  return {
    ...span,
    days: WEEKDAYS.filter((day) => days.has(day)),
    ...(code === undefined ? {} : { frequency: code }),
    ...(regularity === '' ? {} : { regularity }),
  };
}

function boundsOf(from: string | undefined, to: string | undefined): Pick<PublicationPattern, 'from' | 'to'> | string {
  const [first, last] = [from, to].map((day) => (day === '..' ? undefined : day));
  for (const day of [first, last]) if (day !== undefined && !isDay(day)) return `names ${day}, which is not a day of the calendar`;
  if (first !== undefined && last !== undefined && first > last) return `ends on ${last}, before it begins on ${first}`;
  return { ...(first === undefined ? {} : { from: first }), ...(last === undefined ? {} : { to: last }) };
}

/** The weekdays on which, by such a pattern, every week has an issue. */
function publishedDays(regularity: string): readonly Weekday[] {
  return regularity
    .toLowerCase()
    .split(';')
    .flatMap((one) => (one.startsWith('pd') ? one.slice(2).split(',') : []))
    .flatMap((code) => WEEKDAYS.find((day) => day.slice(0, 2) === code) ?? []);
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
