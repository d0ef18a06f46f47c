import { weekday } from '../../calendar/civil.js';
import { statementFor } from '../../calendar/patterns.js';
import { readWeekday, weekdayName } from '../../calendar/weekday-names.js';
import { groupBy } from '../runs.js';
import { recordIssueOf, returnIssueOf, type Scene } from '../scene.js';

/** What the film shows around an issue of two dates: the weekday on the paper, its neighbours, and the pattern of the title. */
export function dateEvidence(scene: Scene, recordIssue: number, returnIssue: number): readonly string[] {
  const mine = recordIssueOf(scene, recordIssue);
  const own = mine?.date?.day ?? null;
  const other = returnIssueOf(scene, returnIssue)?.date?.day ?? null;
  if (own === null) return [];
  const evidence: string[] = [];
  const title = scene.record.titles.find((entry) => entry.id === mine?.title);
  const printed =
    mine?.weekdayPrinted == null ? null : readWeekday(mine.weekdayPrinted, title?.language === '' ? undefined : title?.language);
  if (printed !== null)
    evidence.push(
      `The paper says ${weekdayName(printed)}: ${own} was a ${weekdayName(weekday(own))}${other === null ? '' : `, ${other} a ${weekdayName(weekday(other))}`}.`,
    );
  const { before, after } = neighbours(scene, recordIssue);
  if (before !== null || after !== null) {
    const words =
      before === null
        ? `The next issue on the film is of ${after ?? ''}`
        : after === null
          ? `The issue before it on the film is of ${before}`
          : `On the film it lies between ${before} and ${after}`;
    const between = (day: string): boolean => (before === null || before <= day) && (after === null || day <= after);
    const [fits, otherFits] = [between(own), other !== null && between(other)];
    if (fits === otherFits) evidence.push(`${words}.`);
    else if (fits) evidence.push(`${words}; the record's ${own} fits there${other === null ? '' : `, ${other} does not`}.`);
    else evidence.push(`${words}; the return's ${other ?? '?'} fits there, the record's ${own} does not.`);
  }
  if (title !== undefined && title.patterns.length > 0) {
    if (statementFor(title.patterns, own) === 'not-a-day-of-issue')
      evidence.push(`${own} is not a usual day of issue; the record says so all the same.`);
    else if (other !== null && statementFor(title.patterns, other) === 'not-a-day-of-issue')
      evidence.push(`${other} is not a day on which the title usually came out.`);
  }
  if (mine?.datePrinted != null && other !== null && mine.datePrinted.day === other)
    evidence.push(`${other} is the date on the paper; the record gives ${own} as the real one.`);
  return evidence;
}

/** Dates of the issues of the same title before and after on the film, from the record; null where there is none. */
function neighbours(scene: Scene, recordIssue: number): { before: string | null; after: string | null } {
  const order = filmOrder(scene, recordIssue);
  const at = order.indexOf(recordIssue);
  const day = (index: number | undefined): string | null => (index === undefined ? null : (recordIssueOf(scene, index)?.date?.day ?? null));
  return { before: at > 0 ? day(order[at - 1]) : null, after: day(order[at + 1]) };
}

interface FilmOrder {
  readonly all: readonly number[];
  readonly byTitle: ReadonlyMap<string | null, readonly number[]>;
}

const orders = new WeakMap<Scene, FilmOrder>();

function filmOrderOf(scene: Scene): FilmOrder {
  let order = orders.get(scene);
  if (order === undefined) {
    const frames = scene.record.reels.flatMap((reel) => reel.frames);
    const all = [
      ...new Set(frames.flatMap(({ issue, deliver, retakeOf }) => (issue !== null && deliver && retakeOf === null ? [issue] : []))),
    ];
    order = { all, byTitle: groupBy(all, (issue) => recordIssueOf(scene, issue)?.title ?? null) };
    orders.set(scene, order);
  }
  return order;
}

/** The record's issues in the order in which they lie on the film, without retakes spliced in elsewhere. */
export function issuesOnFilm(scene: Scene): readonly number[] {
  return filmOrderOf(scene).all;
}

/** Those of them that are of the title of an issue. */
export function filmOrder(scene: Scene, recordIssue: number): readonly number[] {
  return filmOrderOf(scene).byTitle.get(recordIssueOf(scene, recordIssue)?.title ?? null) ?? [];
}
