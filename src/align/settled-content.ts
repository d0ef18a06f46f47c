import type { Pair } from '../model/alignment.js';
import type { Reel, Side } from '../model/film.js';
import { contentKey, orderKey } from './keys.js';
import { frameOf } from './sequences.js';

/** A single page whose label is that of its neighbour was misread; from two on, what the pages say of themselves weighs more than their numbers. */
const SHORTEST = 2;

/**
 * A page that was left out and one captured twice a few frames on cancel out, and the pages between seem to carry each other's labels. Where
 * every page of such a run says that it is the next frame's, or the one before, and a neighbour says the same once more or has no image, the
 * pages are what they say: one frame is lost where the run begins and one surplus, or lost as well, where it ends.
 */
export function settleByContent(pairs: readonly Pair[], reel: Reel, record: Side, returned: Side): Pair[] {
  const result = [...pairs];
  const mine = result.map(({ record: at }) => {
    const frame = at === null ? undefined : reel.frames[at];
    return frame === undefined ? null : contentKey(frame, record);
  });
  const theirs = result.map(({ returned: ref }) => (ref === null ? null : contentKey(frameOf(returned, ref), returned)));
  const twoSided = (at: number): boolean => result[at]?.how === 'order' && mine[at] != null && theirs[at] != null;
  const lost = (at: number): boolean => isLost(result[at]) && mine[at] != null;
  for (let from = 0; from < result.length; from++) {
    for (const step of [1, -1] as const) {
      let to = from;
      while (twoSided(to) && mine[to] !== theirs[to] && theirs[to] === mine[to + step]) to++;
      if (to - from < SHORTEST || !wholeExposures(result, from, to, reel)) continue;
      if (result.slice(from, to).every((pair) => inPlace(pair, reel, record, returned))) continue;
      const end = step === 1 ? to : from - 1;
      if (!(lost(end) || (twoSided(end) && mine[end] === theirs[end]))) continue;
      const [low, high] = step === 1 ? [from, to] : [from - 1, to - 1];
      const moved = step === 1 ? onward(result, low, high) : backward(result, low, high);
      result.splice(low, high + 1 - low, ...moved);
      // what was settled is not looked at again
      return [...result.slice(0, low + moved.length), ...settleByContent(result.slice(low + moved.length), reel, record, returned)];
    }
  }
  return result;
}

/** A page that stands in its issue at the place of the frame whose number it has: it is that frame, under another label. */
function inPlace({ record: at, returned: ref }: Pair, reel: Reel, record: Side, returned: Side): boolean {
  const frame = at === null ? undefined : reel.frames[at];
  const mine = frame === undefined ? null : orderKey(frame, record);
  return mine !== null && ref !== null && mine === orderKey(frameOf(returned, ref), returned);
}

/** No halves: they come and go in pairs, and carry each other's labels where they were exchanged. */
function wholeExposures(pairs: readonly Pair[], from: number, to: number, reel: Reel): boolean {
  return pairs.slice(from, to).every((pair) => reel.frames[pair.record ?? -1]?.frame?.half === '');
}

function isLost(pair: Pair | undefined): boolean {
  return pair?.how === 'order' && pair.returned === null && !pair.slot;
}

/** The first frame is lost, each image is the next frame's, and what the last frame had is surplus. */
function onward(pairs: readonly Pair[], low: number, high: number): Pair[] {
  const moved: Pair[] = [frameAlone(pairs[low])];
  for (let at = low; at < high; at++) moved.push(...withFrame(pairs[at], pairs[at + 1]));
  return [...moved, ...imageAlone(pairs[high])];
}

/** Each image is that of the frame before, what the first frame had is kept, and the last frame is lost. */
function backward(pairs: readonly Pair[], low: number, high: number): Pair[] {
  const first = pairs[low];
  const kept = first?.returned != null;
  const moved: Pair[] = kept ? [first, ...imageAlone(pairs[low + 1])] : [];
  for (let at = kept ? low + 2 : low + 1; at <= high; at++) moved.push(...withFrame(pairs[at], pairs[at - 1]));
  return [...moved, frameAlone(pairs[high])];
}

function withFrame(image: Pair | undefined, frame: Pair | undefined): Pair[] {
  return image === undefined ? [] : [{ ...image, record: frame?.record ?? null }];
}

function frameAlone(pair: Pair | undefined): Pair {
  return { record: pair?.record ?? null, returned: null, slot: false, exposure: null, how: 'order' };
}

function imageAlone(pair: Pair | undefined): Pair[] {
  return pair === undefined || pair.returned === null ? [] : [{ ...pair, record: null }];
}
