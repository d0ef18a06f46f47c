import type { ReturnRef } from '../model/alignment.js';
import type { Frame, FrameNumber, Reel, Side } from '../model/film.js';
import { contentKey, orderKey, uniqueKeys } from './keys.js';
import { frameOf } from './sequences.js';

/**
 * What it costs, in the terms of `cost.ts`, that from some page on all numbers are as much too high or low; that pages are wrongly numbered up to one that is
 * not; and each of them that is neither as far off as the one before nor has its number.
 */
const BASE = 72;
export const EXCURSION = 76;
const EACH = 14;
/** So many offsets that pages share are followed as states. */
const MOST_BASES = 8;

/** A page whose frame is known by what it says, and the number that it would have there. */
interface Known {
  readonly ref: ReturnRef;
  readonly given: FrameNumber;
  readonly right: FrameNumber;
  /** By how much its number is off; null where it has the other half. */
  readonly off: number | null;
  /** Its document says by more than the day that it is another issue than the one that has its number. */
  readonly elsewhere: boolean;
}

/** The numbers that pages would have without their slips, and what those cost to say. */
export interface Undone {
  readonly numbers: ReadonlyMap<ReturnRef, FrameNumber>;
  readonly cost: number;
}

/**
 * Runs of pages whose numbers leave what holds before and behind them and come back to it: numbers of a run too high, exchanged, in reverse, all the same. The
 * pages say where they lie. What does not come back is a frame too few or too many on the film, which the alignment finds. Null where there is none.
 */
export function withoutExcursions(
  refs: readonly ReturnRef[],
  numberOf: (ref: ReturnRef) => FrameNumber | null,
  reel: Reel,
  record: Side,
  returned: Side,
  lettered: boolean,
): Undone | null {
  const known = knownPages(refs, numberOf, reel, record, returned, lettered);
  if (known.every(({ off }) => off === 0)) return null;
  const free = cheapestPath(known, true);
  const bases = endsElsewhere(known, free) ? cheapestPath(known, false) : free;
  const numbers = new Map<ReturnRef, FrameNumber>();
  let cost = 0;
  known.forEach((page, at) => {
    const { ref, right, off } = page;
    const base = bases[at] ?? 0;
    if (off === base) return;
    const before = known[at - 1];
    const opens = before === undefined || before.off === bases[at - 1];
    cost += opens ? EXCURSION : goesOn(before, page) ? 0 : EACH;
    const exposure = right.exposure + base;
    numbers.set(ref, { text: `${String(exposure)}${right.half}`, exposure, half: right.half });
  });
  return numbers.size === 0 ? null : { numbers, cost };
}

/** Whether the last run stays as far off as it is up to the end of the reel, and its numbers are not those of its own pages in another order: then it does not come back. */
function endsElsewhere(known: readonly Known[], bases: readonly number[]): boolean {
  const last = known.at(-1);
  if (last === undefined || last.off === null || last.off === bases.at(-1) || known.at(-2)?.off !== last.off) return false;
  if (!commonOffsets(known).includes(last.off)) return false;
  const from = known.findLastIndex(({ off }, at) => off === bases[at]) + 1;
  const run = known.slice(from);
  const given = new Set(run.map((page) => nameOf(page.given)));
  return !run.every(({ right }) => given.has(nameOf({ ...right, exposure: right.exposure + (bases.at(-1) ?? 0) })));
}

/** A page as far off as the one before, or with its number, or with it in an issue that lies elsewhere. */
function goesOn(before: Known | undefined, { off, given, elsewhere }: Known): boolean {
  if (before === undefined) return false;
  return (off !== null && before.off === off) || sameNumber(before.given, given) || (elsewhere && before.elsewhere);
}

/** Pages that label and place give the same frame, which no other page of the return claims, in the order of the film. */
function knownPages(
  refs: readonly ReturnRef[],
  numberOf: (ref: ReturnRef) => FrameNumber | null,
  reel: Reel,
  record: Side,
  returned: Side,
  lettered: boolean,
): readonly Known[] {
  const keys = [contentKey, orderKey] as const;
  const wanted = keys.map((key) => uniqueKeys(reel.frames, record, key));
  const right = rightNumbers(reel, lettered);
  const frameAt = new Map(right.flatMap((number, at) => (number === null ? [] : [[nameOf(number), at] as const])));
  const byFrame = new Map<number, Known | null>();
  for (const ref of refs) {
    const frame = frameOf(returned, ref);
    const given = numberOf(ref);
    const found = keys.flatMap((key, k) => {
      const text = key(frame, returned);
      return text === null ? [] : [wanted[k]?.get(text) ?? null];
    });
    const [at] = found.filter((one) => one !== null);
    if (at === undefined || found.some((one) => one !== null && one !== at)) continue;
    const number = right[at] ?? null;
    if (given === null || number === null) continue;
    const [said, numbered] = [reel.frames[at], reel.frames[frameAt.get(nameOf(given)) ?? -1]];
    const elsewhere = saysByIssueAlone(frame, said, numbered);
    if ((elsewhere && !hasItsNumber(frame, returned, said, numbered, record)) || isOtherTake(said, numbered, record)) continue;
    const off = given.half === number.half ? given.exposure - number.exposure : null;
    byFrame.set(at, byFrame.has(at) ? null : { ref, given, right: number, off, elsewhere });
  }
  return [...byFrame].sort(([a], [b]) => a - b).flatMap(([, one]) => one ?? []);
}

const nameOf = ({ exposure, half }: FrameNumber): string => `${String(exposure)}${half}`;

/** Whether the frame that has a page's number is a take of the same page that was to be held back: then the wrong take was delivered. */
function isOtherTake(said: Frame | undefined, numbered: Frame | undefined, record: Side): boolean {
  if (said === undefined || numbered === undefined || numbered.deliver) return false;
  const key = contentKey(numbered, record);
  return key !== null && key === contentKey(said, record);
}

/** True where label and place are those of the frame that has its number as well, so that only what the document says of its issue puts it elsewhere. */
function saysByIssueAlone({ pageKey, order }: Frame, said: Frame | undefined, numbered: Frame | undefined): boolean {
  return (
    said !== undefined &&
    numbered !== undefined &&
    said.issue !== numbered.issue &&
    numbered.pageKey === pageKey &&
    numbered.order === order
  );
}

/**
 * Whether the document has the issue number too of the issue that it says it is, and its file is not named after the number that it gives: else two documents
 * may as well have been exchanged.
 */
function hasItsNumber(
  { issue, frame, copies }: Frame,
  returned: Side,
  said: Frame | undefined,
  numbered: Frame | undefined,
  record: Side,
): boolean {
  const file = copies.find(({ fact }) => fact === 'frame' || fact === 'exposure');
  if (file !== undefined && frame !== null && Number.parseInt(file.value ?? file.text, 10) === frame.exposure) return false;
  const [own, one, other] = [returned.issues[issue ?? -1], record.issues[said?.issue ?? -1], record.issues[numbered?.issue ?? -1]];
  return own?.issueNumber != null && own.issueNumber === one?.issueNumber && one.issueNumber !== other?.issueNumber;
}

/** The numbers of the record's frames as the return would give them: without letters each further half is counted on. */
function rightNumbers({ frames }: Reel, lettered: boolean): readonly (FrameNumber | null)[] {
  if (lettered) return frames.map(({ frame }) => frame);
  let counted = 0;
  return frames.map(({ frame }, at) => {
    if (frame !== null && frame.half !== '' && frames[at - 1]?.frame?.exposure === frame.exposure) counted++;
    return frame === null ? null : { text: '', exposure: frame.exposure + counted, half: '' };
  });
}

/** The offset that holds at each page of the film: the cheapest way to say where it changes and which pages are off from it, the last of them too where it may end so. */
function cheapestPath(known: readonly Known[], mayEndAstray: boolean): readonly number[] {
  const bases = commonOffsets(known);
  // for each offset what it cost to get here with it, the page before being as far off as it says or not
  let costs = bases.map((base): [number, number] => (base === 0 ? [0, FAR] : [BASE, FAR]));
  const trace: (readonly [number, number])[][] = [];
  known.forEach((page, at) => {
    const { off } = page;
    const each = goesOn(known[at - 1], page) ? 0 : EACH;
    const least = Math.min(...costs.map((pair) => Math.min(...pair)));
    const from = costs.findIndex((pair) => Math.min(...pair) === least);
    const step: [number, number][] = [];
    costs = bases.map((base, b): [number, number] => {
      const [straight, astray] = costs[b] ?? [FAR, FAR];
      if (off === base) {
        const stays = Math.min(straight, astray);
        const changes = least + BASE;
        step.push(stays <= changes ? [b * 2 + (straight <= astray ? 0 : 1), -1] : [from * 2 + side(costs[from]), -1]);
        return [Math.min(stays, changes), FAR];
      }
      const opens = straight + EXCURSION;
      const on = astray + each;
      step.push([-1, opens <= on ? b * 2 : b * 2 + 1]);
      return [FAR, Math.min(opens, on)];
    });
    trace.push(step);
  });
  const ended = mayEndAstray ? costs : costs.map(([straight]): [number, number] => [straight, 2 * FAR]);
  const ends = ended.map((pair) => Math.min(...pair));
  const last = ends.indexOf(Math.min(...ends));
  let state = last * 2 + side(ended[last]);
  const path: number[] = [];
  for (let at = known.length - 1; at >= 0; at--) {
    path[at] = bases[state >> 1] ?? 0;
    state = trace[at]?.[state >> 1]?.[state & 1] ?? 0;
  }
  return path;
}

const FAR = 1e9;

const side = (pair: readonly [number, number] | undefined): number => (pair !== undefined && pair[1] < pair[0] ? 1 : 0);

const sameNumber = (one: FrameNumber, two: FrameNumber): boolean => one.exposure === two.exposure && one.half === two.half;

/** Offsets that two pages in a row share, the commonest ones, and none. */
function commonOffsets(known: readonly Known[]): readonly number[] {
  const counts = new Map<number, number>();
  known.forEach(({ off }, at) => {
    if (off !== null && off !== 0 && known[at - 1]?.off === off) counts.set(off, (counts.get(off) ?? 0) + 1);
  });
  const common = [...counts].sort(([a, one], [b, two]) => two - one || a - b).slice(0, MOST_BASES);
  return [0, ...common.map(([off]) => off)];
}
