import type { ReturnRef } from '../model/alignment.js';
import type { Frame, Issue, Reel, Side } from '../model/film.js';
import { frameOf } from './sequences.js';

/** A stretch of the film that is read as one: a page with its place in the issue, and what lies behind it up to the next such page. */
interface Stretch {
  readonly frames: number[];
  /** Where the issue begins on the film; what lies before the first page begins before everything. */
  readonly issue: number;
  readonly order: number;
}

/** Frames of the record in reading order: issues as they begin on the film, their pages by order. What has no order stays behind the page before it. */
export function filmInReadingOrder(reel: Reel): number[] {
  const begins = issueStarts(reel);
  const stretches: Stretch[] = [{ frames: [], issue: -1, order: 0 }];
  reel.frames.forEach((frame, at) => {
    const last = stretches.at(-1);
    const placed = frame.kind === 'page' && frame.deliver && frame.issue !== null;
    if (!placed && last !== undefined) last.frames.push(at);
    else
      stretches.push({
        frames: [at],
        issue: begins.get(frame.issue ?? -1) ?? at,
        order: frame.order ?? lastOrder(stretches, begins, frame),
      });
  });
  return sorted(stretches, (a, b) => a.issue - b.issue || a.order - b.order).flatMap(({ frames }) => frames);
}

/** Pages of the return in reading order: documents as their issues begin on the film of the record, pages by order where each has its own. */
export function pagesInReadingOrder(refs: readonly ReturnRef[], reel: Reel, record: Side, returned: Side): ReturnRef[] {
  const documents = new Map<number | null, ReturnRef[]>();
  for (const ref of refs) {
    const { issue } = frameOf(returned, ref);
    documents.set(issue, [...(documents.get(issue) ?? []), ref]);
  }
  const begins = placeByIssue(reel, record);
  let last = -1;
  const placed = [...documents].map(([document, pages]) => {
    // a document that names no issue of this film stays behind the one that the return has before it
    last = begins(document === null ? undefined : returned.issues[document]) ?? last;
    return { begins: last, pages: byOrder(pages, returned) };
  });
  return sorted(placed, (a, b) => a.begins - b.begins).flatMap(({ pages }) => pages);
}

function byOrder(pages: readonly ReturnRef[], returned: Side): readonly ReturnRef[] {
  const orders = pages.map((ref) => frameOf(returned, ref).order);
  if (orders.some((order) => order === null) || new Set(orders).size < orders.length) return pages;
  return sorted(pages, (a, b) => (frameOf(returned, a).order ?? 0) - (frameOf(returned, b).order ?? 0));
}

/** Where an issue that a document names begins on the film: by title, day and edition, by title and day, or by title and issue number. */
function placeByIssue(reel: Reel, record: Side): (issue: Issue | undefined) => number | null {
  const places = new Map<string, number>();
  for (const [issue, at] of issueStarts(reel)) for (const key of namesOf(record.issues[issue])) if (!places.has(key)) places.set(key, at);
  return (issue) => {
    for (const key of namesOf(issue)) {
      const at = places.get(key);
      if (at !== undefined) return at;
    }
    return null;
  };
}

/** What an issue may be known by, the surest first. */
function namesOf(issue: Issue | undefined): string[] {
  if (issue === undefined) return [];
  const title = issue.title ?? '';
  const day = issue.date?.day ?? null;
  return [
    ...(day === null ? [] : [`${title}|${day}|${String(issue.edition ?? 1)}`, `${title}|${day}`]),
    ...(issue.issueNumber === null ? [] : [`${title}|number ${issue.issueNumber}`]),
  ];
}

/** The first frame of each issue that has a page to deliver. */
function issueStarts(reel: Reel): ReadonlyMap<number, number> {
  const starts = new Map<number, number>();
  reel.frames.forEach((frame, at) => {
    if (frame.issue !== null && frame.deliver && !starts.has(frame.issue)) starts.set(frame.issue, at);
  });
  return starts;
}

/** A page without an order is read behind the page of its issue that lies before it on the film. */
function lastOrder(stretches: readonly Stretch[], begins: ReadonlyMap<number, number>, frame: Frame): number {
  const begin = begins.get(frame.issue ?? -1);
  return stretches.findLast(({ issue }) => issue === begin)?.order ?? 0;
}

function sorted<T>(items: readonly T[], compare: (a: T, b: T) => number): T[] {
  return items
    .map((item, at) => ({ item, at }))
    .sort((a, b) => compare(a.item, b.item) || a.at - b.at)
    .map(({ item }) => item);
}
