import { dayNumber } from '../calendar/civil.js';
import { readDate } from '../calendar/edtf.js';
import { printedDayMeans, readCalendar, type TitleCalendar } from '../calendar/julian.js';
import type { CollationRecord, FrameEntry, PublicationPattern, TitleEntry } from '../model/collation-record.js';
import type { Place, Side } from '../model/film.js';
import { frameKey, labelKey, plainText, readFrameNumber, sectionLabel, titleId, withoutSection } from '../normalise/labels.js';
import { issueKeys } from '../normalise/record-issues.js';
import { patternOf } from './pattern.js';

/** A frame of the record as the regularities look at it. */
export interface Shot {
  readonly entry: FrameEntry;
  readonly reel: string;
  /** Number as it is compared, `12A`; the text itself where it is none. */
  readonly key: string;
  /** Index of its reel, and its place there. */
  readonly reelAt: number;
  readonly at: number;
  readonly issue: string | null;
  readonly isPage: boolean;
  readonly deliver: boolean;
  /** Section and label, as pages of an issue are compared; null for a page without a label. */
  readonly label: string | null;
  readonly place: Place;
}

/** An issue that is on the film, with its certain day. */
export interface RunIssue {
  readonly key: string;
  readonly title: string;
  readonly day: string;
  /** The same day by the Gregorian calendar, by which weekdays are told: another where the title still dates by the Julian one. */
  readonly real: string;
  readonly number: number;
  readonly edition: number;
  /** What the paper calls the edition. */
  readonly editionLabel: string | null;
  readonly combinedWith: string | null;
  readonly shots: readonly Shot[];
  /** The issue number as a count, the right one where the printed one is wrong; null where it is none. */
  readonly count: number | null;
  readonly countText: string | null;
  readonly volume: string | null;
  readonly weekdayPrinted: string | null;
  readonly datePrinted: string | null;
}

/** A whole issue that is recorded as not on the film. */
export interface Missing {
  readonly day: string;
  readonly real: string;
  readonly published: 'yes' | 'no' | 'unknown';
}

/** One title with its issues by day. */
export interface Run {
  readonly id: string;
  readonly name: string;
  readonly language: string;
  readonly calendar: TitleCalendar;
  readonly patterns: readonly PublicationPattern[];
  readonly learned: boolean;
  readonly issues: readonly RunIssue[];
  readonly missing: readonly Missing[];
  /** Issues of which the day is not certain: what is asked of days cannot be asked of them. */
  readonly uncertain: number;
}

/** A record as its regularities are asked of it. */
export interface Facts {
  readonly record: CollationRecord;
  readonly side: Side;
  readonly reels: readonly { readonly number: string; readonly print: boolean; readonly shots: readonly Shot[] }[];
  readonly runs: readonly Run[];
}

/** Brings a record into the form in which its regularities are looked at. */
export function factsOf(record: CollationRecord, side: Side): Facts {
  const only = record.titles.length === 1 ? (record.titles[0]?.id ?? null) : null;
  const keys = issueKeys(record.reels, only);
  const reels = record.reels.map((reel, r) => ({
    number: reel.number,
    print: reel.carrier === 'print',
    shots: reel.frames.map((entry, at) =>
      shotOf(entry, reel.number, [r, at], keys.frames[r]?.[at] ?? null, side.reels[r]?.frames[at]?.place ?? {}),
    ),
  }));
  const byIssue = new Map<string, Shot[]>();
  for (const { shots } of reels)
    for (const shot of shots) {
      if (shot.issue === null) continue;
      const known = byIssue.get(shot.issue);
      if (known === undefined) byIssue.set(shot.issue, [shot]);
      else known.push(shot);
    }
  const issues = [...byIssue].map(([key, shots]) => issueOf(key, shots, only));
  const runs = record.titles.map((title) => runOf(title, issues, side));
  return { record, side, reels, runs };
}

function shotOf(
  entry: FrameEntry,
  reel: string,
  [reelAt, at]: readonly [reelAt: number, at: number],
  issue: string | null,
  place: Place,
): Shot {
  const number = readFrameNumber(entry.frame);
  const isPage = (entry.kind ?? 'page') === 'page';
  const section = sectionLabel(entry.section ?? '');
  const label =
    entry.page === undefined
      ? null
      : `${entry.supplement === true ? 'S ' : ''}${section ?? ''}|${labelKey(withoutSection(entry.page, section))}`;
  return {
    entry,
    reel,
    reelAt,
    key: number === null ? entry.frame : frameKey(number),
    at,
    issue,
    isPage,
    deliver: entry.deliver ?? isPage,
    label,
    place,
  };
}

type Draft = Omit<RunIssue, 'day' | 'real' | 'number'> & { readonly day: string | null };

function issueOf(key: string, shots: readonly Shot[], only: string | null): Draft {
  const first = <K extends keyof FrameEntry>(field: K): FrameEntry[K] | undefined =>
    shots.find(({ entry }) => entry[field] !== undefined)?.entry[field];
  const title = first('title') ?? only ?? '';
  const number = first('issueNumberIntended') ?? first('issueNumber') ?? null;
  const judged = shots.some(({ entry }) => entry.datePrintedJudged === 'unclear');
  const day = readDate(shots[0]?.entry.date ?? '').day;
  return {
    key,
    title: titleId(title) ?? title,
    day: judged ? null : day,
    edition: first('edition') ?? 1,
    editionLabel: first('editionLabel') ?? null,
    combinedWith: first('combinedWith') ?? null,
    shots,
    count: number === null ? null : countOf(number),
    countText: number,
    volume: plainText(first('volume') ?? ''),
    weekdayPrinted: first('weekdayPrinted') ?? null,
    datePrinted: first('datePrinted') ?? null,
  };
}

function countOf(text: string): number | null {
  const digits = /^\D{0,10}?(\d{1,3}(?:[,. ]?\d{3})*|\d{1,7})\D{0,3}$/.exec(text.trim())?.[1]?.replace(/\D/g, '');
  return digits === undefined ? null : Number(digits);
}

function runOf(title: TitleEntry, drafts: readonly Draft[], side: Side): Run {
  const id = titleId(title.id) ?? title.id;
  const own = drafts.filter((draft) => draft.title === id);
  const calendar = readCalendar(title.calendar ?? '') ?? { julianUntil: null };
  const realDay = (day: string): string => printedDayMeans(day, calendar) ?? day;
  const certain = own.flatMap(({ day, ...draft }): readonly RunIssue[] =>
    day === null ? [] : [{ ...draft, day, real: realDay(day), number: dayNumber(realDay(day)) }],
  );
  const issues = inOrder(certain);
  const missing = side.absences.flatMap((absence): readonly Missing[] => {
    const day = absence.date?.day ?? null;
    if (absence.title !== id || day === null || absence.page !== null || absence.order !== null) return [];
    const days = absence.combinedWith === undefined ? [day] : [day, absence.combinedWith];
    return days.map((one) => ({ day: one, real: realDay(one), published: absence.published }));
  });
  const given = title.patterns ?? [];
  const learned = given.length === 0 ? learnedFrom(issues) : null;
  return {
    id,
    name: title.name ?? title.id,
    language: title.language ?? '',
    calendar,
    patterns: learned === null ? given : [learned],
    learned: learned !== null,
    issues,
    missing,
    uncertain: own.length - issues.length + side.absences.filter(({ title: of, date }) => of === id && date?.day == null).length,
  };
}

function inOrder(issues: readonly RunIssue[]): readonly RunIssue[] {
  return issues.toSorted((a, b) => a.number - b.number || a.edition - b.edition);
}

function learnedFrom(issues: readonly RunIssue[]): PublicationPattern | null {
  return patternOf(issues.filter(({ edition }) => edition === 1).map(({ number }) => number));
}

/** The title as if its issues, by their keys, had come out on these days of the Gregorian calendar. What is written stays in `day`. */
export function withDays(run: Run, days: ReadonlyMap<string, string>): Run {
  const issues = inOrder(
    run.issues.map((issue) => {
      const real = days.get(issue.key);
      return real === undefined ? issue : { ...issue, real, number: dayNumber(real) };
    }),
  );
  const pattern = run.learned || run.patterns.length === 0 ? learnedFrom(issues) : null;
  return { ...run, issues, patterns: pattern === null ? run.patterns : [pattern] };
}
