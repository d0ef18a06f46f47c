import type { Pair, ReturnRef } from '../model/alignment.js';
import type { Reel, Side } from '../model/film.js';
import { contentKey, orderKey } from './keys.js';
import { frameOf } from './sequences.js';

/**
 * Second look: a page of the record without a partner, and a page of the return that stands where the record has none, are the same page
 * under a wrong number when what they say of themselves is the same and unique. A held-back duplicate in that place is left alone: it is
 * more likely that the wrong take was delivered.
 */
export function pairMoved(pairs: readonly Pair[], reel: Reel, record: Side, returned: Side): Pair[] {
  const result = [...pairs];
  for (const key of [contentKey, orderKey]) {
    const wanting = new Map<string, number[]>();
    const stray = new Map<string, number[]>();
    result.forEach((pair, at) => {
      const frame = pair.record === null ? undefined : reel.frames[pair.record];
      if (pair.returned === null) {
        if (frame?.kind === 'page' && frame.deliver) add(wanting, key(frame, record), at);
      } else if (frame === undefined || frame.kind !== 'page') {
        const other = frameOf(returned, pair.returned);
        if (other.kind === 'page') add(stray, key(other, returned), at);
      }
    });
    for (const [text, places] of wanting) {
      const others = stray.get(text);
      const here = places[0];
      const there = others?.[0];
      if (places.length !== 1 || others?.length !== 1 || here === undefined || there === undefined) continue;
      exchange(result, here, there);
    }
  }
  return result.filter((pair) => pair.record !== null || pair.returned !== null || pair.slot);
}

function exchange(pairs: Pair[], here: number, there: number): void {
  const wanting = pairs[here];
  const stray = pairs[there];
  if (wanting === undefined || stray === undefined) return;
  const returned: ReturnRef | null = stray.returned;
  pairs[here] = { ...wanting, returned, how: 'moved' };
  // the number the page came under is no evidence of a frame there, unless the record has one
  pairs[there] = { ...stray, returned: null, slot: stray.record !== null };
  // nor are the empty numbers that only led to it
  if (stray.record !== null) return;
  for (let at = there - 1; at >= 0; at--) {
    const pair = pairs[at];
    if (pair === undefined || pair.record !== null || pair.returned !== null) break;
    pairs[at] = { ...pair, slot: false };
  }
}

function add(map: Map<string, number[]>, key: string | null, at: number): void {
  if (key === null) return;
  const list = map.get(key);
  if (list === undefined) map.set(key, [at]);
  else list.push(at);
}
