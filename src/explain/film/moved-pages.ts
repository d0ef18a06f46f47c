import type { PairRef } from '../../model/difference.js';
import { differencesAt, type Scene } from '../scene.js';
import type { WordedDifference } from '../worded.js';

/** Differences of order and page number by which the pages of these pairs moved `step` places along, because a page before them is missing or too many. */
export function movedBy(scene: Scene, refs: readonly PairRef[], step: number): readonly WordedDifference[] {
  return refs
    .flatMap((ref) => differencesAt(scene, ref, 'order', 'page'))
    .filter((difference) => Number(difference.returned) - Number(difference.collation) === step);
}

/** Those of the pairs that lie behind another one on the same reel. */
export function behind(refs: readonly PairRef[], one: PairRef): readonly PairRef[] {
  return refs.filter((ref) => ref.alignment === one.alignment && ref.pair > one.pair);
}
