import type { Film, FilmTitle } from '../film/film.js';
import { expected } from '../film/publish.js';
import type { Capture, PlanIssue, ReturnPlan } from '../plan.js';

// What a collation record has that is regular by itself: numbers run on, days follow the pattern, volume and issue number keep step, an issue is in one
// piece and its labels count. The side on which an edit breaks more of this is known by that to be the wrong one. All of it is common practice, no source.

/** How often a plan departs from what is regular. Only the difference between two plans of one film means anything. */
export function breaks(plan: ReturnPlan, titles: readonly FilmTitle[]): number {
  const pages = plan.reels.map((reel) => inNumberOrder(reel.captures.filter(({ use }) => use === 'page')));
  const all = pages.flat();
  const documents = plan.issues.map((issue, i) => ({ issue, pages: all.filter((capture) => capture.issue === i) }));
  const inFilmOrder = [...new Set(all.flatMap(({ issue }) => issue ?? []))].flatMap((i) => documents.slice(i, i + 1));
  return (
    sum(
      pages,
      (list) => runs(list.map(({ issue }) => issue)) + runs(list.map(({ issue }) => plan.issues[issue ?? -1]?.title)) + numbers(list),
    ) +
    sum(documents, ({ issue, pages: own }) => pagesOfOne(own, issue, titles)) +
    sum(
      titles.map(({ id }) => id),
      (id) =>
        neighbours(
          inFilmOrder.map(({ issue }) => issue).filter(({ title }) => title === id),
          titles,
        ),
    ) +
    sum(plan.issues, (issue) => (titles.some(({ id }) => id === issue.title) ? 0 : 1)) +
    editions(plan.issues) +
    held(plan)
  );
}

/** How often the numbers of a record do not run on. */
export function brokenNumbers(film: Film): number {
  return sum(
    film.reels,
    ({ shots }) =>
      shots.filter((shot, i) => {
        const before = shots[i - 1];
        if (before === undefined) return shot.exposure !== 1;
        return shot.half === 'B' ? shot.exposure !== before.exposure || before.half !== 'A' : shot.exposure !== before.exposure + 1;
      }).length,
  );
}

function sum<T>(list: readonly T[], count: (one: T) => number): number {
  return list.reduce((total, one) => total + count(one), 0);
}

function inNumberOrder(captures: readonly Capture[]): Capture[] {
  const key = ({ frame }: Capture): number => Number.parseInt(frame, 10) * 4 + (frame.endsWith('B') ? 2 : frame.endsWith('A') ? 1 : 0);
  return [...captures].sort((a, b) => key(a) - key(b));
}

/** How often a value comes back after another one stood between. */
function runs(values: readonly unknown[]): number {
  const changes = values.filter((value, i) => i === 0 || value !== values[i - 1]).length;
  return changes - new Set(values).size;
}

/** Numbers that two pages share, and pages that say they are on another reel than most. */
function numbers(list: readonly Capture[]): number {
  const reels = list.map(({ reel }) => reel);
  return (
    list.length -
    new Set(list.map(({ frame }) => frame)).size +
    Math.max(0, reels.filter((reel, i) => i > 0 && reel !== reels[i - 1]).length)
  );
}

const numberIn = (text: string | null): number | null => {
  const match = /(\d+)$/.exec(text ?? '');
  return match === null ? null : Number(match[1]);
};

/** Labels that do not count on, places that are empty or taken twice, sections that come back, pages filmed out of their order, an unusual number of pages. */
function pagesOfOne(pages: readonly Capture[], issue: PlanIssue, titles: readonly FilmTitle[]): number {
  if (pages.length === 0) return 0;
  const read = [...pages].sort((a, b) => (a.order ?? 0) - (b.order ?? 0));
  const orders = [...read.map(({ order }) => order ?? 0), ...issue.absent.map(({ order }) => order)].sort((a, b) => a - b);
  const gaps = orders.filter((order, i) => order !== (i === 0 ? 1 : (orders[i - 1] ?? 0) + 1)).length;
  const labels = read.filter((page, i) => {
    const before = read[i - 1];
    const [now, last] = [numberIn(page.page), numberIn(before?.page ?? null)];
    if (before === undefined || now === null || last === null || before.section !== page.section) return false;
    return (
      now !== last + ((page.order ?? 0) - (before.order ?? 0)) || /^\D*/.exec(page.page ?? '')?.[0] !== /^\D*/.exec(before.page ?? '')?.[0]
    );
  }).length;
  const second = numberIn(read[1]?.page ?? null);
  const start = second !== null && second !== 2 && second % 4 !== 2 ? 1 : 0;
  const filmed = pages.filter((page, i) => i > 0 && (page.order ?? 0) < (pages[i - 1]?.order ?? 0)).length;
  const usual = titles.find(({ id }) => id === issue.title)?.patterns[0]?.usualPages ?? [];
  const unusual = pages.length + issue.absent.length > 0 && (pages.length + issue.absent.length) % 2 === 1 && usual.length > 0 ? 1 : 0;
  return gaps + labels + start + filmed + unusual + runs(read.map(({ section }) => section));
}

/** Days off the pattern or out of order, volumes and issue numbers that do not keep step. */
function neighbours(issues: readonly PlanIssue[], titles: readonly FilmTitle[]): number {
  const title = titles.find(({ id }) => id === issues[0]?.title);
  return (
    sum(issues, (issue) => (title !== undefined && !expected(title, issue.date) ? 1 : 0)) +
    sum(
      issues.slice(1).map((issue, i) => [issues[i], issue]),
      steps,
    )
  );
}

function steps([before, issue]: readonly (PlanIssue | undefined)[]): number {
  if (before === undefined || issue === undefined) return 0;
  const [one, two] = [numberIn(before.issueNumber), numberIn(issue.issueNumber)];
  const sameDay = before.date === issue.date;
  const number = one !== null && two !== null && two !== one + (sameDay ? 0 : 1) ? 1 : 0;
  const [last, now] = [numberIn(before.volume), numberIn(issue.volume)];
  const years = Number(issue.date.slice(0, 4)) - Number(before.date.slice(0, 4));
  const volume = last !== null && now !== null && now - last !== years ? 1 : 0;
  return number + volume + (issue.date < before.date ? 1 : 0);
}

/** Two issues of one title, day and edition; editions of a day of which one before is not there. */
function editions(issues: readonly PlanIssue[]): number {
  const days = new Map<string, number[]>();
  for (const { title, date, edition } of issues) days.set(`${title} ${date}`, [...(days.get(`${title} ${date}`) ?? []), edition]);
  return sum([...days.values()], (list) => [...list].sort((a, b) => a - b).filter((edition, i) => edition !== i + 1).length);
}

/** Nothing is said of pages that are held back; what shows twice is. */
function held(plan: ReturnPlan): number {
  const images = plan.reels.flatMap(({ captures }) => captures.filter(({ use }) => use === 'page').map(({ image }) => image));
  return images.length - new Set(images).size;
}
