import { daysBetween, weekday } from '../../calendar/civil.js';
import { isMisnamed } from '../../calendar/edition-names.js';
import { inFigures } from '../../calendar/figures.js';
import { statementFor } from '../../calendar/patterns.js';
import { readWeekday } from '../../calendar/weekday-names.js';
import type { Issue } from '../../model/film.js';
import type { Scene } from '../scene.js';

/**
 * What is regular about a record by itself, and what it costs to break it. Only the difference between two readings of the same places means
 * anything. All of it is common practice, no source: days follow one another and the pattern, numbers run on, a volume lasts, editions are
 * counted from 1, pages from 1 in each issue or section, a title fills a run of the film.
 */
export type Rule =
  | 'weekday'
  | 'days'
  | 'pattern'
  | 'printed'
  | 'as-printed'
  | 'noted'
  | 'numbers'
  | 'skips'
  | 'volumes'
  | 'editions'
  | 'named'
  | 'titles'
  | 'labels'
  | 'places'
  | 'sections'
  | 'letters'
  | 'recto'
  | 'sheets'
  | 'frames'
  | 'takes';

/** How each rule is named in a sentence, and what breaking it once costs. */
export const RULES: Readonly<Record<Rule, { readonly says: string; readonly cost: number }>> = {
  weekday: { says: 'the weekday on the paper fits the date', cost: 6 },
  days: { says: 'the days follow one another on the film', cost: 5 },
  pattern: { says: 'the title comes out on its usual days', cost: 2 },
  printed: { says: 'what the record notes as misprinted on the paper is not the right reading', cost: 6 },
  'as-printed': { says: 'what is misprinted on the paper is given as it stands there', cost: 6 },
  noted: { says: 'what the record notes from the paper itself was looked at', cost: 3 },
  numbers: { says: 'the issue numbers run on', cost: 4 },
  skips: { says: 'no issue number is skipped but for issues known to be wanting', cost: 3 },
  volumes: { says: 'a volume lasts for many issues and is followed by the next', cost: 4 },
  editions: { says: 'the editions of a day are counted from 1', cost: 6 },
  named: { says: 'an edition has the number that its name on the paper stands for', cost: 4 },
  titles: { says: 'a title known to the record fills a run of the film', cost: 3 },
  labels: { says: 'the page numbers run on', cost: 4 },
  places: { says: 'the pages of an issue are counted from 1 without a gap', cost: 4 },
  sections: { says: 'a section is a run of pages', cost: 4 },
  letters: { says: 'a letter before a page number is that of its section', cost: 4 },
  recto: { says: 'an issue begins on the front of a sheet', cost: 4 },
  sheets: { says: 'an issue is made of whole sheets', cost: 3 },
  frames: { says: 'the frame numbers of the film run on', cost: 4 },
  takes: { says: 'of two takes the one without a noted fault, or the retake, is delivered', cost: 4 },
};

/** What breaks cost together. */
export function costOf(breaks: readonly Rule[]): number {
  return breaks.reduce((sum, rule) => sum + RULES[rule].cost, 0);
}

/** Of two lists of breaks the one that costs less; the first where they cost as much. */
export function cheaper(one: Rule[], two: Rule[]): Rule[] {
  return costOf(two) < costOf(one) ? two : one;
}

/** An issue as one side reads it, in film order. */
export type IssueReading = Pick<
  Issue,
  'title' | 'date' | 'datePrinted' | 'weekdayPrinted' | 'edition' | 'editionLabel' | 'volume' | 'issueNumber' | 'issueNumberIntended'
>;

/**
 * Breaks in what is said of the issues of a reel or more, in film order; `there` are the titles that the record has
 * on this film, `known` those that it describes.
 */
export function breaksOfIssues(scene: Scene, issues: readonly IssueReading[], there: readonly string[], known: readonly string[]): Rule[] {
  // a title that the record has on this film has an issue there
  const found: Rule[] = there.filter((title) => !issues.some((issue) => issue.title === title)).map(() => 'titles');
  const byTitle = new Map<string, IssueReading[]>();
  issues.forEach((issue, at) => {
    const before = issues[at - 1];
    if (before !== undefined && before.title !== issue.title && issues.slice(at + 1).some(({ title }) => title === before.title))
      found.push('titles');
    if (known.length > 0 && !known.includes(issue.title ?? '')) found.push('titles');
    const list = byTitle.get(issue.title ?? '');
    if (list === undefined) byTitle.set(issue.title ?? '', [issue]);
    else list.push(issue);
  });
  return found.concat([...byTitle].flatMap(([id, list]) => breaksOfTitle(scene, id, list)));
}

function breaksOfTitle(scene: Scene, id: string, list: readonly IssueReading[]): Rule[] {
  const title = scene.record.titles.find((entry) => entry.id === id);
  const found: Rule[] = [];
  list.forEach((issue, at) => {
    const day = issue.date?.day ?? null;
    if (day !== null) {
      if (issue.weekdayPrinted !== null && issue.datePrinted === null) {
        const printed = readWeekday(issue.weekdayPrinted, title?.language === '' ? undefined : title?.language);
        if (printed !== null && printed !== weekday(day)) found.push('weekday');
      }
      if (title !== undefined && title.patterns.length > 0 && statementFor(title.patterns, day) === 'not-a-day-of-issue')
        found.push('pattern');
    }
    const before = list[at - 1];
    if (before !== undefined) found.push(...stepsBetween(before, issue, wantingBetween(scene, id, before, issue)));
  });
  if (title === undefined || title.patterns.length === 0) found.push(...offWeekdays(list));
  found.push(...editionsOf(list, scene.policies.editionOrder === 'intended'));
  return found;
}

/** Days on which the title mostly does not come out, as its other issues show. */
function offWeekdays(list: readonly IssueReading[]): Rule[] {
  const days = list.flatMap(({ date }) => (date?.day == null ? [] : [weekday(date.day)]));
  const seldom = (name: string): boolean => days.filter((one) => one === name).length * 8 <= days.length;
  return days.length < 4 ? [] : days.filter(seldom).map(() => 'pattern');
}

/** What breaks from one issue of a title to the next. */
function stepsBetween(before: IssueReading, issue: IssueReading, wanting: number): Rule[] {
  const found: Rule[] = [];
  const [a, b] = [before.date?.day ?? null, issue.date?.day ?? null];
  const gap = a === null || b === null ? null : daysBetween(a, b);
  if (gap !== null && (gap < 0 || gap > 366)) found.push('days');
  if (gap === 0 && (before.edition ?? 1) === (issue.edition ?? 1)) found.push('days');
  const [v, w] = [inFigures(before.volume), inFigures(issue.volume)];
  const volume = v === null || w === null ? null : w - v;
  const years = a === null || b === null ? null : Number(b.slice(0, 4)) - Number(a.slice(0, 4));
  if (volume !== null && volume !== 0 && volume !== 1) found.push('volumes');
  const [n, m] = [numberOf(before), numberOf(issue)];
  if (n !== null && m !== null) {
    const step = m - n;
    const sameDay = gap === 0;
    const begun = m === 1 && volume !== null && volume !== 0;
    // an issue that is not on the film has its number all the same
    const most = gap === null ? 1 : Math.max(1, gap);
    if (!begun && !(sameDay ? step === 0 || step === 1 : step >= 1 && step <= most)) found.push('numbers');
    else if (!begun && step > 1 + wanting) found.push('skips');
  }
  // a volume begins with its first number, or with a year
  if (volume === 1 && n !== null && m !== null && m !== 1 && years === 0) found.push('volumes');
  if (volume === 0 && (years === 1 || (m === 1 && n !== null && n > 1))) found.push('volumes');
  return found;
}

/** How many issues of a title either side knows to be wanting between two of them. */
function wantingBetween({ record, returned }: Scene, id: string, before: IssueReading, issue: IssueReading): number {
  const [from, to] = [before.date?.day ?? null, issue.date?.day ?? null];
  if (from === null || to === null) return 0;
  const days = [...record.absences, ...returned.absences].flatMap(({ title, page, order, date }) =>
    title === id && page === null && order === null && date?.day != null && date.day > from && date.day < to ? [date.day] : [],
  );
  return new Set(days).size;
}

/** The number that runs on: where the record notes a slip of the paper, the one that was meant. */
function numberOf({ issueNumber, issueNumberIntended }: IssueReading): number | null {
  return inFigures(issueNumberIntended ?? issueNumber);
}

/**
 * Days whose editions are not 1, 2, 3 ... on the film, and of days with several editions those that have another number than the one that the name on the
 * paper stands for; where editions are numbered as filmed their names say nothing.
 */
function editionsOf(list: readonly IssueReading[], byName: boolean): Rule[] {
  const byDay = new Map<string, IssueReading[]>();
  for (const issue of list) {
    const day = issue.date?.day ?? null;
    if (day === null) continue;
    const issues = byDay.get(day);
    if (issues === undefined) byDay.set(day, [issue]);
    else issues.push(issue);
  }
  return [...byDay.values()].flatMap((issues): Rule[] => {
    const editions = issues.map(({ edition }) => edition ?? 1);
    const right = new Set(editions).size === editions.length && Math.max(...editions) === editions.length && Math.min(...editions) === 1;
    const misnamed =
      byName && issues.length > 1 ? issues.filter(({ edition, editionLabel }) => isMisnamed(edition ?? 1, editionLabel)) : [];
    return [...(right ? [] : (['editions'] as const)), ...misnamed.map(() => 'named' as const)];
  });
}
