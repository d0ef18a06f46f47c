import type { Film, FilmTitle } from '../film/film.js';
import { expected } from '../film/publish.js';
import type { Capture, PlanIssue, ReturnPlan } from '../plan.js';
import type { WriteProfile } from '../write/index.js';

// What a collation record has that is regular by itself: numbers run on, days follow the pattern, volume and issue number keep step, an issue is in one
// piece and its labels count. The side on which an edit breaks more of this is known by that to be the wrong one. All of it is common practice, no source.

/** One departure from what is regular: the rule, and the document, picture or reel that departs from it. */
interface Break {
  readonly rule: string;
  readonly of: string;
}

/** True where the wrong side departs from what is regular in more places than the right one; what is not there on the wrong side departs from nothing. `byName`: editions are numbered as their names have it. */
export function tells(wrong: ReturnPlan, right: ReturnPlan, titles: readonly FilmTitle[], byName: boolean): boolean {
  const [more, less] = [breaks(wrong, titles, byName), breaks(right, titles, byName)];
  const keys = (list: readonly Break[]): ReadonlySet<string> => new Set(list.map(({ rule, of }) => `${rule} ${of}`));
  const [there, before] = [keys(more), keys(less)];
  const things = new Set([
    ...wrong.issues.map(documentName),
    ...wrong.reels.flatMap(({ captures }) => captures.filter(isPage).map(pageName)),
  ]);
  const added = more.filter(({ rule, of }) => !before.has(`${rule} ${of}`)).length;
  const gone = less.filter(({ rule, of }) => !there.has(`${rule} ${of}`) && things.has(of)).length;
  return added > gone;
}

/** How often the frame numbers of a record do not run on from 1. */
export function brokenNumbers(film: Film): number {
  return film.reels.reduce((sum, { shots }) => sum + breaksIn(shots) + (shots[0]?.exposure === 1 ? 0 : 1), 0);
}

/** How often the numbers that a return shows of frames that follow one another do not run on: what lies in front of them may have been counted too. */
export function brokenNumbersGiven({ reels, targetsListed }: ReturnPlan, layout: WriteProfile): number {
  const isShown = ({ use }: Capture): boolean => isPage({ use }) || layout === 'page-mods' || (use === 'target' && targetsListed);
  const numbers = ({ captures }: ReturnPlan['reels'][number]): readonly Numbered[] =>
    captures.map((capture) => ({
      exposure: isShown(capture) ? Number.parseInt(capture.frame, 10) : null,
      half: /[AB]$/.exec(capture.frame)?.[0] ?? '',
    }));
  return reels.reduce((sum, reel) => sum + breaksIn(numbers(reel)), 0);
}

interface Numbered {
  /** Null for a frame that is not shown. */
  readonly exposure: number | null;
  readonly half: string;
}

function breaksIn(frames: readonly Numbered[]): number {
  return frames.filter((frame, i) => {
    const before = frames[i - 1];
    if (before === undefined || frame.exposure === null || before.exposure === null) return false;
    return frame.half === 'B' ? frame.exposure !== before.exposure || before.half !== 'A' : frame.exposure !== before.exposure + 1;
  }).length;
}

/** How many pages are held back that no other frame shows. */
export function heldForNothing(film: Film): number {
  const shots = film.reels.flatMap((reel) => reel.shots);
  const shown = new Set(shots.map(({ twin }) => twin));
  return shots.filter(({ kind, deliver, twin, picture }) => kind === 'page' && !deliver && twin === null && !shown.has(picture)).length;
}

/** The pictures that a return delivers. */
export function deliveredIn(plan: ReturnPlan): ReadonlySet<number> {
  return new Set(plan.reels.flatMap(({ captures }) => captures.filter(isPage).map(({ picture }) => picture)));
}

/**
 * How often the worse of two takes is delivered, by what the record notes of them: a fault of that one alone, or that the other was filmed to
 * make it good.
 */
export function poorTakes(film: Film, delivered: ReadonlySet<number> = deliveredOf(film)): number {
  const shots = film.reels.flatMap((reel) => reel.shots);
  const byPicture = new Map(shots.map((shot) => [shot.picture, shot]));
  const twins = shots.flatMap((shot) => {
    const twin = byPicture.get(shot.twin ?? -1);
    return twin === undefined ? [] : [[shot, twin] as const];
  });
  return twins.filter(([repeat, first]) => {
    const better = repeat.retakeOf !== null || (first.condition.length > 0 && repeat.condition.length === 0) ? repeat : null;
    const worse = better === repeat ? first : repeat.condition.length > 0 && first.condition.length === 0 ? repeat : null;
    return worse !== null && delivered.has(worse.picture) && !delivered.has(worse === first ? repeat.picture : first.picture);
  }).length;
}

const deliveredOf = (film: Film): ReadonlySet<number> =>
  new Set(film.reels.flatMap(({ shots }) => shots.filter(({ deliver }) => deliver).map(({ picture }) => picture)));

const isPage = ({ use }: Pick<Capture, 'use'>): boolean => use === 'page';
const documentName = ({ source, title, date }: PlanIssue): string => `document ${source ?? `${title} ${date}`}`;
const pageName = ({ picture }: Capture): string => `page ${picture}`;

function breaks(plan: ReturnPlan, titles: readonly FilmTitle[], byName: boolean): readonly Break[] {
  const pages = plan.reels.map((reel) => inNumberOrder(reel.captures.filter(isPage)));
  const inFilmOrder = [...new Set(pages.flat().flatMap(({ issue }) => issue ?? []))].flatMap((i) => plan.issues.slice(i, i + 1));
  const issueOf = ({ issue }: Capture): PlanIssue | undefined => plan.issues[issue ?? -1];
  return [
    ...pages.flatMap((list) => [
      ...comesBack('document in pieces', list, issueOf),
      ...comesBack('title in pieces', list, (page) => issueOf(page)?.title),
      ...twice('number twice', list, ({ frame }) => frame),
      ...list.filter((page, i) => i > 0 && page.reel !== list[i - 1]?.reel).map((page) => at('another reel', pageName(page))),
    ]),
    ...plan.reels.flatMap(({ number, captures }) =>
      captures.some((page) => isPage(page) && page.reel !== number) ? [at('not the reel of its document', number)] : [],
    ),
    ...twice('picture twice', pages.flat(), ({ image }) => image),
    ...plan.issues.flatMap((issue, i) =>
      ofOne(
        pages.flat().filter((page) => page.issue === i),
        issue,
        titles,
      ),
    ),
    ...titles.flatMap((title) =>
      neighbours(
        inFilmOrder.filter((issue) => issue.title === title.id),
        title,
      ),
    ),
    ...plan.issues.filter(({ title }) => !titles.some(({ id }) => id === title)).map((issue) => at('unknown title', documentName(issue))),
    ...editions(plan.issues),
    ...(byName
      ? plan.issues.filter((issue) => isMisnamed(issue, plan.issues)).map((issue) => at('edition of another name', documentName(issue)))
      : []),
  ];
}

const at = (rule: string, of: string): Break => ({ rule, of });

function inNumberOrder(captures: readonly Capture[]): Capture[] {
  const key = ({ frame }: Capture): number => Number.parseInt(frame, 10) * 4 + (frame.endsWith('B') ? 2 : frame.endsWith('A') ? 1 : 0);
  return [...captures].sort((a, b) => key(a) - key(b));
}

/** Pages with which something comes back after another thing stood between. */
function comesBack(rule: string, pages: readonly Capture[], of: (page: Capture) => unknown): Break[] {
  const seen = new Set<unknown>();
  return pages.flatMap((page, i) => {
    const [now, before] = [of(page), i === 0 ? undefined : of(pages[i - 1] as Capture)];
    const again = now !== before && seen.has(now);
    seen.add(now);
    return again ? [at(rule, pageName(page))] : [];
  });
}

function twice(rule: string, pages: readonly Capture[], of: (page: Capture) => unknown): Break[] {
  const seen = new Set<unknown>();
  return pages.flatMap((page) => {
    const again = seen.has(of(page));
    seen.add(of(page));
    return again ? [at(rule, pageName(page))] : [];
  });
}

const numberIn = (text: string | null): number | null => {
  const match = /(\d+)$/.exec(text ?? '');
  return match === null ? null : Number(match[1]);
};
const lettersOf = (text: string | null): string => /^\D*/.exec(text ?? '')?.[0] ?? '';

/** Labels that do not count on, places that are empty or taken twice, sections that come back, pages filmed out of their order, an odd number of pages. */
function ofOne(pages: readonly Capture[], issue: PlanIssue, titles: readonly FilmTitle[]): Break[] {
  if (pages.length === 0) return [];
  const name = documentName(issue);
  const read = [...pages].sort((a, b) => (a.order ?? 0) - (b.order ?? 0));
  const orders = [...read.map(({ order }) => order ?? 0), ...issue.absent.map(({ order }) => order)].sort((a, b) => a - b);
  const places = orders.filter((order, i) => order !== (i === 0 ? 1 : (orders[i - 1] ?? 0) + 1)).map((order) => at(`place ${order}`, name));
  const [first, second] = [numberIn(read[0]?.page ?? null), numberIn(read[1]?.page ?? null)];
  const all = pages.length + issue.absent.length;
  const usual = titles.find(({ id }) => id === issue.title)?.patterns[0]?.usualPages ?? [];
  return [
    ...places,
    ...read.filter((page, i) => !countsOn(page, read[i - 1])).map((page) => at('label', pageName(page))),
    ...read
      .filter(({ page, section }) => /^[A-Za-z]+\d/.test(page ?? '') && lettersOf(page) !== section)
      .map((page) => at('letters of no section', pageName(page))),
    ...((second !== null && second % 4 !== 2) || (first !== null && first % 2 === 0) ? [at('first label', name)] : []),
    ...pages
      .filter((page, i) => i > 0 && (page.order ?? 0) < (pages[i - 1]?.order ?? 0))
      .map((page) => at('filmed out of order', pageName(page))),
    // the other side of a sheet that was published was published too
    ...issue.absent
      .filter(({ order, statement }) => statement === 'not-published' && read.some((page) => (page.order ?? 0) > order))
      .map(({ order }) => at(`place ${order} not published`, name)),
    ...(all % 2 === 1 && usual.length > 0 ? [at('odd number of pages', name)] : []),
    ...comesBack('section in pieces', read, ({ section }) => section),
  ];
}

/** Whether a label is the next one of its section, as far as both are numbers. */
function countsOn(page: Capture, before: Capture | undefined): boolean {
  const [now, last] = [numberIn(page.page), numberIn(before?.page ?? null)];
  if (before === undefined || now === null || last === null || before.section !== page.section) return true;
  return now === last + ((page.order ?? 0) - (before.order ?? 0)) && lettersOf(page.page) === lettersOf(before.page);
}

/** Days off the pattern or out of order, volumes and issue numbers that do not keep step. */
function neighbours(issues: readonly PlanIssue[], title: FilmTitle): Break[] {
  const off = issues.filter(({ date }) => !expected(title, date)).map((issue) => at('day off the pattern', documentName(issue)));
  const steps = issues.flatMap((issue, i): Break[] => {
    const before = issues[i - 1];
    if (before === undefined) return [];
    const name = documentName(issue);
    const [one, two] = [numberIn(before.issueNumber), numberIn(issue.issueNumber)];
    const number = one !== null && two !== null && two !== one + (before.date === issue.date ? 0 : 1);
    const [last, now] = [numberIn(before.volume), numberIn(issue.volume)];
    const years = Number(issue.date.slice(0, 4)) - Number(before.date.slice(0, 4));
    const volume = last !== null && now !== null && now - last !== years;
    return [
      ...(number ? [at('issue number', name)] : []),
      ...(volume ? [at('volume', name)] : []),
      ...(issue.date < before.date ? [at('day before the one before', name)] : []),
    ];
  });
  return [...off, ...steps];
}

/** Of several editions of a day one whose name on the paper is not that of its number. */
function isMisnamed({ title, date, edition, editionLabel }: PlanIssue, issues: readonly PlanIssue[]): boolean {
  const several = issues.filter((other) => other.title === title && other.date === date).length > 1;
  return several && (editionLabel === 'First' ? edition !== 1 : edition === 1 && ['Extra', 'Final'].includes(editionLabel ?? ''));
}

/** Two issues of one title, day and edition; editions of a day of which one before is not there. */
function editions(issues: readonly PlanIssue[]): Break[] {
  const days = new Map<string, PlanIssue[]>();
  for (const issue of issues) {
    const key = `${issue.title} ${issue.date}`;
    days.set(key, [...(days.get(key) ?? []), issue]);
  }
  return [...days.values()].flatMap((list) =>
    [...list]
      .sort((a, b) => a.edition - b.edition)
      .filter(({ edition }, i) => edition !== i + 1)
      .map((issue) => at('edition', documentName(issue))),
  );
}
