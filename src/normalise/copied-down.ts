import type { Alignment } from '../model/alignment.js';
import type { Frame, Issue, Side } from '../model/film.js';
import { withStatement } from './record-side.js';

/** A page of an issue of the record that is delivered, and the document that it came in. */
interface Met {
  readonly reel: number;
  readonly frame: number;
  readonly document: number;
}

/**
 * The record with those issues apart that share a title, day and edition there and are several all the same: their pages came, one run behind the
 * other, in documents that hold nothing else and are of different titles or days; or of different editions, where the record's own labels begin anew.
 * A day that was copied down one row too far makes two issues one, and what either says of itself would be held against the other.
 */
export function issuesApart(record: Side, alignments: readonly Alignment[], returned: Side): Side {
  const met = pagesMet(record, alignments, returned);
  const owners = ownersOf(met);
  const issues: Issue[] = [...record.issues];
  const moves = new Map<string, { readonly issue: number; readonly order: number | null }>();
  for (const [issue, pages] of met) {
    const runs = runsOf(pages);
    if (runs.length < 2 || !areSeveral(record, returned, issue, runs, owners)) continue;
    const joint = countedJointly(record, pages);
    for (const [at, run] of runs.entries()) {
      const frames = run.map(({ reel, frame }) => record.reels[reel]?.frames[frame]).filter((frame) => frame !== undefined);
      const orders = joint ? places(frames) : frames.map(({ order }) => order);
      const target = at === 0 ? issue : issues.length;
      const base = record.issues[issue];
      if (base === undefined) continue;
      const blank: Issue = { ...base, ...SILENT, place: frames[0]?.place ?? base.place, ...(at === 0 ? {} : { apartFrom: issue }) };
      issues[target] = frames.reduce((whole, { ofIssue }) => withStatement(whole, ofIssue ?? {}), blank);
      run.forEach(({ reel, frame }, place) => moves.set(keyOf(reel, frame), { issue: target, order: orders[place] ?? null }));
    }
  }
  if (moves.size === 0) return record;
  return {
    ...record,
    issues,
    reels: record.reels.map((reel, r) => ({
      ...reel,
      frames: reel.frames.map((frame, f) => ({ ...frame, ...moves.get(keyOf(r, f)) })),
    })),
  };
}

const SILENT = {
  datePrinted: null,
  weekdayPrinted: null,
  editionLabel: null,
  volume: null,
  issueNumber: null,
  issueNumberIntended: null,
} as const;

const keyOf = (reel: number, frame: number): string => `${String(reel)} ${String(frame)}`;

/** The delivered pages of each issue that came as pages of a document, in film order. */
function pagesMet(record: Side, alignments: readonly Alignment[], returned: Side): ReadonlyMap<number, readonly Met[]> {
  const met = new Map<number, Met[]>();
  for (const { recordReel, pairs } of alignments) {
    if (recordReel === null) continue;
    const sorted = pairs.filter(({ record: at }) => at !== null).sort((a, b) => (a.record ?? 0) - (b.record ?? 0));
    for (const pair of sorted) {
      const mine = record.reels[recordReel]?.frames[pair.record ?? -1];
      const theirs = pair.returned === null ? undefined : returned.reels[pair.returned.reel]?.frames[pair.returned.frame];
      if (mine?.issue == null || !mine.deliver || theirs?.issue == null) continue;
      const page = { reel: recordReel, frame: pair.record ?? -1, document: theirs.issue };
      const list = met.get(mine.issue);
      if (list === undefined) met.set(mine.issue, [page]);
      else list.push(page);
    }
  }
  return met;
}

/** The issue that each document has all its pages from; null where it holds pages of several. */
function ownersOf(met: ReadonlyMap<number, readonly Met[]>): ReadonlyMap<number, number | null> {
  const owners = new Map<number, number | null>();
  for (const [issue, pages] of met)
    for (const { document } of pages) owners.set(document, (owners.get(document) ?? issue) === issue ? issue : null);
  return owners;
}

function runsOf(pages: readonly Met[]): readonly (readonly Met[])[] {
  const runs: Met[][] = [];
  for (const page of pages) {
    const last = runs.at(-1);
    if (last?.[0]?.document === page.document) last.push(page);
    else runs.push([page]);
  }
  return runs;
}

function areSeveral(
  record: Side,
  returned: Side,
  issue: number,
  runs: readonly (readonly Met[])[],
  owners: ReadonlyMap<number, number | null>,
): boolean {
  const documents = runs.map(([first]) => first?.document ?? -1);
  if (new Set(documents).size < runs.length || documents.some((document) => owners.get(document) !== issue)) return false;
  // a document that does not say what it is does not say that it is another
  if (documents.some((document) => returned.issues[document]?.title == null || returned.issues[document].date == null)) return false;
  const names = (parts: (document: Issue | undefined) => readonly unknown[]): number =>
    new Set(documents.map((document) => JSON.stringify(parts(returned.issues[document])))).size;
  if (names((one) => [one?.title, one?.date?.text, one?.edition]) < runs.length) return false;
  return names((one) => [one?.title, one?.date?.text]) === runs.length || beginAnew(record, runs);
}

/** Whether each run but the first begins with a label that a run before it has. */
function beginAnew(record: Side, runs: readonly (readonly Met[])[]): boolean {
  const seen = new Set<string>();
  return runs.every((run, at) => {
    const labels = run.map(({ reel, frame }) => labelOf(record.reels[reel]?.frames[frame]));
    const again = at === 0 || seen.has(labels[0] ?? '');
    for (const label of labels) seen.add(label);
    return again;
  });
}

const labelOf = (frame: Frame | undefined): string => JSON.stringify([frame?.section, frame?.pageKey]);

/** Whether the pages were given places as those of one issue: no place is taken twice. */
function countedJointly(record: Side, pages: readonly Met[]): boolean {
  const orders = pages.flatMap(({ reel, frame }) => record.reels[reel]?.frames[frame]?.order ?? []);
  return new Set(orders).size === orders.length;
}

/** Places from 1 on, in the order that the pages had among all. */
function places(frames: readonly Frame[]): readonly (number | null)[] {
  const sorted = frames.flatMap(({ order }) => order ?? []).sort((a, b) => a - b);
  return frames.map(({ order }) => (order === null ? null : sorted.indexOf(order) + 1));
}
