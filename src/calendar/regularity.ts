import type { Weekday } from '../model/collation-record.js';
import { daysInMonth, readDay, weekday } from './civil.js';

/** Whether a rule says that an issue is published or omitted on a day. */
export interface RegularityRule {
  readonly says: 'published' | 'omitted';
  readonly holds: (day: string) => boolean;
}

const DAY_CODES: Readonly<Record<string, Weekday>> = { mo: 'mon', tu: 'tue', we: 'wed', th: 'thu', fr: 'fri', sa: 'sat', su: 'sun' };
/** Longer texts are no pattern. */
const LONGEST = 1000;

/**
 * The rules of regularity patterns as MARC 21 Format for Holdings Data writes them in 853 to 855 $y: `p`, `o` or `c` (published, omitted,
 * combined), `d`, `w`, `m`, `s` or `y` (days, weeks, months, seasons, years) and codes with commas between them; several patterns with `;` or
 * `$y` between. Seasons and years say nothing of days and give no rule. Null for text that is no such pattern.
 */
export function readRegularity(text: string): readonly RegularityRule[] | null {
  if (text.length > LONGEST) return null;
  const patterns = text
    .split(/;|\$y/)
    .map((one) => one.replace(/\s/g, '').toLowerCase())
    .filter((one) => one !== '');
  const rules: RegularityRule[] = [];
  for (const pattern of patterns) {
    const match = /^([poc])([dwmsy])(.+)$/.exec(pattern);
    if (match === null) return null;
    const [, form = '', unit = '', codes = ''] = match;
    const read = rulesOf(form, unit, codes.split(','));
    if (read === null) return null;
    rules.push(...read);
  }
  return rules;
}

function rulesOf(form: string, unit: string, codes: readonly string[]): readonly RegularityRule[] | null {
  if (unit === 's' || unit === 'y') return codes.every((code) => /^\d{2,4}(?:\/\d{2,4})*$/.test(code)) ? [] : null;
  if (form === 'c') return combined(unit, codes);
  const tests = codes.map((code) => testOf(unit, code));
  const whole = tests.flatMap((test) => test ?? []);
  if (whole.length < tests.length) return null;
  const holds = (day: string): boolean => whole.some((test) => test(day));
  if (form === 'o') return [{ says: 'omitted', holds }];
  // A month or week in which something is published names no day: outside of it nothing is.
  const ofDays = unit === 'd' || codes.some((code) => /[a-z]/.test(code));
  return [ofDays ? { says: 'published', holds } : { says: 'omitted', holds: (day) => !holds(day) }];
}

/** Of a combined issue the first day counts; on the others nothing comes out. Combined months say nothing of days. */
function combined(unit: string, codes: readonly string[]): readonly RegularityRule[] | null {
  const parts = codes.map((code) => code.split('/'));
  const tests = parts.map((own) => own.map((code) => testOf(unit, code)));
  if (parts.some((own) => own.length < 2) || tests.flat().includes(null)) return null;
  if (unit === 'm') return [];
  const later = tests.flatMap((own) => own.slice(1).flatMap((test) => test ?? []));
  return [{ says: 'omitted', holds: (day) => later.some((test) => test(day)) }];
}

function testOf(unit: string, code: string): ((day: string) => boolean) | null {
  if (unit === 'd') return dayTest(code);
  if (unit === 'w') return weekTest(code);
  return isNumber(code, 12) ? (day) => day.slice(5, 7) === code : null;
}

/** `mo` a weekday, `15` a day of each month, `0704` a day of the year. */
function dayTest(code: string): ((day: string) => boolean) | null {
  const named = DAY_CODES[code];
  if (named !== undefined) return (day) => weekday(day) === named;
  if (isNumber(code, 31)) return (day) => day.slice(8) === code;
  const match = /^(\d{2})(\d{2})$/.exec(code);
  if (match === null || !isNumber(match[1] ?? '', 12) || !isNumber(match[2] ?? '', 31)) return null;
  return (day) => day.slice(5) === `${match[1] ?? ''}-${match[2] ?? ''}`;
}

/** `01fr` the first Friday of each month, `99sa` the last Saturday, `00th` every Thursday, `1199th` the last Thursday of November, `1102` its second week. */
function weekTest(code: string): ((day: string) => boolean) | null {
  const match = /^(\d{2})?(\d{2})([a-z]{2})?$/.exec(code);
  if (match === null) return null;
  const [, month, week = '', name] = match;
  const named = name === undefined ? undefined : DAY_CODES[name];
  if ((name !== undefined && named === undefined) || (month !== undefined && !isNumber(month, 12)) || !isWeek(week)) return null;
  if (month === undefined && name === undefined) return null;
  return (day) =>
    (month === undefined || day.slice(5, 7) === month) && (named === undefined || weekday(day) === named) && inWeek(day, Number(week));
}

/** Weeks of seven days from the first of the month, 1 to 5, or from its last day, 99, 98, 97; 0 is every week. */
function inWeek(day: string, week: number): boolean {
  const civil = readDay(day);
  if (civil === null) return false;
  if (week === 0) return true;
  if (week <= 5) return Math.ceil(civil.day / 7) === week;
  return 100 - Math.ceil((daysInMonth(civil.year, civil.month) - civil.day + 1) / 7) === week;
}

function isWeek(text: string): boolean {
  const week = Number(text);
  return week <= 5 || week >= 97;
}

function isNumber(text: string, most: number): boolean {
  return /^\d{2}$/.test(text) && Number(text) >= 1 && Number(text) <= most;
}
