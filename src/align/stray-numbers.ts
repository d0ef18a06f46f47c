import type { ReturnRef } from '../model/alignment.js';
import type { Reel, Side } from '../model/film.js';
import { frameOf } from './sequences.js';

/** Numbers so little past the record's last frame come from frames counted twice, not from a slip of the pen. */
const PAST_THE_END = 20;
/** More than this is a count that jumped, not single numbers mistyped. */
const FEW = 3;

/**
 * Frames of the return whose numbers lead nowhere: far past the record's last frame, few, and in a document whose other pages are numbered
 * like the reel. Such a number says nothing of the place on the film, and must not stretch the order of the others.
 */
export function strayNumbers(refs: readonly ReturnRef[], returned: Side, reel: Reel): ReadonlySet<ReturnRef> {
  const end = Math.max(0, ...reel.frames.map((frame) => frame.frame?.exposure ?? 0)) + PAST_THE_END;
  const number = (ref: ReturnRef): number => frameOf(returned, ref).frame?.exposure ?? 0;
  const far = refs.filter((ref) => number(ref) > end);
  if (far.length === 0 || far.length > FEW) return new Set();
  const near = refs.filter((ref) => number(ref) <= end);
  const last = Math.max(0, ...near.map(number));
  const alone = far.every((ref) => {
    const { issue, order } = frameOf(returned, ref);
    const siblings = near.filter((other) => frameOf(returned, other).issue === issue);
    const behind = siblings.some((other) => (frameOf(returned, other).order ?? 0) > (order ?? 0));
    // at the very end of the reel it may be where the count begins to run on wrongly
    return issue !== null && siblings.length > 0 && (behind || Math.max(...siblings.map(number)) < last);
  });
  return new Set(alone ? far : []);
}
