import type { Pair } from '../model/alignment.js';
import type { Frame, Reel, Side } from '../model/film.js';
import { contentKey } from './keys.js';
import { frameOf } from './sequences.js';

/** Of two images of one page the first is the frame and the second the surplus one: later numbers are wrong from behind it, not from the frame itself. */
export function firstOfTwo(pairs: readonly Pair[], returned: Side): Pair[] {
  const result = [...pairs];
  for (let at = 0; at + 1 < result.length; at++) {
    const [surplus, frame] = [result[at], result[at + 1]];
    if (surplus?.record !== null || surplus.returned === null || frame?.record == null || frame.returned === null) continue;
    if (surplus.how !== 'order' || frame.how !== 'order') continue;
    const [one, other] = [frameOf(returned, surplus.returned), frameOf(returned, frame.returned)];
    if (!sameCapture(one, other, returned)) continue;
    result[at] = { ...surplus, record: frame.record };
    result[at + 1] = { ...frame, record: null };
  }
  return result;
}

/**
 * A target counted in as the first page of an issue moves every label of that issue by one, so that its pages seem to lie one frame on and the last
 * one to be surplus. Where the numbers before and behind are right, and would be right in between, the frames are those of the numbers.
 */
export function settleCountedIn(pairs: readonly Pair[], reel: Reel, returned: Side): Pair[] {
  const result = [...pairs];
  for (let from = 0; from < result.length; from++) {
    const lost = result[from];
    const frame = lost?.record == null ? undefined : reel.frames[lost.record];
    if (lost === undefined || frame === undefined || frame.kind === 'page' || lost.returned !== null || lost.slot) continue;
    const to = endOfDocument(result, from + 1, returned);
    if (to === null || !numbersAgree(result, from, to, reel, returned)) continue;
    const images = result.slice(from + 1, to + 1);
    const frames = result.slice(from, to);
    result.splice(from, to + 1 - from, ...images.map((image, k) => ({ ...image, record: frames[k]?.record ?? null })));
  }
  return result;
}

/** The second half of an exposure that was left out has no place either: the empty half before it is that of a whole exposure. */
export function halvesOfLost(pairs: readonly Pair[], reel: Reel): Pair[] {
  return pairs.map((pair, at) => {
    const before = pairs[at - 1];
    const [one, other] = [before, pair].map((each) => (each?.record == null ? null : (reel.frames[each.record]?.frame ?? null)));
    const lostFirst = before !== undefined && before.returned === null && !before.slot && one?.half === 'A';
    const empty = pair.returned === null && pair.slot && other?.half === 'B' && other.exposure === one?.exposure;
    return lostFirst && empty ? { ...pair, slot: false, exposure: null } : pair;
  });
}

/** Where a run of pages of one document that begins here ends with a surplus one; null where it does not. */
function endOfDocument(pairs: readonly Pair[], from: number, returned: Side): number | null {
  const first = pairs[from]?.returned;
  const document = first == null ? null : frameOf(returned, first).issue;
  if (document === null) return null;
  for (let at = from; at < pairs.length; at++) {
    const pair = pairs[at];
    if (pair?.returned == null || pair.how !== 'order' || frameOf(returned, pair.returned).issue !== document) return null;
    if (pair.record === null) return at > from ? at : null;
  }
  return null;
}

/** True when each image of the run has the number of the frame before the one it was taken for. */
function numbersAgree(pairs: readonly Pair[], from: number, to: number, reel: Reel, returned: Side): boolean {
  for (let at = from; at < to; at++) {
    const mine = reel.frames[pairs[at]?.record ?? -1]?.frame;
    const image = pairs[at + 1]?.returned;
    const theirs = image == null ? null : frameOf(returned, image).frame;
    if (mine == null || theirs === null || mine.exposure !== theirs.exposure || mine.half !== theirs.half) return false;
  }
  return true;
}

/** The same image, or a page that says of itself what the other does. */
export function sameCapture(one: Frame, other: Frame, side: Side): boolean {
  if (one.kind !== 'page' || other.kind !== 'page' || one.issue !== other.issue) return false;
  const digests = new Set(one.files.flatMap((file) => file.digest ?? []));
  const key = contentKey(one, side);
  return other.files.some((file) => file.digest !== null && digests.has(file.digest)) || (key !== null && key === contentKey(other, side));
}
