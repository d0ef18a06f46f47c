import { dayNumber, fromDayNumber } from '../calendar/civil.js';
import type { DateReading, Frame, Issue, Reel, Side } from '../model/film.js';

/** So many issues of a title must speak for a change of all of them. */
const FEWEST = 3;
/** Farther apart, two days of issue are not a slip of counting. */
const FARTHEST = 400;

/** Both sides as the film is followed with them. */
export interface Sides {
  readonly record: Side;
  readonly returned: Side;
}

/**
 * Both sides as they would be without a change that was made to much of one of them: every day of a title so many days too early or late, every label so
 * much too high or low, one number for many frames, a record whose numbers go back. Under such a change each page looks like one of the next issue
 * or like its neighbour, and the film is hard to follow. Each reading is one change undone; which of them is right shows when the film is followed with it.
 */
export function wideReadings(record: Side, returned: Side): readonly Sides[] {
  const numbers = [
    ...sidesIfOther(record, withoutConstant(record), (side) => ({ record: side, returned })),
    ...sidesIfOther(record, withoutReturning(record), (side) => ({ record: side, returned })),
    ...sidesIfOther(returned, withoutConstant(returned), (side) => ({ record, returned: side })),
  ];
  return [...readingsOfReturn(record, returned).map((side) => ({ record, returned: side })), ...numbers];
}

function sidesIfOther(side: Side, other: Side, sides: (other: Side) => Sides): readonly Sides[] {
  return other === side ? [] : [sides(other)];
}

/** A side without the numbers that many frames of a reel carry: they say nothing of where these lie. */
function withoutConstant(side: Side): Side {
  return withoutNumbers(side, ({ frames }) => {
    const counts = new Map<string, number>();
    const key = (frame: Frame): string => (frame.frame === null ? '' : `${String(frame.frame.exposure)}${frame.frame.half}`);
    for (const frame of frames) counts.set(key(frame), (counts.get(key(frame)) ?? 0) + 1);
    return (frame) => frame.frame !== null && (counts.get(key(frame)) ?? 0) >= FEWEST;
  });
}

/** A record without the numbers that go back, or run ahead of those behind them: its rows stand in the order of the film. */
function withoutReturning(record: Side): Side {
  return withoutNumbers(record, ({ frames }) => {
    const kept = rising(
      frames.map((frame) => (frame.frame === null ? null : 2 * frame.frame.exposure + (frame.frame.half === 'B' ? 1 : 0))),
    );
    return (_, at) => !kept.has(at);
  });
}

function withoutNumbers(side: Side, of: (reel: Reel) => (frame: Frame, at: number) => boolean): Side {
  const reels = side.reels.map((reel) => {
    const isOut = of(reel);
    const frames = reel.frames.map((frame, at) => (frame.frame !== null && isOut(frame, at) ? { ...frame, frame: null } : frame));
    return frames.every((frame, at) => frame === reel.frames[at]) ? reel : { ...reel, frames };
  });
  return reels.every((reel, at) => reel === side.reels[at]) ? side : { ...side, reels };
}

/** The places of a longest run of rising numbers; places without one are none. */
function rising(numbers: readonly (number | null)[]): ReadonlySet<number> {
  const tails: number[] = [];
  const before = new Map<number, number | undefined>();
  numbers.forEach((number, at) => {
    if (number === null) return;
    let [low, high] = [0, tails.length];
    while (low < high) {
      const middle = (low + high) >> 1;
      if ((numbers[tails[middle] ?? -1] ?? 0) < number) low = middle + 1;
      else high = middle;
    }
    before.set(at, tails[low - 1]);
    tails[low] = at;
  });
  const kept = new Set<number>();
  for (let at = tails.at(-1); at !== undefined; at = before.get(at)) kept.add(at);
  return kept;
}

function readingsOfReturn(record: Side, returned: Side): readonly Side[] {
  const titles = [...new Set(returned.issues.map(({ title }) => title))];
  // a title that the record lacks has nothing there to be held against, and hostile documents may give thousands
  const known = new Set(record.issues.map(({ title }) => title));
  const found = titles.flatMap((title) => {
    if (!known.has(title)) return [];
    const by = dayShift(daysOf(record, title), daysOf(returned, title));
    const labels = labelShift(record, returned, title);
    return [...(by === null ? [] : [withDays(returned, title, -by)]), ...(labels === null ? [] : [withLabels(returned, title, -labels)])];
  });
  const everywhere = titles.length < 2 ? null : dayShift(daysOf(record), daysOf(returned));
  return everywhere === null ? found : [...found, withDays(returned, undefined, -everywhere)];
}

const isOf = (issue: Issue | undefined, title: string | null | undefined): boolean => title === undefined || issue?.title === title;

function daysOf({ issues }: Side, title?: string | null): readonly number[] {
  return issues.flatMap((issue) => (isOf(issue, title) && issue.present && issue.date?.day != null ? [dayNumber(issue.date.day)] : []));
}

/** The shift under which every day of the return is one of the record, and more of them than as they stand; null where there is none. */
function dayShift(right: readonly number[], given: readonly number[]): number | null {
  if (given.length < FEWEST) return null;
  const days = new Set(right);
  const asGiven = given.filter((day) => days.has(day)).length;
  const first = Math.min(...given);
  const shifts = [...days].map((day) => first - day).filter((by) => by !== 0 && Math.abs(by) <= FARTHEST);
  const fitting = shifts.filter((by) => given.every((day) => days.has(day - by))).sort((a, b) => Math.abs(a) - Math.abs(b));
  return asGiven < given.length ? (fitting[0] ?? null) : null;
}

function withDays(returned: Side, title: string | null | undefined, by: number): Side {
  const moved = (date: DateReading | null): DateReading | null =>
    date?.day == null ? date : { ...date, day: fromDayNumber(dayNumber(date.day) + by) };
  return { ...returned, issues: returned.issues.map((issue) => (isOf(issue, title) ? { ...issue, date: moved(issue.date) } : issue)) };
}

/** By how much the first label of most issues of a title is higher than in the record; null where it is the same. */
function labelShift(record: Side, returned: Side, title: string | null): number | null {
  const [right, given] = [firstLabels(record, title), firstLabels(returned, title)];
  if (given.length < FEWEST) return null;
  const [mine, theirs] = [usual(right), usual(given)];
  return mine === null || theirs === null || mine === theirs ? null : theirs - mine;
}

function firstLabels(side: Side, title: string | null): readonly number[] {
  const first = new Map<number, number>();
  for (const { frames } of side.reels)
    for (const { issue, pageKey } of frames) {
      const label = numberIn(pageKey);
      if (issue === null || label === null || side.issues[issue]?.title !== title) continue;
      first.set(issue, Math.min(first.get(issue) ?? label, label));
    }
  return [...first.values()];
}

/** The number that more than half have; null where there is none. */
function usual(numbers: readonly number[]): number | null {
  const sorted = [...numbers].sort((a, b) => a - b);
  const middle = sorted[sorted.length >> 1];
  return middle !== undefined && sorted.filter((one) => one === middle).length * 2 > sorted.length ? middle : null;
}

const numberIn = (key: string | null): number | null => (key !== null && /^\d{1,6}$/.test(key) ? Number(key) : null);

function withLabels(returned: Side, title: string | null, by: number): Side {
  const moved = (frame: Frame): Frame => {
    const label = numberIn(frame.pageKey);
    const isIts = frame.issue !== null && returned.issues[frame.issue]?.title === title;
    return label === null || !isIts || label + by < 0 ? frame : { ...frame, pageKey: String(label + by) };
  };
  return { ...returned, reels: returned.reels.map((reel) => ({ ...reel, frames: reel.frames.map(moved) })) };
}
