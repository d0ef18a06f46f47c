import type { Pair } from '../model/alignment.js';
import type { Reel, Side } from '../model/film.js';
import { contentKey } from './keys.js';
import { frameOf } from './sequences.js';

/** No run of pages filmed twice is followed further. */
const LONGEST = 120;

/**
 * Pages filmed twice, one take behind the other, of which the vendor delivered the takes that were to be held back: each image agrees with the frame
 * beside its own as well as with the one whose number it has. Where a frame more and a frame less on either side cancel out and the numbers in between
 * are those of frames that show the same pages, the frames are those of the numbers.
 */
export function settleTakes(pairs: readonly Pair[], reel: Reel, record: Side, returned: Side): Pair[] {
  const result = [...pairs];
  for (let from = 0; from < result.length; from++) {
    const side = alone(result[from]);
    if (side === null) continue;
    const to = opposite(result, from, side);
    if (to === null) continue;
    const run = result.slice(from, to + 1);
    const frames = run.flatMap((pair) => pair.record ?? []);
    const places = run.filter((pair) => pair.returned !== null || pair.slot);
    if (frames.length !== places.length) continue;
    const settled = places.map((place, k) => ({ ...place, record: frames[k] ?? null }));
    if (!settled.every((pair) => byNumber(pair, reel, record, returned))) continue;
    result.splice(from, run.length, ...settled);
    from += settled.length - 1;
  }
  return result;
}

/** Which side has nothing here; null where both have something. */
function alone(pair: Pair | undefined): 'record' | 'return' | null {
  if (pair?.how !== 'order') return null;
  if (pair.record === null) return 'return';
  return pair.returned === null && !pair.slot ? 'record' : null;
}

/** The next place where the other side has nothing; null where the same side lacks another one first. */
function opposite(pairs: readonly Pair[], from: number, side: 'record' | 'return'): number | null {
  for (let at = from + 1; at < pairs.length && at - from <= LONGEST; at++) {
    if (pairs[at]?.how !== 'order') return null;
    const here = alone(pairs[at]);
    if (here !== null) return here === side ? null : at;
  }
  return null;
}

/** True where the number is that of the frame and an image shows the page that the frame shows. */
function byNumber(pair: Pair, reel: Reel, record: Side, returned: Side): boolean {
  const frame = reel.frames[pair.record ?? -1];
  if (frame?.frame == null) return false;
  if (pair.returned === null) return pair.exposure === frame.frame.exposure;
  const image = frameOf(returned, pair.returned);
  if (image.frame?.exposure !== frame.frame.exposure || image.frame.half !== frame.frame.half) return false;
  const key = contentKey(frame, record);
  return frame.kind === 'page' && key !== null && key === contentKey(image, returned);
}
