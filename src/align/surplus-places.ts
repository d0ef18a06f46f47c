import type { Pair } from '../model/alignment.js';
import type { Reel, Side } from '../model/film.js';

/**
 * An empty number that the record has no frame for may lie before or behind a blank: nothing tells them apart. It is put behind the first
 * frame of such a run, so that "captured twice" names a frame that can have been captured twice.
 */
export function settleSurplusPlaces(pairs: readonly Pair[], reel: Reel, returned: Side): Pair[] {
  const result = [...pairs];
  for (let at = result.length - 2; at >= 0; at--) {
    const here = result[at];
    const next = result[at + 1];
    if (here === undefined || next === undefined || here.record !== null || here.returned !== null || !here.slot) continue;
    const frame = next.record === null ? undefined : reel.frames[next.record];
    const before = at === 0 ? undefined : reel.frames[result[at - 1]?.record ?? -1];
    // a number used twice leaves its successor empty: that one lies where it is
    if (repeatsNumber(result, at - 1, returned)) continue;
    const heldBefore = before !== undefined && !before.deliver && result[at - 1]?.returned === null;
    if (heldBefore || frame === undefined || frame.deliver || next.returned !== null || !next.slot) continue;
    result[at] = { ...next, exposure: here.exposure };
    result[at + 1] = { ...here, exposure: next.exposure };
  }
  return jumpsBehindBlanks(aloneToTheFirst(result, reel), reel);
}

/** A single empty number inside a run of frames that are held back and did not come goes behind the first of them. */
function aloneToTheFirst(pairs: readonly Pair[], reel: Reel): Pair[] {
  const result = [...pairs];
  const silent = (pair: Pair | undefined): boolean =>
    pair?.record != null && pair.returned === null && pair.slot && reel.frames[pair.record]?.deliver === false;
  const empty = (pair: Pair | undefined): boolean => pair?.record === null && pair.returned === null && pair.slot;
  for (let at = 0; at < result.length; at++) {
    const here = result[at];
    if (here === undefined || !empty(here) || empty(result[at - 1]) || empty(result[at + 1])) continue;
    let first = at;
    while (silent(result[first - 1])) first--;
    if (at - first < 2) continue;
    const numbers = result.slice(first, at + 1).map((pair) => pair.exposure);
    const [head, ...rest] = result.slice(first, at);
    if (head === undefined) continue;
    result.splice(first, at + 1 - first, ...[head, here, ...rest].map((pair, k) => ({ ...pair, exposure: numbers[k] ?? null })));
  }
  return result;
}

/** A jump of the numbers, three or more at once, is put behind the blanks that follow it: the first page behind it is the first frame known to be wrong. */
function jumpsBehindBlanks(pairs: Pair[], reel: Reel): Pair[] {
  const surplus = (pair: Pair | undefined): boolean => pair !== undefined && pair.record === null && pair.returned === null && pair.slot;
  const held = (pair: Pair | undefined): boolean =>
    pair?.record != null && pair.returned === null && pair.slot && reel.frames[pair.record]?.deliver === false;
  const result = [...pairs];
  for (let from = 0; from < result.length; from++) {
    let to = from;
    while (surplus(result[to])) to++;
    if (to - from < 3) {
      from = Math.max(from, to);
      continue;
    }
    let end = to;
    while (held(result[end])) end++;
    const numbers = result.slice(from, end).map((pair) => pair.exposure);
    const moved = [...result.slice(to, end), ...result.slice(from, to)].map((pair, at) => ({ ...pair, exposure: numbers[at] ?? null }));
    result.splice(from, end - from, ...moved);
    from = end;
  }
  return result;
}

/** True when the frame at a place carries the same number as the one before it. */
function repeatsNumber(pairs: readonly Pair[], at: number, returned: Side): boolean {
  const number = (index: number): number | undefined => {
    const ref = pairs[index]?.returned;
    return ref == null ? undefined : returned.reels[ref.reel]?.frames[ref.frame]?.frame?.exposure;
  };
  const here = number(at);
  return here !== undefined && here === number(at - 1) && at > 0 && !bothHalves(pairs, at, returned);
}

function bothHalves(pairs: readonly Pair[], at: number, returned: Side): boolean {
  const half = (index: number): string => {
    const ref = pairs[index]?.returned;
    return ref == null ? '' : (returned.reels[ref.reel]?.frames[ref.frame]?.frame?.half ?? '');
  };
  return half(at) !== half(at - 1);
}
