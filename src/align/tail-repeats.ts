import type { Pair } from '../model/alignment.js';
import type { Reel, Side } from '../model/film.js';
import { frameOf } from './sequences.js';
import { sameCapture } from './settled-pages.js';

/**
 * The last page of a reel captured twice takes the number of the target or blank behind it, and no later page shows that the count is one too
 * high. The second capture says of itself what the first does: it is taken from that frame, which lies one number further on.
 */
export function settleTailRepeats(pairs: readonly Pair[], reel: Reel, returned: Side): Pair[] {
  const last = pairs.findLastIndex((pair) => pair.returned !== null);
  const [first, second] = [pairs[last - 1], pairs[last]];
  if (first?.returned == null || second?.returned == null || first.record === null || second.record === null) return [...pairs];
  const kinds = [first, second].map((pair) => reel.frames[pair.record ?? -1]?.kind);
  if (kinds[0] !== 'page' || kinds[1] === 'page' || second.how !== 'order') return [...pairs];
  const [once, again] = [frameOf(returned, first.returned), frameOf(returned, second.returned)];
  if (!sameCapture(once, again, returned)) return [...pairs];
  return [
    ...pairs.slice(0, last),
    { ...second, record: null },
    { ...second, returned: null, slot: false, exposure: null },
    ...pairs.slice(last + 1),
  ];
}
