import { addDays, isDay, weekday } from '../calendar/civil.js';
import { fallsInChange, printedDayMeans } from '../calendar/julian.js';
import { statementFor } from '../calendar/patterns.js';
import { dayInWords, readWeekday, weekdayName } from '../calendar/weekday-names.js';
import { inSeries } from '../normalise/in-series.js';
import { titleId } from '../normalise/labels.js';
import { isImpossibleDay } from '../normalise/sheet-damage.js';
import type { Facts, Run, RunIssue, Shot } from './facts.js';
import { type Irregularity, ofIssue, ofShots, ofTitle } from './item.js';

/** An issue whose day does not fit, and the day that was probably meant where the weekday on the paper or the place on the film shows it. */
interface OddDay {
  readonly issue: RunIssue;
  readonly item: Irregularity;
  readonly meant: Meant | null;
}

/** What the days of the issues do not agree with: the weekday that is printed, the days of the paper, the place on the film. One irregularity for an issue. */
export function irregularDays(facts: Facts): readonly OddDay[] {
  return facts.runs.flatMap((run) => {
    const around = neighboursOnFilm(facts, run);
    const taken = new Set(run.issues.filter(({ edition }) => edition === 1).map(({ day }) => day));
    return run.issues.flatMap((issue): readonly OddDay[] => {
      if (fallsInChange(issue.day, run.calendar)) return [{ issue, item: neverWas(run, issue), meant: null }];
      const printed = issue.weekdayPrinted === null ? null : readWeekday(issue.weekdayPrinted, run.language);
      const clash = printed !== null && printed !== weekday(issue.real) && !saysPrintedDay(issue, printed);
      // A weekday on the paper that fits the day proves that it came out then.
      const proven = printed !== null && printed === weekday(issue.real);
      const off = issue.edition === 1 && !proven && isOff(run, issue.real);
      const [before, after] = around.get(issue.key) ?? [null, null];
      const jumps = before !== null && after !== null && before <= after && (issue.day < before || issue.day > after);
      if (!clash && !off && !jumps) return [];
      const evidence = [
        ...(clash
          ? [
              `${issue.day} was a ${weekdayName(weekday(issue.real))}${issue.real === issue.day ? '' : ` by the Julian calendar, by which the title is dated`}; the paper prints "${issue.weekdayPrinted ?? ''}".`,
            ]
          : []),
        ...(off ? [`The paper came out on ${daysInWords(run)}${run.learned ? ', as its issues show' : ''}.`] : []),
        ...(jumps ? [`On the film it lies between the issues of ${before} and ${after}.`] : []),
      ];
      const meant = likelyDay(run, issue, { printed: clash ? printed : null, before, after, taken });
      // A paper may well come out a day early; nothing but its own habit speaks against it.
      const likely =
        meant === null
          ? null
          : clash || jumps
            ? `${meant.words} was probably meant.`
            : `It came out on another day than usual, or ${meant.words} was meant.`;
      const says = clash
        ? `The issue of ${issue.day} prints a weekday that this day was not.`
        : jumps
          ? `The issue of ${issue.day} does not lie on the film where its day belongs.`
          : `The issue of ${wordsOf(issue.day, issue.real)} is dated on a day on which the paper did not usually come out.`;
      const item = ofIssue(issue, { code: clash ? 'weekday-clash' : 'date-off-pattern', says, likely, evidence });
      return [{ issue, item, meant: clash || jumps ? meant : null }];
    });
  });
}

/** Issues and absences that are dated on a day that the calendar does not have. */
export function impossibleDays(facts: Facts): readonly Irregularity[] {
  const byIssue = new Map<string, Shot[]>();
  for (const { shots } of facts.reels)
    for (const shot of shots)
      if (shot.issue !== null && isImpossibleDay(shot.entry.date ?? ''))
        byIssue.set(shot.issue, [...(byIssue.get(shot.issue) ?? []), shot]);
  const onFilm = [...byIssue.values()].flatMap((shots) => {
    const day = shots[0]?.entry.date ?? '';
    const title = shots[0]?.entry.title ?? facts.runs[0]?.id ?? '';
    const run = facts.runs.find(({ id }) => id === (titleId(title) ?? title));
    const [before, after] = daysAround(facts, shots);
    const taken = new Set(run?.issues.map((issue) => issue.day));
    const meant = run === undefined ? null : likelyDay(run, { day }, { printed: null, before, after, taken });
    return ofShots(
      shots,
      { title: run?.id ?? title, day, edition: shots[0]?.entry.edition ?? 1 },
      {
        code: 'date-impossible',
        says: `The issue of ${day} is dated on a day that never was.`,
        likely: meant === null ? 'Look at the date on the paper.' : `${meant.words} was probably meant.`,
        evidence: before === null || after === null ? [] : [`On the film it lies between the issues of ${before} and ${after}.`],
      },
    );
  });
  const absent = facts.runs.flatMap((run) =>
    facts.side.absences.flatMap(({ title, date }): readonly Irregularity[] =>
      title === run.id && isImpossibleDay(date?.text ?? '')
        ? [
            ofTitle({ ...run, issues: [] }, [date?.text ?? ''], {
              code: 'date-impossible',
              says: `What is recorded as absent on ${date?.text ?? ''} is dated on a day that never was.`,
              likely: 'Look at the issues around.',
            }),
          ]
        : [],
    ),
  );
  return [...onFilm, ...absent];
}

/** The certain days of the issues of the same title in front of these frames and behind them on the reel. */
function daysAround({ reels }: Facts, own: readonly Shot[]): readonly [string | null, string | null] {
  const [first, last] = [own[0], own.at(-1)];
  if (first === undefined || last === undefined) return [null, null];
  const shots = (reels[first.reelAt]?.shots ?? []).filter(
    ({ entry, deliver }) => deliver && entry.title === first.entry.title && isDay(entry.date ?? ''),
  );
  return [shots.findLast(({ at }) => at < first.at)?.entry.date ?? null, shots.find(({ at }) => at > last.at)?.entry.date ?? null];
}

/** A day that the change of the calendar left out. */
function neverWas({ calendar }: Run, issue: RunIssue): Irregularity {
  return ofIssue(issue, {
    code: 'date-impossible',
    says: `The issue of ${issue.day} is dated on a day that never was.`,
    likely: 'Look at the date on the paper, and at the day of the change.',
    evidence: [
      `The title is dated by the Julian calendar until ${calendar.julianUntil ?? ''}; the next day was ${addDays(printedDayMeans(calendar.julianUntil ?? '', calendar) ?? '', 1)}.`,
    ],
  });
}

/** The weekdays of a title in words. */
export function daysInWords({ patterns }: Run): string {
  const days = [...new Set(patterns.flatMap(({ days: own }) => own))].map(weekdayName);
  return days.length === 0 ? 'no fixed day' : inSeries(days);
}

/** The printed weekday is that of the printed day, where the paper is wrong throughout. */
function saysPrintedDay({ datePrinted }: RunIssue, printed: string): boolean {
  return datePrinted !== null && isDay(datePrinted) && weekday(datePrinted) === printed;
}

function isOff({ patterns }: Run, day: string): boolean {
  const says = statementFor(patterns, day);
  return says === 'not-a-day-of-issue' || says === 'omitted';
}

/** The days of the issues in front of and behind each issue, in the order in which they first lie on the film. */
function neighboursOnFilm(facts: Facts, run: Run): ReadonlyMap<string, readonly [string | null, string | null]> {
  const byKey = new Map(run.issues.map((issue) => [issue.key, issue]));
  const found = new Map<string, readonly [string | null, string | null]>();
  for (const { shots } of facts.reels) {
    const seen = new Set<RunIssue>();
    for (const { issue, entry, deliver } of shots) {
      const one = issue === null ? undefined : byKey.get(issue);
      // What was filmed again elsewhere says nothing of the order.
      if (one !== undefined && deliver && entry.retakeOf === undefined && entry.duplicateOf === undefined) seen.add(one);
    }
    const order = [...seen];
    for (const [at, { key }] of order.entries())
      if (!found.has(key)) found.set(key, [order[at - 1]?.day ?? null, order[at + 1]?.day ?? null]);
  }
  return found;
}

interface Witnesses {
  readonly printed: string | null;
  readonly before: string | null;
  readonly after: string | null;
  readonly taken: ReadonlySet<string>;
}

/** A day that was probably meant, by the Gregorian calendar and in words. */
interface Meant {
  readonly real: string;
  readonly words: string;
}

/** The day that was probably meant: a slip of the pen away, on a day of the paper, where the film and the weekday have it. Null where none or several fit as well. */
function likelyDay(run: Run, issue: Pick<RunIssue, 'day'>, { printed, before, after, taken }: Witnesses): Meant | null {
  const scored = slips(issue.day)
    .filter((day) => !taken.has(day))
    .map((day) => {
      const real = printedDayMeans(day, run.calendar) ?? day;
      const on = statementFor(run.patterns, real) === 'expected';
      const there = (before === null || day >= before) && (after === null || day <= after);
      const weekdayFits = printed === null || weekday(real) === printed;
      const score = (on ? 1 : 0) + (there && (before !== null || after !== null) ? 2 : 0) + (weekdayFits && printed !== null ? 2 : 0);
      return { day, real, score, fits: (run.patterns.length === 0 || on) && there && weekdayFits };
    })
    .filter(({ fits }) => fits)
    .toSorted((a, b) => b.score - a.score);
  const [best, second] = scored;
  if (best === undefined || (second !== undefined && second.score === best.score)) return null;
  return { real: best.real, words: wordsOf(best.day, best.real) };
}

/** A day in words; one of the Julian calendar with what it is by the Gregorian one, whose weekdays we count. */
function wordsOf(day: string, real: string): string {
  return day === real ? dayInWords(day) : `${day} (${dayInWords(real)} by the Gregorian calendar)`;
}

const CONFUSED: Readonly<Record<string, string>> = {
  '0': '69',
  '1': '7',
  '2': '7',
  '3': '85',
  '4': '1',
  '5': '36',
  '6': '059',
  '7': '12',
  '8': '3',
  '9': '640',
};

/** Days that are written nearly like this one: another year, month or day beside it, a digit misread, day and month exchanged. */
function slips(day: string): readonly string[] {
  const [year = '', month = '', date = ''] = day.split('-');
  const part = (n: number): string => String(n).padStart(2, '0');
  const made = [
    ...[1, -1, 10, -10].map((by) => `${String(Number(year) + by)}-${month}-${date}`),
    ...[1, -1].map((by) => `${year}-${part(Number(month) + by)}-${date}`),
    ...[1, -1, 7, -7, 10, -10].map((by) => `${year}-${month}-${part(Number(date) + by)}`),
    `${year}-${date}-${month}`,
    ...Array.from(day).flatMap((digit, at) =>
      Array.from(CONFUSED[digit] ?? '').map((other) => `${day.slice(0, at)}${other}${day.slice(at + 1)}`),
    ),
  ];
  return [...new Set(made)].filter((one) => isDay(one) && one !== day);
}
