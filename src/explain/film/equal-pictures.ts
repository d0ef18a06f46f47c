import type { ReturnRef } from '../../model/alignment.js';
import { fieldOf, type Scene } from '../scene.js';
import type { WordedDifference } from '../worded.js';

/** Differences that say that two frames of the return have one picture: by their digests, or by the file that they name. */
export function equalPictures(scene: Scene): readonly WordedDifference[] {
  return [...fieldOf(scene, 'digest'), ...fieldOf(scene, 'same-file')];
}

const known = new WeakMap<Scene, ReadonlyMap<string, readonly WordedDifference[]>>();

/** Those of two frames. A batch may have thousands of either, so that they are looked up. */
export function equalPicturesOf(scene: Scene, one: ReturnRef | null, other: ReturnRef | null): readonly WordedDifference[] {
  if (one === null || other === null) return [];
  let found = known.get(scene);
  if (found === undefined) known.set(scene, (found = byFrames(scene)));
  return found.get(pairName(one, other)) ?? [];
}

function byFrames(scene: Scene): ReadonlyMap<string, readonly WordedDifference[]> {
  const found = new Map<string, WordedDifference[]>();
  for (const difference of equalPictures(scene)) {
    const { ref, twin } = difference;
    if (ref === null || twin === null) continue;
    const name = pairName(ref, twin);
    const list = found.get(name);
    if (list === undefined) found.set(name, [difference]);
    else list.push(difference);
  }
  return found;
}

/** The same for two frames, whichever is named first. */
function pairName(one: ReturnRef, other: ReturnRef): string {
  const names = [one, other].map(({ reel, frame }) => `${String(reel)}:${String(frame)}`);
  return names.toSorted().join(' ');
}
