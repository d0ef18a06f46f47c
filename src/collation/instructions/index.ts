import type { Policies } from '../../model/agreement.js';
import type { CollationRecord } from '../../model/collation-record.js';
import type { ExpectedReturn } from '../../model/expected.js';
import type { Side } from '../../model/film.js';
import type { InstructedReel } from '../../model/instructions.js';
import type { Touched } from '../../model/record-problem.js';
import { absences } from './absences.js';
import { dates, editions, issueNumbers, overReels, printedTitles } from './issue-cases.js';
import { conditions, halves, labels, order, otherDelivered, ownColumns, passedOver, sections, supplements, targets } from './page-cases.js';
import { reelFacts } from './reel-facts.js';
import { heldBack, keptBoth } from './takes.js';
import { type Placed, type ReelView, reelViews } from './view.js';

/** What one of the library's own columns says in a row, where it may leave the house. */
export interface LeavingCell {
  /** The sheet as places of the record name it, and the row. */
  readonly sheet: string;
  readonly row: number;
  readonly head: string;
  readonly text: string;
}

const CASES: readonly ((view: ReelView) => readonly Placed[])[] = [
  targets,
  passedOver,
  halves,
  sections,
  labels,
  conditions,
  absences,
  overReels,
  dates,
  editions,
  printedTitles,
  issueNumbers,
  order,
  supplements,
  heldBack,
  keptBoth,
  otherDelivered,
];

/** The sheet that goes with the film, reel by reel: what it is, and what differs from "scan all, deliver the pages in order". `doubts` is what open problems of the record touch. */
export function instructionsFor(
  record: CollationRecord,
  side: Side,
  expected: ExpectedReturn,
  policies: Policies,
  leaving: readonly LeavingCell[],
  doubts: readonly Touched[],
): readonly InstructedReel[] {
  const cells = new Map<string, LeavingCell[]>();
  for (const cell of leaving) {
    const key = JSON.stringify([cell.sheet, cell.row]);
    const list = cells.get(key);
    if (list === undefined) cells.set(key, [cell]);
    else list.push(cell);
  }
  return reelViews(record, side, expected, policies, doubts).map((view) => {
    const own = view.shots.flatMap((shot) =>
      (cells.get(JSON.stringify([shot.frame.place.sheet, shot.frame.place.row])) ?? []).map(({ head, text }) => ({ shot, head, text })),
    );
    const found = [...CASES.flatMap((one) => one(view)), ...ownColumns(view, own)];
    return {
      number: view.reel.number,
      facts: reelFacts(view),
      instructions: found
        .map((placed, at) => ({ ...placed, nth: at }))
        .toSorted((a, b) => a.at - b.at || a.nth - b.nth)
        .map(({ instruction }) => instruction),
    };
  });
}

/** The record as it may leave the house: without notes and the names of those who judged. */
export function recordToSend({ format, titles, reels }: CollationRecord): CollationRecord {
  return {
    format,
    titles,
    reels: reels.map((reel) => ({
      ...without(reel, 'notes'),
      frames: reel.frames.map((frame) => without(frame, 'note', 'judgedBy')),
      ...(reel.absent === undefined ? {} : { absent: reel.absent.map((entry) => without(entry, 'note')) }),
    })),
  };
}

function without<Entry extends object, Key extends keyof Entry & string>(entry: Entry, ...keys: readonly Key[]): Omit<Entry, Key> {
  const left: readonly string[] = keys;
  return Object.fromEntries(Object.entries(entry).filter(([key]) => !left.includes(key))) as Omit<Entry, Key>;
}
