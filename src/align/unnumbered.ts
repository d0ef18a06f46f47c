import type { Pair, ReturnRef } from '../model/alignment.js';
import type { Frame, Reel, Side } from '../model/film.js';
import { cheapestAlignment } from './cheapest.js';
import { copiedDocuments, withCopies } from './copied-documents.js';
import { dictionary } from './features.js';
import { pairMoved } from './moves.js';
import { filmInReadingOrder, pagesInReadingOrder } from './reading-order.js';
import { frameOf, recordSequence, returnSequence } from './sequences.js';
import { settleByContent } from './settled-content.js';
import { firstOfTwo } from './settled-pages.js';

/**
 * Aligns a reel without frame numbers: both sides are put in reading order, since the return has no other, aligned by what they show, and put
 * back in film order. What is not delivered leaves no trace there and is passed over without cost.
 */
export function alignUnnumbered(refs: readonly ReturnRef[], reel: Reel, record: Side, returned: Side): { pairs: Pair[]; cost: number } {
  const copies = copiedDocuments(refs, record, returned, 'content');
  const pages = refs.filter((ref) => !copies.has(ref) && frameOf(returned, ref).kind === 'page');
  const film = filmInReadingOrder(reel);
  // counted anew: neither holes in the record's own numbers nor its letters say anything here
  const read: Reel = {
    ...reel,
    frames: film.flatMap((at, place) => {
      const frame = reel.frames[at];
      return frame === undefined ? [] : [{ ...frame, frame: { text: '', exposure: place + 1, half: '' } }];
    }),
  };
  const places = pagesInReadingOrder(pages, reel, record, returned).map((ref) => ({ ref, exposure: null, half: '' }));
  const code = dictionary();
  const mine = recordSequence(read, record, code, 'page', true, false).sequence;
  const free = Uint8Array.from(read.frames, (frame) => (mustCome(frame) ? 0 : 1));
  const theirs = returnSequence(places, returned, code);
  const bare = {
    features: { ...theirs.features, half: new Int32Array(places.length), second: new Int32Array(places.length) },
    free: theirs.free,
  };
  const { steps, cost } = cheapestAlignment({ features: mine.features, free }, bare);
  const found = steps.map((step): Pair => {
    const ref = step.returned === null ? null : (places[step.returned]?.ref ?? null);
    return { record: step.record, returned: ref, slot: true, exposure: null, how: 'order' };
  });
  const settled = [
    (pairs: readonly Pair[]) => pairMoved(pairs, read, record, returned),
    (pairs: readonly Pair[]) => settleByContent(pairs, read, record, returned),
    (pairs: readonly Pair[]) => firstOfTwo(pairs, returned),
  ].reduce<Pair[]>((pairs, step) => step(pairs), found);
  const back = inFilmOrder(settled.map((pair) => ({ ...pair, record: pair.record === null ? null : (film[pair.record] ?? null) })));
  const others = refs.filter((ref) => frameOf(returned, ref).kind !== 'page');
  const whole = withCopies(withOthers(back, others, reel, returned), copies, returned);
  return { pairs: whole.map((pair) => plainPair(pair, reel)), cost };
}

/** Pages and whatever else is to be delivered; targets are listed elsewhere. */
function mustCome(frame: Frame | undefined): boolean {
  return frame !== undefined && frame.deliver && frame.kind !== 'target';
}

/** Back in the order of the film; what only the return has stays behind the page before it. */
function inFilmOrder(pairs: readonly Pair[]): Pair[] {
  let before = -1;
  return pairs
    .map((pair, at) => {
      before = pair.record ?? before;
      return { pair, at, film: before, only: pair.record === null ? 1 : 0 };
    })
    .sort((a, b) => a.film - b.film || a.only - b.only || a.at - b.at)
    .map(({ pair }) => pair);
}

/** Targets, and frames outside any issue: with the frame of the record that has their number, else one after the other with those that lie there. */
function withOthers(pairs: readonly Pair[], others: readonly ReturnRef[], reel: Reel, returned: Side): Pair[] {
  const result = [...pairs];
  const open = (ref: ReturnRef, at: number): boolean => {
    const pair = result[at];
    const frame = pair?.record == null ? undefined : reel.frames[pair.record];
    if (pair === undefined || pair.returned !== null || frame === undefined) return false;
    return frameOf(returned, ref).kind === 'unmatched' || frame.kind === 'target';
  };
  const put = (ref: ReturnRef, at: number): void => {
    const pair = result[at];
    if (pair !== undefined) result[at] = { ...pair, returned: ref };
  };
  const numbered = (ref: ReturnRef): number => {
    const number = frameOf(returned, ref).frame;
    if (number === null) return -1;
    return result.findIndex((pair, at) => {
      const mine = pair.record === null ? undefined : reel.frames[pair.record];
      const own = mine?.frame ?? null;
      return own !== null && own.exposure === number.exposure && own.half === number.half && open(ref, at);
    });
  };
  const left = others.filter((ref) => {
    const at = numbered(ref);
    if (at >= 0) put(ref, at);
    return at < 0;
  });
  const surplus = left.filter((ref) => {
    // one outside any issue whose number the film does not have is not taken for a frame of another number
    const stranger = frameOf(returned, ref).kind === 'unmatched' && frameOf(returned, ref).frame !== null;
    const at = stranger ? -1 : result.findIndex((pair, index) => open(ref, index) && !mustCome(reel.frames[pair.record ?? -1]));
    if (at >= 0) put(ref, at);
    return at < 0;
  });
  return [...result, ...surplus.map((ref): Pair => ({ record: null, returned: ref, slot: true, exposure: null, how: 'order' }))];
}

/** A page that must come has its place whether it came or not; what is not delivered has one only where something came for it. */
function plainPair(pair: Pair, reel: Reel): Pair {
  const frame = pair.record === null ? undefined : reel.frames[pair.record];
  const slot = pair.returned !== null || mustCome(frame);
  return { ...pair, slot, exposure: null, how: 'order' };
}
