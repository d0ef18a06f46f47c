import { daysBetween, weekday } from '../../calendar/civil.js';
import { statementFor } from '../../calendar/patterns.js';
import { readWeekday, weekdayName } from '../../calendar/weekday-names.js';
import type { PairRef } from '../../model/difference.js';
import type { Cause } from '../../model/findings.js';
import { recordFrame, recordIssueOf, returnIssueOf, type Scene } from '../scene.js';

/** Which side is likelier wrong, and the sentences that speak for it. */
export interface Testimony {
  readonly cause: Cause;
  readonly evidence: readonly string[];
}

/**
 * Weighs two readings of an issue's date. Only what the film itself shows can turn against the record: the weekday on the paper and the
 * place between its neighbours. The publication pattern is told, but never decides: papers did come out on other days.
 */
export function dateTestimony(scene: Scene, recordIssue: number, returnIssue: number): Testimony {
  const mine = recordIssueOf(scene, recordIssue);
  const theirs = returnIssueOf(scene, returnIssue);
  const own = mine?.date?.day ?? null;
  const other = theirs?.date?.day ?? null;
  const evidence: string[] = [];
  if (own === null) return { cause: 'vendor-metadata', evidence };
  let against = 0;
  let support = 0;
  const title = scene.record.titles.find((entry) => entry.id === mine?.title);
  if (mine?.weekdayPrinted != null) {
    const printed = readWeekday(mine.weekdayPrinted, title?.language === '' ? undefined : title?.language);
    if (printed !== null) {
      const fits = weekday(own) === printed;
      const otherFits = other !== null && weekday(other) === printed;
      evidence.push(
        `The paper says ${weekdayName(printed)}: ${own} was a ${weekdayName(weekday(own))}${other === null ? '' : `, ${other} a ${weekdayName(weekday(other))}`}.`,
      );
      if (fits && !otherFits) support += 2;
      // a paper that misprints its date may misprint the weekday with it
      if (!fits && otherFits && mine.datePrinted === null) against += 2;
    }
  }
  const { before, after } = neighbours(scene, recordIssue);
  const between = (day: string): boolean => (before === null || before <= day) && (after === null || day <= after);
  if (before !== null || after !== null) {
    const words =
      before === null
        ? `The next issue on the film is of ${after ?? ''}`
        : after === null
          ? `The issue before it on the film is of ${before}`
          : `On the film it lies between ${before} and ${after}`;
    const fits = between(own);
    const otherFits = other !== null && between(other);
    if (fits && !otherFits) {
      support += 1;
      evidence.push(`${words}; the record's ${own} fits there${other === null ? '' : `, ${other} does not`}.`);
    } else if (!fits && otherFits) {
      against += 1;
      evidence.push(`${words}; the return's ${other} fits there, the record's ${own} does not.`);
    } else if (fits && other !== null && farFrom(own, before, after) && !farFrom(other, before, after)) {
      against += 1;
      evidence.push(`${words}; the return's ${other} is near it, the record's ${own} more than a year away.`);
    } else if (fits) {
      evidence.push(`${words}.`);
    }
  }
  if (title !== undefined && title.patterns.length > 0) {
    if (statementFor(title.patterns, own) === 'not-a-day-of-issue')
      evidence.push(`${own} is no usual day of issue; the record says so all the same.`);
    else if (other !== null && statementFor(title.patterns, other) === 'not-a-day-of-issue')
      evidence.push(`${other} is no day on which the title usually came out.`);
  }
  if (mine?.datePrinted != null && other !== null && mine.datePrinted.day === other) {
    support += 1;
    evidence.push(`${other} is the date on the paper; the record gives ${own} as the real one.`);
  }
  return { cause: against > support ? 'collation' : 'vendor-metadata', evidence };
}

/** True when a day lies more than a year from every neighbour: a reel holds a run of a paper, not two of its issues decades apart. */
function farFrom(day: string, before: string | null, after: string | null): boolean {
  return [before, after].every((neighbour) => neighbour === null || Math.abs(daysBetween(day, neighbour)) > 366);
}

/** Dates of the issues of the same title before and after on the film, from the record; null where there is none. */
function neighbours(scene: Scene, recordIssue: number): { before: string | null; after: string | null } {
  const order = filmOrder(scene, recordIssue);
  const at = order.indexOf(recordIssue);
  const day = (index: number | undefined): string | null => (index === undefined ? null : (recordIssueOf(scene, index)?.date?.day ?? null));
  return { before: at > 0 ? day(order[at - 1]) : null, after: day(order[at + 1]) };
}

const orders = new WeakMap<Scene, Map<string, number[]>>();

/** The issues of the title of an issue, in the order in which they lie on the film. */
export function filmOrder(scene: Scene, recordIssue: number): readonly number[] {
  let byTitle = orders.get(scene);
  if (byTitle === undefined) {
    byTitle = new Map();
    const seen = new Set<number>();
    for (const reel of scene.record.reels) {
      for (const frame of reel.frames) {
        if (frame.issue === null || !frame.deliver || seen.has(frame.issue) || frame.retakeOf !== null) continue;
        seen.add(frame.issue);
        const title = scene.record.issues[frame.issue]?.title ?? '';
        const list = byTitle.get(title);
        if (list === undefined) byTitle.set(title, [frame.issue]);
        else list.push(frame.issue);
      }
    }
    orders.set(scene, byTitle);
  }
  return byTitle.get(recordIssueOf(scene, recordIssue)?.title ?? '') ?? [];
}

/** Weighs two readings of a page label: the record is doubted where its wanted label breaks the run of its neighbours and the return's continues it. */
export function labelTestimony(scene: Scene, ref: PairRef, given: string | null): Testimony {
  const mine = recordFrame(scene, ref);
  if (mine?.issue == null || mine.pagePrinted !== null || mine.pageKey === null || given === null)
    return { cause: 'vendor-metadata', evidence: [] };
  const own = Number(mine.pageKey);
  const other = Number(given);
  if (!Number.isInteger(own) || !Number.isInteger(other) || mine.order === null) return { cause: 'vendor-metadata', evidence: [] };
  const beside = (scene.pairsOfRecordIssue.get(mine.issue) ?? [])
    .map((one) => recordFrame(scene, one))
    .filter(
      (frame) =>
        frame?.deliver === true &&
        frame.order !== null &&
        frame.section === mine.section &&
        Math.abs(frame.order - (mine.order ?? 0)) === 1,
    );
  const expected = beside.flatMap((frame) =>
    frame?.order == null || frame.pageKey === null || !/^\d+$/.test(frame.pageKey)
      ? []
      : [Number(frame.pageKey) + ((mine.order ?? 0) - frame.order)],
  );
  if (expected.length > 0 && expected.every((value) => value === other) && expected.every((value) => value !== own)) {
    return {
      cause: 'collation',
      evidence: [
        `The pages beside it are numbered so that ${given} comes here; the record's ${mine.page ?? ''} breaks the run and is not marked as printed so.`,
      ],
    };
  }
  return { cause: 'vendor-metadata', evidence: [] };
}

/** An edition number is doubted in the record where it names a later edition of a day without an earlier one. */
export function editionTestimony(scene: Scene, recordIssue: number): Testimony {
  const mine = recordIssueOf(scene, recordIssue);
  const edition = mine?.edition ?? 1;
  if (mine === undefined || edition === 1) return { cause: 'vendor-metadata', evidence: [] };
  const lower = scene.record.issues.some(
    (issue) => issue.title === mine.title && issue.date?.text === mine.date?.text && (issue.edition ?? 1) === edition - 1,
  );
  return lower
    ? { cause: 'vendor-metadata', evidence: [`The record has edition ${String(edition - 1)} of that day as well.`] }
    : {
        cause: 'collation',
        evidence: [`The record gives edition ${String(edition)} of that day, but has no edition ${String(edition - 1)}.`],
      };
}
