import type { Alignment, Pair } from '../model/alignment.js';
import type { Side } from '../model/film.js';
import { cheapestAlignment } from './cheapest.js';
import { countEmptyPlaces } from './empty-places.js';
import { dictionary } from './features.js';
import { contentKey, orderKey, uniqueKeys } from './keys.js';
import { pairMoved } from './moves.js';
import { matchReels, type ReelMatch } from './reels.js';
import { reversedRuns, turned } from './reversals.js';
import { frameOf, recordSequence, type ReturnPlace, returnPlaces, returnSequence } from './sequences.js';

/** Aligns both sides by frame order, reel by reel: which frame of the return is which frame of the film. */
export function align(record: Side, returned: Side): Alignment[] {
  return matchReels(record, returned).map((match) => alignReel(match, record, returned));
}

function alignReel(match: ReelMatch, record: Side, returned: Side): Alignment {
  const reel = match.recordReel === null ? undefined : record.reels[match.recordReel];
  const base = { recordReel: match.recordReel, returnReels: match.returnReels, by: match.by };
  if (reel === undefined) {
    const pairs = match.refs.map((ref): Pair => {
      const exposure = frameOf(returned, ref).frame?.exposure ?? null;
      return { record: null, returned: ref, slot: true, exposure, how: 'order' };
    });
    return { ...base, pairs, reversals: [], cost: 0 };
  }
  if (match.refs.length === 0) {
    const pairs = reel.frames.map((_, index): Pair => ({ record: index, returned: null, slot: false, exposure: null, how: 'order' }));
    return { ...base, pairs, reversals: [], cost: 0 };
  }
  const inOrder = returnPlaces(match.refs, returned, reel.frames[0]?.frame?.exposure ?? null, reel.frames.length);
  const runs = reversedRuns(inOrder, positions(inOrder, reel.frames, record, returned));
  const places = turned(inOrder, runs);
  const code = dictionary();
  const whole = runs.length === 1 && runs[0]?.from === 0 && runs[0].to === places.length - 1;
  const mine = recordSequence(reel, record, code, whole);
  const theirs = returnSequence(places, returned, code);
  const { steps, cost } = cheapestAlignment(mine.sequence, theirs);
  const reversed = new Set(runs.flatMap((run) => places.slice(run.from, run.to + 1)));
  const found: Pair[] = [];
  for (const step of steps) {
    const frame = step.record === null ? null : (mine.places[step.record]?.frame ?? null);
    const place = step.returned === null ? undefined : places[step.returned];
    // a number that neither side fills, and one of several that an undescribed stretch takes up, says nothing
    if (frame === null && (place === undefined || (place.ref === null && step.record !== null))) continue;
    if (frame === null && place?.ref === null && theirs.free[step.returned ?? 0] === 1) continue;
    found.push({
      record: frame,
      returned: place?.ref ?? null,
      slot: place !== undefined,
      exposure: place?.exposure ?? null,
      how: place !== undefined && reversed.has(place) ? 'reversed' : 'order',
    });
  }
  const pairs = countEmptyPlaces(pairMoved(found, reel, record, returned), reel, returned);
  return { ...base, pairs, reversals: runsOf(pairs), cost };
}

/** Where each place's page stands in the record, by what it says of itself. */
function positions(places: readonly ReturnPlace[], frames: Side['reels'][number]['frames'], record: Side, returned: Side): (number | null)[] {
  const byLabel = uniqueKeys(frames, record, contentKey);
  const byOrder = uniqueKeys(frames, record, orderKey);
  return places.map((place) => {
    if (place.ref === null) return null;
    const frame = frameOf(returned, place.ref);
    return byLabel.get(contentKey(frame, returned) ?? '') ?? byOrder.get(orderKey(frame, returned) ?? '') ?? null;
  });
}

function runsOf(pairs: readonly Pair[]): { from: number; to: number }[] {
  const runs: { from: number; to: number }[] = [];
  pairs.forEach((pair, at) => {
    if (pair.how !== 'reversed') return;
    const last = runs.at(-1);
    if (last?.to === at - 1) last.to = at;
    else runs.push({ from: at, to: at });
  });
  return runs;
}
