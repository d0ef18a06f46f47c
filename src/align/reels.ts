import type { Alignment, ReturnRef } from '../model/alignment.js';
import type { Side } from '../model/film.js';
import { contentKey } from './keys.js';
import { compareNumbers, frameOf } from './sequences.js';

/** Which frames of the return are to be aligned with which reel of the record. */
export interface ReelMatch {
  readonly recordReel: number | null;
  readonly returnReels: readonly number[];
  readonly by: Alignment['by'];
  readonly refs: readonly ReturnRef[];
}

/** Half of what a reel of the return holds must be known from a reel of the record before the two are taken for the same by content. */
const SAME_REEL_SHARE = 0.5;

/**
 * Matches reels: by number first, where somebody wrote it, then reels that were spliced into a carrier, then by what they hold. Afterwards single frames whose
 * content is missing from their own reel and wanting in another one are aligned there: a wrong reel number must not unpair them.
 */
export function matchReels(record: Side, returned: Side): ReelMatch[] {
  const owner = new Map<number, { reel: number; by: Alignment['by'] }>();
  const taken = new Set<number>();
  const give = (returnReel: number, reel: number, by: Alignment['by']): void => {
    owner.set(returnReel, { reel, by });
    taken.add(reel);
  };
  record.reels.forEach((reel, r) => {
    returned.reels.forEach((other, t) => {
      if (!owner.has(t) && other.numberInferred !== true && (other.number === reel.number || other.alsoKnownAs.includes(reel.number)))
        give(t, r, 'number');
    });
  });
  record.reels.forEach((reel, r) => {
    const sources = new Set(reel.frames.map((frame) => frame.sourceReel?.number ?? ''));
    returned.reels.forEach((other, t) => {
      if (!owner.has(t) && other.numberInferred !== true && sources.has(other.number)) give(t, r, 'spliced');
    });
  });
  const wanted = record.reels.map(
    (reel) => new Set(reel.frames.filter((frame) => frame.deliver).map((frame) => contentKey(frame, record))),
  );
  returned.reels.forEach((other, t) => {
    if (owner.has(t)) return;
    const keys = other.frames.map((frame) => contentKey(frame, returned)).filter((key) => key !== null);
    let best = { reel: -1, shared: 0 };
    wanted.forEach((keysHere, r) => {
      const shared = keys.filter((key) => keysHere.has(key)).length;
      if (shared > best.shared) best = { reel: r, shared };
    });
    // frames of which nobody wrote the reel are no reel: they may be of several, and those of others are sent home below
    const share = other.numberInferred === true ? 0 : SAME_REEL_SHARE;
    if (best.reel >= 0 && best.shared >= keys.length * share) give(t, best.reel, 'content');
    else if (record.reels.length === 1 && returned.reels.length === 1) give(t, 0, 'content');
  });
  const lists = record.reels.map((): ReturnRef[] => []);
  const strangers: ReelMatch[] = [];
  returned.reels.forEach((reel, t) => {
    const refs = reel.frames.map((_, frame) => ({ reel: t, frame }));
    const home = owner.get(t);
    if (home === undefined) strangers.push({ recordReel: null, returnReels: [t], by: 'none', refs });
    else lists[home.reel]?.push(...refs);
  });
  const held = record.reels.map((reel) => new Set(reel.frames.filter((frame) => !frame.deliver).map((frame) => contentKey(frame, record))));
  sendHome(lists, wanted, held, returned);
  const matches: ReelMatch[] = record.reels.map((_, r) => {
    const reels = [...owner].filter(([, home]) => home.reel === r).map(([t]) => t);
    const refs = lists[r] ?? [];
    const single = new Set(refs.map((ref) => ref.reel)).size <= 1;
    return {
      recordReel: r,
      returnReels: reels,
      by: [...owner.values()].find((home) => home.reel === r)?.by ?? 'none',
      refs: single ? refs : inNumberOrder(refs, returned),
    };
  });
  return [...matches, ...strangers];
}

/** Moves frames to the reel that wants them: their content is not in the reel they came under, to be delivered or held back, and the other one lacks exactly that. */
function sendHome(
  lists: ReturnRef[][],
  wanted: readonly ReadonlySet<string | null>[],
  held: readonly ReadonlySet<string | null>[],
  returned: Side,
): void {
  if (lists.length < 2) return;
  const present = lists.map((refs) => new Set(refs.map((ref) => contentKey(frameOf(returned, ref), returned))));
  const homes = lists.map((refs, from) =>
    refs.map((ref) => {
      const key = contentKey(frameOf(returned, ref), returned);
      if (key === null || wanted[from]?.has(key) === true) return from;
      // a page said to be of this reel may be the take that was to be held back here
      if (held[from]?.has(key) === true && returned.reels[ref.reel]?.numberInferred !== true) return from;
      const others = wanted.flatMap((keys, r) => (r !== from && keys.has(key) ? [r] : []));
      const home = others.length === 1 ? others[0] : undefined;
      return home === undefined || present[home]?.has(key) === true ? from : home;
    }),
  );
  const moves = (from: number, to: number): number => homes[from]?.filter((home) => home === to).length ?? 0;
  // Pages that would change places between two reels, few on both, carry each other's facts: the reels are right.
  const exchanged = (from: number, to: number): boolean =>
    moves(to, from) > 0 && moves(from, to) * 2 < (lists[from]?.length ?? 0) && moves(to, from) * 2 < (lists[to]?.length ?? 0);
  const before = lists.map((refs) => [...refs]);
  before.forEach((refs, from) => {
    const leaving = (at: number): number => {
      const home = homes[from]?.[at] ?? from;
      return home !== from && exchanged(from, home) ? from : home;
    };
    lists[from] = [...(lists[from] ?? []).filter((ref) => !refs.includes(ref)), ...refs.filter((_, at) => leaving(at) === from)];
    refs.forEach((ref, at) => {
      const home = leaving(at);
      if (home !== from) lists[home]?.push(ref);
    });
  });
}

/** Frames from several reels of the return in one order, by number. */
function inNumberOrder(refs: readonly ReturnRef[], returned: Side): ReturnRef[] {
  return refs
    .map((ref, index) => ({ ref, index, frame: frameOf(returned, ref).frame }))
    .sort((a, b) => compareNumbers(a.frame, b.frame) || a.ref.reel - b.ref.reel || a.index - b.index)
    .map((entry) => entry.ref);
}
