import { type DayStatement, statementFor } from '../../calendar/patterns.js';
import type { PublicationPattern } from '../../model/collation-record.js';
import type { Finding } from '../../model/findings.js';
import { needsRuling, stillCounts, worstFirst } from '../words.js';
import type { Filmed } from './around.js';
import { dayOf, type Month, monthFromNumber, monthLength, monthNumber, monthOf } from './civil.js';
import { ofNumber } from './signs.js';

/** What a day of a title's calendar shows. */
export type DayState = 'film' | 'part' | 'wrong' | 'off' | 'wanting' | 'not-published' | 'unknown' | 'silent' | 'return' | 'none';

/** A day with what it shows; `finding` is the id of the first finding about its issue. */
export interface CalendarDay {
  readonly day: string;
  readonly state: DayState;
  /** What else is true of an issue on the film. */
  readonly also: readonly DayState[];
  /** Issues of that day on the film. */
  readonly issues: number;
  readonly finding: string | null;
}

/** A stretch of months without a hole; before it, `without` months that hold nothing were left out. */
export interface CalendarMonth {
  readonly month: Month;
  readonly days: readonly CalendarDay[];
  readonly without: number;
}

/** The calendar of one title. */
export interface TitleCalendar {
  readonly id: string | null;
  readonly months: readonly CalendarMonth[];
  /** Dates that name no day, such as uncertain ones. */
  readonly undated: readonly string[];
  /** Months beyond the limit. */
  readonly left: number;
}

/** A silence longer than two years is told in a line. */
const LONGEST_SILENCE = 24;
const MOST_MONTHS = 1200;

interface Facts {
  readonly editions: Set<number | null>;
  wrong: string | null;
  part: boolean;
  absent: 'yes' | 'no' | 'unknown' | null;
  returned: boolean;
}

/** True where a finding says that an issue came otherwise than ordered. One about numbers alone says nothing against the issues whose frames it touches. */
const speaksAgainst = (finding: Finding): boolean =>
  !ofNumber(finding) &&
  stillCounts(finding) &&
  finding.severity !== 'note' &&
  finding.cause !== 'film' &&
  finding.cause !== 'collation' &&
  !needsRuling(finding);

/** The days of an issue: a combined one has two. */
const daysOf = ({ date, combinedWith }: { readonly date: string | null; readonly combinedWith?: string }): readonly string[] =>
  [date, combinedWith].flatMap((day) => day ?? []);

/** What is known of every date of every title. */
function factsByTitle({ result }: Filmed): ReadonlyMap<string | null, ReadonlyMap<string, Facts>> {
  const titles = new Map<string | null, Map<string, Facts>>(result.titles.map((title) => [title.id, new Map<string, Facts>()]));
  const at = (title: string | null, date: string): Facts => {
    const dates = titles.get(title) ?? new Map<string, Facts>();
    titles.set(title, dates);
    const facts = dates.get(date) ?? { editions: new Set(), wrong: null, part: false, absent: null, returned: false };
    dates.set(date, facts);
    return facts;
  };
  const against = new Map(worstFirst(result.findings.filter(speaksAgainst)).map((finding) => [finding.id, finding]));
  for (const frame of result.reels.flatMap((reel) => reel.frames)) {
    for (const day of daysOf(frame)) {
      const facts = at(frame.title, day);
      if (frame.state === 'return-only') facts.returned = true;
      else if (frame.deliver) facts.editions.add(frame.edition);
      facts.wrong ??= frame.findings.find((id) => against.has(id)) ?? null;
    }
  }
  for (const absence of result.reels.flatMap((reel) => reel.absent)) {
    for (const day of daysOf(absence)) {
      const facts = at(absence.title, day);
      if (absence.page === null) facts.absent = absence.published;
      else facts.part = true;
    }
  }
  for (const finding of against.values()) {
    const facts = finding.date === null ? undefined : titles.get(finding.title)?.get(finding.date);
    if (facts !== undefined) facts.wrong ??= finding.id;
  }
  return titles;
}

/** What a day shows, the heaviest first. */
function statesOf(facts: Facts | undefined, expected: DayStatement, within: boolean): readonly DayState[] {
  if (facts !== undefined && facts.editions.size > 0) {
    const found: DayState[] = [];
    if (facts.wrong !== null) found.push('wrong');
    if (facts.part) found.push('part');
    if (expected === 'not-a-day-of-issue' || expected === 'omitted') found.push('off');
    return found.length === 0 ? ['film'] : found;
  }
  if (facts?.absent === 'yes') return ['wanting'];
  if (facts?.absent === 'no') return ['not-published'];
  if (facts?.absent === 'unknown') return ['unknown'];
  if (facts?.returned === true) return ['return'];
  return expected === 'expected' && within ? ['silent'] : ['none'];
}

function calendarOf(id: string | null, dates: ReadonlyMap<string, Facts>, patterns: readonly PublicationPattern[]): TitleCalendar {
  const days = [...dates.keys()].filter((date) => monthOf(date) !== null).sort();
  const ofRecord = days.filter((day) => (dates.get(day)?.editions.size ?? 0) > 0 || dates.get(day)?.absent !== null);
  const [first, last] = [ofRecord[0] ?? '', ofRecord.at(-1) ?? ''];
  const used = [...new Set(days.flatMap((day) => monthOf(day) ?? []).map(monthNumber))];
  const months: CalendarMonth[] = [];
  let before: number | null = null;
  let left = 0;
  for (const number of used) {
    const silence: number = before === null ? 0 : number - before - 1;
    const without: number = silence > LONGEST_SILENCE ? silence : 0;
    for (let n: number = without > 0 || before === null ? number : before + 1; n <= number; n++) {
      if (months.length >= MOST_MONTHS) {
        left++;
        continue;
      }
      const month = monthFromNumber(n);
      const written = Array.from({ length: monthLength(month) }, (_, index): CalendarDay => {
        const day = dayOf(month, index + 1);
        const facts = dates.get(day);
        const expected = statementFor(patterns, day);
        const [state = 'none', ...also] = statesOf(facts, expected, first <= day && day <= last);
        return { day, state, also, issues: facts?.editions.size ?? 0, finding: state === 'wrong' ? (facts?.wrong ?? null) : null };
      });
      months.push({ month, days: written, without: n === number ? without : 0 });
    }
    before = number;
  }
  return { id, months, undated: [...dates.keys()].filter((date) => monthOf(date) === null).sort(), left };
}

/** The calendars of all titles that have a date, in the order of the result. */
export function calendars(whole: Filmed): readonly TitleCalendar[] {
  return [...factsByTitle(whole)]
    .filter(([, dates]) => dates.size > 0)
    .map(([id, dates]) => calendarOf(id, dates, whole.result.titles.find((title) => title.id === id)?.patterns ?? []));
}
