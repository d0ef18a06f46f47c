import type { Pair, ReturnRef } from '../model/alignment.js';
import type { FrameNumber, Reel, Side } from '../model/film.js';

/**
 * Gives the frames under which nothing was delivered the number that their neighbours give them. A run of empty numbers can be shared out
 * among blanks and halves in several ways that cost the same; only what lies on both sides of it is known. So each of them is as far off as the
 * page before it, and after a frame that only one side has as far off as the page behind it. A return without letters numbers the halves of an exposure
 * on: each further half puts what follows one further off. Pages whose own numbers are slips count with the numbers that they would have without, and frames
 * whose numbers in the record do not rise with the film count nothing.
 */
export function countEmptyPlaces(
  pairs: readonly Pair[],
  reel: Reel,
  returned: Side,
  lettered: boolean,
  undone: ReadonlyMap<ReturnRef, FrameNumber>,
): Pair[] {
  const result = [...pairs];
  const rising = risingFrames(reel);
  const own = (at: number): FrameNumber | null => reel.frames[pairs[at]?.record ?? -1]?.frame ?? null;
  const counted = (at: number): number => (!lettered && isSecondHalf(own(at - 1), own(at)) ? 1 : 0);
  const countedIn = (from: number, to: number): number => pairs.slice(from, to).reduce((sum, _, k) => sum + counted(from + k), 0);
  const shift = (at: number): number | null => {
    const pair = pairs[at];
    if (pair?.record == null || pair.returned === null || pair.how === 'moved' || !rising.has(pair.record)) return null;
    const mine = reel.frames[pair.record]?.frame?.exposure;
    const theirs = (undone.get(pair.returned) ?? returned.reels[pair.returned.reel]?.frames[pair.returned.frame]?.frame)?.exposure;
    return mine === undefined || theirs === undefined ? null : theirs - mine;
  };
  let at = 0;
  let before: number | null = null;
  while (at < pairs.length) {
    const here = shift(at);
    if (here !== null || pairs[at]?.how === 'reversed') {
      // inside a reversal an offset holds for one frame only
      before = pairs[at]?.how === 'reversed' ? null : here;
      at++;
      continue;
    }
    let end = at;
    while (end < pairs.length && shift(end) === null && pairs[end]?.how !== 'reversed') end++;
    // a page that came between and counts nothing leaves nothing to go by from behind it
    const counts = end < pairs.length && !pairs.slice(at, end).some(({ record, returned: came }) => record !== null && came !== null);
    const after = counts ? shift(end) : null;
    const alone = (pair: Pair | undefined): boolean => pair !== undefined && (!pair.slot || pair.record === null);
    const broken = pairs.slice(at, end).some(alone);
    let known = before ?? (broken || after === null ? 0 : after - countedIn(at, end + 1));
    for (let p = at; p < end; p++) {
      const pair = pairs[p];
      known += counted(p);
      if (alone(pair)) {
        // what lies behind the last number of the return goes on from it
        const frame = pair?.record == null ? undefined : reel.frames[pair.record];
        if (
          pair !== undefined &&
          before !== null &&
          end === pairs.length &&
          frame?.frame != null &&
          !frame.deliver &&
          !pairs.slice(p).some((one) => one.slot)
        ) {
          result[p] = { ...pair, exposure: frame.frame.exposure + known };
          continue;
        }
        // behind the last frame without a partner the numbers are those of what follows
        if (!pairs.slice(p + 1, end).some(alone)) known = after === null ? known : after - countedIn(p + 1, end + 1);
        continue;
      }
      const mine = pair?.record == null ? undefined : reel.frames[pair.record]?.frame?.exposure;
      if (pair !== undefined && pair.returned === null && pair.exposure !== null && mine !== undefined)
        result[p] = { ...pair, exposure: mine + known };
    }
    at = end;
  }
  return result;
}

/** Frames of the record whose number lies between those of the numbered frames next to them. */
function risingFrames({ frames }: Reel): ReadonlySet<number> {
  const numbered = frames.flatMap(({ frame }, index) => (frame === null ? [] : [{ index, frame }]));
  const rises = numbered.filter(({ frame }, at) => {
    const [before, behind] = [numbered[at - 1], numbered[at + 1]];
    return (before === undefined || follows(before.frame, frame)) && (behind === undefined || follows(frame, behind.frame));
  });
  return new Set(rises.map(({ index }) => index));
}

const follows = (one: FrameNumber, two: FrameNumber): boolean => one.exposure < two.exposure || isSecondHalf(one, two);

const isSecondHalf = (one: FrameNumber | null, two: FrameNumber | null): boolean =>
  one !== null && two !== null && one.exposure === two.exposure && one.half === 'A' && two.half === 'B';
