import type { Policies } from '../model/agreement.js';
import type { Frame, Reel } from '../model/film.js';

/** The number each frame of the record must have in the return, as exposure and half. Where halves are numbered on, they are counted from the first frame's number. */
export function expectedNumbers(reel: Reel, policies: Policies): ({ readonly exposure: number; readonly half: string } | null)[] {
  if (policies.splitExposures === 'lettered') return reel.frames.map((frame) => frame.frame);
  let last: number | null = null;
  let lastWritten: Frame | null = null;
  return reel.frames.map((frame) => {
    const written = frame.frame;
    if (written === null) return null;
    const before = lastWritten?.frame ?? null;
    const step: number = before === null ? 0 : Math.max(1, written.exposure - before.exposure);
    last = last === null ? written.exposure : last + step;
    lastWritten = frame;
    return { exposure: last, half: '' };
  });
}
