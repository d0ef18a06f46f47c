import type { PairRef } from '../../model/difference.js';
import { frameName } from '../draft.js';
import { fieldOf, recordFrame, recordReelOf, type Scene } from '../scene.js';

/** Held-back pages that were delivered, in film order. */
export function heldBackDelivered(scene: Scene): PairRef[] {
  return fieldOf(scene, 'delivered')
    .flatMap((difference) => difference.pairs)
    .filter((ref) => recordFrame(scene, ref)?.kind === 'page');
}

/** Pages under whose number nothing came, in film order. */
export function notDelivered(scene: Scene): PairRef[] {
  return fieldOf(scene, 'not-delivered').flatMap((difference) => difference.pairs);
}

/** The frame that a held-back page repeats or that replaces it, as the record says or as its content shows. */
export function twinsOf(scene: Scene, ref: PairRef, among: readonly PairRef[]): PairRef | undefined {
  const mine = recordFrame(scene, ref);
  if (mine === undefined) return undefined;
  const here = recordReelOf(scene, ref)?.number;
  const names = (frame: typeof mine.duplicateOf, other: PairRef): boolean =>
    frame !== null && frame.frame === frameName(recordFrame(scene, other)) && recordReelOf(scene, other)?.number === (frame.reel ?? here);
  return (
    among.find((other) => names(mine.duplicateOf, other)) ??
    among.find((other) => {
      const theirs = recordFrame(scene, other);
      return theirs?.retakeOf != null && theirs.retakeOf.frame === frameName(mine) && recordReelOf(scene, other)?.number === here;
    }) ??
    among.find((other) => {
      const theirs = recordFrame(scene, other);
      return (
        theirs !== undefined &&
        mine.issue !== null &&
        theirs.issue === mine.issue &&
        theirs.pageKey === mine.pageKey &&
        theirs.section === mine.section
      );
    })
  );
}
