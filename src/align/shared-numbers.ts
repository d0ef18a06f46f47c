import type { ReturnRef } from '../model/alignment.js';
import type { Frame, Reel, Side } from '../model/film.js';
import { orderKey, uniqueKeys } from './keys.js';
import { frameOf, numberOf } from './sequences.js';
import type { Sides } from './wide-readings.js';

/**
 * Frames in the order of their numbers, and those of them that share one as the film has them: where the record has a page of that number, pages stand
 * before what lies outside any issue; where it has none, what lies outside stands there, and pages before or behind it by what they say of themselves.
 */
export function sharedNumbers(refs: readonly ReturnRef[], reel: Reel, { record, returned }: Sides): readonly ReturnRef[] {
  const runs: ReturnRef[][] = [];
  let last = '';
  for (const ref of refs) {
    const key = numberOf(frameOf(returned, ref));
    if (key !== '' && key === last) runs.at(-1)?.push(ref);
    else runs.push([ref]);
    last = key;
  }
  const inIssue = (ref: ReturnRef): boolean => frameOf(returned, ref).issue !== null;
  const isMixed = (run: readonly ReturnRef[]): boolean => run.some(inIssue) && !run.every(inIssue);
  if (!runs.some(isMixed)) return refs;
  const rank = ranks(reel, record, returned);
  return runs.flatMap((run) => (isMixed(run) ? run.toSorted((a, b) => rank(frameOf(returned, a)) - rank(frameOf(returned, b))) : run));
}

/** Where a frame stands among those of its number: pages in front, what lies outside any issue in the middle, pages behind. */
function ranks(reel: Reel, record: Side, returned: Side): (frame: Frame) => number {
  const known = uniqueKeys(reel.frames, record, orderKey);
  const places = new Map(reel.frames.map((frame, at) => [numberOf(frame), at]));
  return (frame) => {
    if (frame.issue === null) return 1;
    const place = places.get(numberOf(frame)) ?? -1;
    const own = known.get(orderKey(frame, returned) ?? '') ?? -1;
    return reel.frames[place]?.issue === null && own > place ? 2 : 0;
  };
}
