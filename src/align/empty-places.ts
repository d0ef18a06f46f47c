import type { Pair } from '../model/alignment.js';
import type { Reel, Side } from '../model/film.js';

/**
 * Gives the frames under which nothing was delivered the number that their neighbours give them. A run of empty numbers can be shared out
 * among blanks and halves in several ways that cost the same; only what lies on both sides of it is known. So each of them is as far off as the
 * page before it, and after a frame that only one side has as far off as the page behind it.
 */
export function countEmptyPlaces(pairs: readonly Pair[], reel: Reel, returned: Side): Pair[] {
  const result = [...pairs];
  const shift = (at: number): number | null => {
    const pair = pairs[at];
    if (pair?.record == null || pair.returned === null || pair.how === 'moved') return null;
    const mine = reel.frames[pair.record]?.frame?.exposure;
    const theirs = returned.reels[pair.returned.reel]?.frames[pair.returned.frame]?.frame?.exposure;
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
    const after = end < pairs.length ? shift(end) : null;
    const alone = (pair: Pair | undefined): boolean => pair !== undefined && (!pair.slot || pair.record === null);
    const broken = pairs.slice(at, end).some(alone);
    let known = before ?? (broken ? 0 : (after ?? 0));
    for (let p = at; p < end; p++) {
      const pair = pairs[p];
      if (alone(pair)) {
        // what lies behind the last number of the return goes on from it
        const own = pair?.record == null ? undefined : reel.frames[pair.record];
        if (
          pair !== undefined &&
          before !== null &&
          end === pairs.length &&
          own?.frame != null &&
          !own.deliver &&
          !pairs.slice(p).some((one) => one.slot)
        ) {
          result[p] = { ...pair, exposure: own.frame.exposure + known };
          continue;
        }
        // behind the last frame without a partner the numbers are those of what follows
        if (!pairs.slice(p + 1, end).some(alone)) known = after ?? known;
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
