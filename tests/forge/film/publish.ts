import { isDay, plusDays, weekdayOf } from './days.js';
import type { FilmIssue, FilmTitle, WantingPage } from './film.js';
import { filmedOutOfOrder, mispaged, type Side, sidesOf, withBlankSide } from './issue-sides.js';
import { weekdayWord } from './names.js';
import type { Random } from './random.js';

/** What can be odd about one issue of the film. */
export type Oddity =
  | 'none'
  | 'date-misprinted'
  | 'number-misprinted'
  | 'mispaged'
  | 'page-wanting'
  | 'duplicate'
  | 'retake'
  | 'retake-at-end'
  | 'filmed-twice'
  | 'void'
  | 'sections'
  | 'supplement-inside'
  | 'supplement-behind'
  | 'extra'
  | 'editions-turned'
  | 'off-day'
  | 'blank-side'
  | 'out-of-order'
  | 'issue-wanting'
  | 'issue-unknown'
  | 'day-omitted';

/** Every oddity a film can have, in the order tried. */
export const ODDITIES: readonly Oddity[] = [
  'date-misprinted',
  'number-misprinted',
  'mispaged',
  'page-wanting',
  'duplicate',
  'retake',
  'retake-at-end',
  'filmed-twice',
  'void',
  'sections',
  'supplement-inside',
  'supplement-behind',
  'extra',
  'editions-turned',
  'off-day',
  'blank-side',
  'out-of-order',
  'issue-wanting',
  'issue-unknown',
  'day-omitted',
];

/** An issue as it went before the camera. */
export interface Published {
  readonly issue: FilmIssue;
  readonly oddity: Oddity;
  /** In filming order, without what is wanting. */
  readonly sides: readonly Side[];
}

/** How a title's run is made. */
export interface Run {
  readonly title: FilmTitle;
  readonly from: string;
  readonly pages: number;
  readonly volume: number;
  readonly number: number;
  /** Running page numbers over the issues where given: the label of the first page. */
  readonly runningFrom: number | null;
  /** Thousandths of the issues that have something odd. */
  readonly oddPerMille: number;
  readonly oddities: readonly Oddity[];
  /** Where an issue came out on another day than usual, the library notes the weekday that it prints. */
  readonly oddDaysNoted: boolean;
}

/** The issues of a title in order of publication, until about `pages` pages are reached. */
export function publish(run: Run, random: Random): Published[] {
  const out: Published[] = [];
  let filmed = 0;
  let number = run.number;
  let label = run.runningFrom ?? 1;
  for (let date = run.from; filmed < run.pages; date = plusDays(date, 1)) {
    if (!expected(run.title, date)) continue;
    const oddity = random.chance(run.oddPerMille) && out.length > 0 ? random.pick(run.oddities) : 'none';
    const volume = String(run.volume + Number(date.slice(0, 4)) - Number(run.from.slice(0, 4)));
    const usual = random.pick(run.title.patterns[0]?.usualPages ?? [4]);
    const pages = oddity === 'sections' || oddity === 'extra' ? Math.max(usual, 8) : usual;
    const one = issueOf(run, { date, volume, number, label, pages, oddity, previous: lastFilmed(out) }, random);
    out.push(...one);
    if (oddity !== 'day-omitted') number += 1;
    if (run.runningFrom !== null && oddity !== 'day-omitted') label += pages;
    for (const each of one) filmed += each.sides.length;
  }
  return out;
}

interface Day {
  readonly date: string;
  readonly volume: string;
  readonly number: number;
  readonly label: number;
  readonly pages: number;
  readonly oddity: Oddity;
  readonly previous: FilmIssue | null;
}

function issueOf(run: Run, day: Day, random: Random): Published[] {
  const { oddity } = day;
  const title = run.title;
  const base: FilmIssue = {
    title: title.id,
    date: day.date,
    datePrinted: null,
    weekdayPrinted: null,
    edition: 1,
    editionLabel: null,
    volume: day.volume,
    issueNumber: String(day.number),
    issueNumberIntended: null,
    status: 'on-film',
    wanting: [],
    pages: day.pages,
  };
  if (oddity === 'issue-wanting' || oddity === 'issue-unknown' || oddity === 'day-omitted') {
    const status = oddity === 'issue-wanting' ? 'wanting' : oddity === 'issue-unknown' ? 'unknown' : 'not-published';
    return [{ issue: { ...base, volume: null, issueNumber: null, status, pages: 0 }, oddity, sides: [] }];
  }
  const layout = {
    pages: day.pages,
    firstLabel: day.label,
    sections: oddity === 'sections',
    supplement:
      oddity === 'supplement-inside' ? ('inside' as const) : oddity === 'supplement-behind' ? ('behind' as const) : ('none' as const),
    frontUnnumbered: title.frontPageUnnumbered,
  };
  const sides = sidesOf(layout);
  const whole = { ...base, pages: sides.length };
  if (oddity === 'extra' || oddity === 'editions-turned') return editions(whole, sides, layout.frontUnnumbered, oddity);
  return [{ ...odd(whole, sides, day, run, random), oddity }];
}

function odd(
  issue: FilmIssue,
  sides: readonly Side[],
  day: Day,
  { title, oddDaysNoted }: Run,
  random: Random,
): { issue: FilmIssue; sides: readonly Side[] } {
  switch (day.oddity) {
    case 'date-misprinted': {
      const datePrinted = misprint(day.date, day.previous, random);
      const real = datePrinted === day.previous?.date ? weekdayOf(datePrinted) : weekdayOf(day.date);
      return { issue: { ...issue, datePrinted, weekdayPrinted: weekdayWord(real, title.language) }, sides };
    }
    case 'number-misprinted':
      return {
        issue: { ...issue, issueNumber: String(day.number + random.pick([-1, 10, 9])), issueNumberIntended: String(day.number) },
        sides,
      };
    case 'mispaged':
      return { issue, sides: mispaged(sides, random) };
    case 'page-wanting': {
      const gone = random.pick(sides.slice(1));
      const published = random.pick(['yes', 'yes', 'unknown'] as const);
      const wanting: WantingPage[] = [{ page: gone.page, section: gone.section, order: gone.order, published }];
      return { issue: { ...issue, wanting }, sides: sides.filter((side) => side !== gone) };
    }
    case 'blank-side':
      return { issue, sides: withBlankSide(sides) };
    case 'out-of-order':
      return { issue, sides: filmedOutOfOrder(sides, random) };
    case 'off-day': {
      const earlier = plusDays(day.date, -1);
      const free = !expected(title, earlier) && earlier !== day.previous?.date;
      // a coordinator notes what is odd: here the weekday, which proves the day
      const weekdayPrinted = oddDaysNoted ? weekdayWord(weekdayOf(earlier), title.language) : null;
      return { issue: free ? { ...issue, date: earlier, weekdayPrinted } : issue, sides };
    }
    default:
      return { issue, sides };
  }
}

/** Two editions of one day; a bound volume may hold the later one first. */
function editions(issue: FilmIssue, sides: readonly Side[], frontUnnumbered: boolean, oddity: Oddity): Published[] {
  const first = { issue: { ...issue, editionLabel: oddity === 'extra' ? null : 'First' }, oddity, sides };
  const extraSides = sidesOf({
    pages: oddity === 'extra' ? 4 : sides.length,
    firstLabel: 1,
    sections: false,
    supplement: 'none',
    frontUnnumbered,
  });
  const label = oddity === 'extra' ? 'Extra' : 'Final';
  const second = { issue: { ...issue, edition: 2, editionLabel: label, pages: extraSides.length }, oddity, sides: extraSides };
  return oddity === 'extra' ? [first, second] : [second, first];
}

/** A date as a tired compositor sets it: last year in January, yesterday's, a wrong digit, a day that does not exist. */
function misprint(date: string, previous: FilmIssue | null, random: Random): string {
  const year = Number(date.slice(0, 4));
  if (date.slice(5, 7) === '01') return `${year - 1}${date.slice(4)}`;
  if (date.slice(5) === '03-01' && !isDay(`${year}-02-29`)) return `${year}-02-29`;
  const swaps: Readonly<Record<string, string>> = {
    '1': '7',
    '3': '8',
    '5': '3',
    '7': '1',
    '8': '3',
    '6': '9',
    '9': '6',
    '0': '9',
    '2': '7',
    '4': '1',
  };
  const misread = `${date.slice(0, 3)}${swaps[date.charAt(3)] ?? '0'}${date.slice(4)}`;
  const choices = [misread, ...(previous === null ? [] : [previous.date])];
  return random.pick(choices);
}

function lastFilmed(list: readonly Published[]): FilmIssue | null {
  return list.findLast((each) => each.sides.length > 0)?.issue ?? null;
}

/** True when the title's pattern has an issue on that day. */
export function expected(title: FilmTitle, date: string): boolean {
  const pattern = title.patterns[0];
  if (pattern === undefined) return false;
  const closed = pattern.omitted ?? [];
  return pattern.days.includes(weekdayOf(date)) && !closed.includes(date.slice(5)) && !closed.includes(date);
}
