import type { ReturnRef } from '../model/alignment.js';
import type { Frame, Reel, Side } from '../model/film.js';
import { frameOf } from './sequences.js';

/** The side without the frame numbers that nobody wrote: what was counted on says nothing of where a frame lies. */
export function withWrittenNumbers(side: Side): Side {
  const inferred = (frame: Frame): boolean => frame.frame?.inferred === true;
  if (!side.reels.some((reel) => reel.frames.some(inferred))) return side;
  const reels = side.reels.map((reel) => ({
    ...reel,
    frames: reel.frames.map((frame) => (inferred(frame) ? { ...frame, frame: null } : frame)),
  }));
  return { ...side, reels };
}

/** True where no numbers lead through the reel: the return gives none of its pages one, or the record's are places in a volume. Both sides with written numbers only. */
export function isUnnumbered(refs: readonly ReturnRef[], returned: Side, reel: Reel): boolean {
  if (reel.frames.length > 0 && reel.frames.every((frame) => frame.frame === null)) return true;
  const pages = refs.map((ref) => frameOf(returned, ref)).filter((frame) => frame.kind === 'page');
  return pages.length > 0 && pages.every((frame) => frame.frame === null);
}
