import type { PairRef } from '../../model/difference.js';
import { frameName } from '../draft.js';
import { judged, type Testimony } from '../facts/sides.js';
import { recordFrame, type Scene } from '../scene.js';

/** Two takes of a page: the one that the record holds back, and the one that it delivers. */
export interface Couple {
  readonly held: PairRef;
  readonly right: PairRef;
}

/**
 * Which side chose the wrong take: what the record itself notes of the two tells, a fault of one of them, or that one was filmed to make the
 * other good. Of two takes of which nothing is noted only the film shows which is better.
 */
export function betterTake(scene: Scene, couples: readonly Couple[]): Testimony {
  const poorer = (one: PairRef, other: PairRef): boolean => {
    const [mine, theirs] = [recordFrame(scene, one), recordFrame(scene, other)];
    if (mine === undefined || theirs === undefined) return false;
    const replaced = theirs.retakeOf !== null && theirs.retakeOf.frame === frameName(mine);
    return replaced || (mine.condition.length > 0 && theirs.condition.length === 0);
  };
  return judged(
    couples.filter(({ held, right }) => poorer(right, held)).map(() => 'takes'),
    couples.filter(({ held, right }) => poorer(held, right)).map(() => 'takes'),
  );
}
