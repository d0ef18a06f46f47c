import type { Alignment, ReturnRef } from '../model/alignment.js';
import type { Frame, Side } from '../model/film.js';
import { contentKey, orderKey } from './keys.js';
import { compareNumbers, frameOf, numberOf } from './sequences.js';

/** Which frames of the return are to be aligned with which reel of the record. */
export interface ReelMatch {
  readonly recordReel: number | null;
  readonly returnReels: readonly number[];
  readonly by: Alignment['by'];
  readonly refs: readonly ReturnRef[];
}

/** Half of what a reel of the return holds must be known from a reel of the record before the two are taken for the same by content. */
const SAME_REEL_SHARE = 0.5;

/** Frames of a reel of the record that are to be delivered, by what they show: the numbers that they have there. */
type Wanted = ReadonlyMap<string, ReadonlySet<string>>;

/** The reels of the record that want what a key stands for, in their order. */
type Wanting = ReadonlyMap<string, readonly number[]>;

/**
 * Matches reels: by number first, where somebody wrote it, then reels that were spliced into a carrier, then by what
 * they hold, and the last one left on either side with each other. Afterwards single frames whose
 * content is missing from their own reel and wanting in another one are aligned there: a wrong reel number must not unpair them.
 */
export function matchReels(record: Side, returned: Side): ReelMatch[] {
  const owner = new Map<number, { reel: number; by: Alignment['by'] }>();
  const give = (returnReel: number, reel: number, by: Alignment['by']): void => {
    owner.set(returnReel, { reel, by });
  };
  let found: Asked | null = null;
  const asked = (): Asked => (found ??= askedBy(record));
  record.reels.forEach((reel, r) => {
    returned.reels.forEach((other, t) => {
      const named = other.numberInferred !== true && (other.number === reel.number || other.alsoKnownAs.includes(reel.number));
      if (!owner.has(t) && named) give(t, r, 'number');
    });
  });
  record.reels.forEach((reel, r) => {
    const sources = new Set(reel.frames.map((frame) => frame.sourceReel?.number ?? ''));
    returned.reels.forEach((other, t) => {
      if (!owner.has(t) && other.numberInferred !== true && sources.has(other.number)) give(t, r, 'spliced');
    });
  });
  returned.reels.forEach((other, t) => {
    if (owner.has(t)) return;
    const { shared, all } = knownOn(other.frames, returned, record.reels.length, asked().wanting);
    const most = Math.max(0, ...shared);
    // frames of which nobody wrote the reel are no reel: they may be of several, and those of others are sent home below
    const share = other.numberInferred === true ? 0 : SAME_REEL_SHARE;
    if (most > 0 && most >= all * share) give(t, shared.indexOf(most), 'content');
  });
  const pageless = record.reels.flatMap((_, r) =>
    [...owner].some(([t, home]) => home.reel === r && showsPages(returned.reels[t])) ? [] : [r],
  );
  const strangers = returned.reels.flatMap((reel, t) => (!owner.has(t) && showsPages(reel) ? [t] : []));
  if (pageless.length === 1 && strangers.length === 1) give(strangers[0] ?? 0, pageless[0] ?? 0, 'content');
  return matched(record, returned, owner, asked);
}

const showsPages = (reel: Side['reels'][number] | undefined): boolean => reel?.frames.some(({ kind }) => kind === 'page') === true;

/** By what it says of itself, and by its place in the issue: a label may stand on one side only. */
function keysOf(frame: Frame, side: Side): readonly string[] {
  return [contentKey(frame, side), orderKey(frame, side)].filter((key) => key !== null);
}

/** What the reels of the record ask for, and what is held back on them. Most returns are matched without it. */
interface Asked {
  readonly wanted: readonly Wanted[];
  readonly wanting: Wanting;
  readonly held: readonly Wanted[];
}

function askedBy(record: Side): Asked {
  const on = (deliver: boolean): readonly Wanted[] =>
    record.reels.map(({ frames }) =>
      wantedOn(
        frames.filter((frame) => frame.deliver === deliver),
        record,
      ),
    );
  const wanted = on(true);
  return { wanted, wanting: wantingReels(wanted), held: on(false) };
}

/** Whether each reel of the record asks for all that came for it: then nothing there belongs elsewhere. */
function areAtHome(lists: readonly (readonly ReturnRef[])[], record: Side, returned: Side): boolean {
  return lists.every((refs, r) => {
    const own = new Set((record.reels[r]?.frames ?? []).flatMap((frame) => (frame.deliver ? keysOf(frame, record) : [])));
    return refs.every((ref) => keysOf(frameOf(returned, ref), returned).every((key) => own.has(key)));
  });
}

function wantedOn(frames: readonly Frame[], record: Side): Wanted {
  const found = new Map<string, Set<string>>();
  for (const frame of frames) for (const key of keysOf(frame, record)) found.set(key, (found.get(key) ?? new Set()).add(numberOf(frame)));
  return found;
}

function wantingReels(wanted: readonly Wanted[]): Wanting {
  const reels = new Map<string, number[]>();
  wanted.forEach((here, r) => {
    for (const key of here.keys()) {
      const own = reels.get(key);
      if (own === undefined) reels.set(key, [r]);
      else own.push(r);
    }
  });
  return reels;
}

/** How many pages of a reel of the return each reel of the record wants, of how many that say what they are. */
function knownOn(
  frames: readonly Frame[],
  returned: Side,
  reels: number,
  wanting: Wanting,
): { readonly shared: readonly number[]; readonly all: number } {
  const keys = frames.map((frame) => contentKey(frame, returned)).filter((key) => key !== null);
  const shared = new Array<number>(reels).fill(0);
  for (const key of keys) for (const r of wanting.get(key) ?? []) shared[r] = (shared[r] ?? 0) + 1;
  return { shared, all: keys.length };
}

function matched(
  record: Side,
  returned: Side,
  owner: ReadonlyMap<number, { readonly reel: number; readonly by: Alignment['by'] }>,
  asked: () => Asked,
): ReelMatch[] {
  const lists = record.reels.map((): ReturnRef[] => []);
  const strangers: ReelMatch[] = [];
  returned.reels.forEach((reel, t) => {
    const refs = reel.frames.map((_, frame) => ({ reel: t, frame }));
    const home = owner.get(t);
    if (home === undefined) strangers.push({ recordReel: null, returnReels: [t], by: 'none', refs });
    else lists[home.reel]?.push(...refs);
  });
  if (!areAtHome(lists, record, returned)) sendHome(lists, asked(), returned);
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
function sendHome(lists: ReturnRef[][], asked: Asked, returned: Side): void {
  if (lists.length < 2) return;
  const present = lists.map((refs) => new Set(refs.flatMap((ref) => keysOf(frameOf(returned, ref), returned))));
  const claims = new Map<string, number>();
  for (const ref of lists.flat()) for (const key of keysOf(frameOf(returned, ref), returned)) claims.set(key, (claims.get(key) ?? 0) + 1);
  const known = { ...asked, present, claims };
  const homes = lists.map((refs, from) => refs.map((ref) => homeOf(frameOf(returned, ref), returned, from, known, ref)));
  const moves = (from: number, to: number): number => homes[from]?.filter(({ reel }) => reel === to).length ?? 0;
  // Pages that would change places between two reels, few on both, carry each other's facts: the reels are right. Where they have the numbers of their own reel they are not.
  const exchanged = (from: number, to: number): boolean =>
    moves(to, from) > 0 && moves(from, to) * 2 < (lists[from]?.length ?? 0) && moves(to, from) * 2 < (lists[to]?.length ?? 0);
  const before = lists.map((refs) => [...refs]);
  before.forEach((refs, from) => {
    const leaving = (at: number): number => {
      const home = homes[from]?.[at] ?? { reel: from, sure: true };
      return !home.sure && home.reel !== from && exchanged(from, home.reel) ? from : home.reel;
    };
    const own = new Set(refs);
    lists[from] = [...(lists[from] ?? []).filter((ref) => !own.has(ref)), ...refs.filter((_, at) => leaving(at) === from)];
    refs.forEach((ref, at) => {
      const home = leaving(at);
      if (home !== from) lists[home]?.push(ref);
    });
  });
}

interface Homes extends Asked {
  readonly present: readonly ReadonlySet<string>[];
  /** How many pages of the return say that they are this one. */
  readonly claims: ReadonlyMap<string, number>;
}

/** The reel of the record that wants a page which came under another, and whether it has that page's own number there. */
function homeOf(
  frame: Frame,
  returned: Side,
  from: number,
  { wanted, wanting, held, present, claims }: Homes,
  ref: ReturnRef,
): { readonly reel: number; readonly sure: boolean } {
  const stays = { reel: from, sure: true };
  const keys = keysOf(frame, returned);
  // by its place alone a page is known only where its number is the same as well
  const own = numberOf(frame);
  const known = (reel: number, each: string): boolean => each === keys[0] || (own !== '' && wanted[reel]?.get(each)?.has(own) === true);
  const key = keys.find((each) => wanting.get(each)?.some((reel) => known(reel, each)) === true);
  if (key === undefined || wanted[from]?.has(key) === true) return stays;
  // what more pages say of themselves than there are tells of none of them where it is
  const others = wanting.get(key) ?? [];
  const there = others.reduce((sum, reel) => sum + (wanted[reel]?.get(key)?.size ?? 0), 0);
  if ((claims.get(key) ?? 0) > there) return stays;
  const [home] = others;
  if (others.length !== 1 || home === undefined || present[home]?.has(key) === true) return stays;
  const sure = own !== '' && wanted[home]?.get(key)?.has(own) === true;
  // a page said to be of this reel may be the take that was to be held back here, unless it has the number of the other
  const numbers = keys.flatMap((each) => [...(held[from]?.get(each) ?? [])]);
  const isHeld = numbers.length > 0 && (!sure || numbers.includes(own));
  if (isHeld && returned.reels[ref.reel]?.numberInferred !== true) return stays;
  return { reel: home, sure };
}

/** Frames from several reels of the return in one order, by number. */
export function inNumberOrder(refs: readonly ReturnRef[], returned: Side): ReturnRef[] {
  return refs
    .map((ref, index) => ({ ref, index, frame: frameOf(returned, ref).frame }))
    .sort((a, b) => compareNumbers(a.frame, b.frame) || a.ref.reel - b.ref.reel || a.index - b.index)
    .map((entry) => entry.ref);
}
