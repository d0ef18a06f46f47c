import type { PairRef } from '../../model/difference.js';
import { idsOf } from '../runs.js';
import { differencesAt, pairOf, type Scene } from '../scene.js';
import { exposureOffset, rightInShift } from './shift-events.js';

/** Wrong numbers behind the last of the frames, up to where a frame without a partner changes by how much they are wrong. */
export function numbersBehind(scene: Scene, refs: readonly PairRef[]): number[] {
  const last = refs.at(-1);
  if (last === undefined) return [];
  const ids: number[] = [];
  const pairs = scene.alignments[last.alignment]?.pairs ?? [];
  let offset: number | null = null;
  for (let pair = last.pair + 1; pair < pairs.length; pair++) {
    const ref = { alignment: last.alignment, pair };
    // a section turned round and a page under a number far away have causes of their own
    if (pairOf(scene, ref).how !== 'order' || rightInShift(scene, ref) !== null) continue;
    if (differencesAt(scene, ref, 'not-scanned', 'surplus', 'empty-number').length > 0) {
      if (offset === null || offset !== offsetBehind(scene, ref)) break;
      continue;
    }
    ids.push(...idsOf(differencesAt(scene, ref, 'number')));
    offset = exposureOffset(scene, ref) ?? offset;
  }
  return ids;
}

/** By how much the next frame that came in its order is numbered too high; null where none follows. */
function offsetBehind(scene: Scene, ref: PairRef): number | null {
  const pairs = scene.alignments[ref.alignment]?.pairs ?? [];
  for (let pair = ref.pair + 1; pair < pairs.length; pair++) {
    const other = { alignment: ref.alignment, pair };
    const offset = pairOf(scene, other).how === 'order' ? exposureOffset(scene, other) : null;
    if (offset !== null) return offset;
  }
  return null;
}
