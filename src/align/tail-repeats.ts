import type { Pair } from '../model/alignment.js';
import type { Frame, Reel, Side } from '../model/film.js';
import { contentKey } from './keys.js';
import { frameOf } from './sequences.js';

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
  if (again.kind !== 'page' || once.issue !== again.issue || !sameCapture(once, again, returned)) return [...pairs];
  return [
    ...pairs.slice(0, last),
    { ...second, record: null },
    { ...second, returned: null, slot: false, exposure: null },
    ...pairs.slice(last + 1),
  ];
}

function sameCapture(one: Frame, other: Frame, side: Side): boolean {
  const digests = new Set(one.files.flatMap((file) => file.digest ?? []));
  const key = contentKey(one, side);
  return other.files.some((file) => file.digest !== null && digests.has(file.digest)) || (key !== null && key === contentKey(other, side));
}
