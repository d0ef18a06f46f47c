import type { Alignment, Pair, ReturnRef } from '../model/alignment.js';
import type { Reel, Side } from '../model/film.js';
import { copiedDocuments, withCopies } from './copied-documents.js';
import { COST } from './cost.js';
import { matchedByDocuments } from './document-homes.js';
import { countEmptyPlaces } from './empty-places.js';
import { forgetKeys } from './keys.js';
import { pairMoved } from './moves.js';
import { matchReels, type ReelMatch } from './reels.js';
import { restartOffsets } from './restarts.js';
import { frameOf } from './sequences.js';
import { settleByContent } from './settled-content.js';
import { firstOfTwo, halvesOfLost, settleCountedIn } from './settled-pages.js';
import { settlePermutations } from './settled-permutations.js';
import { settleTakes } from './settled-takes.js';
import { sharedNumbers } from './shared-numbers.js';
import { strayNumbers } from './stray-numbers.js';
import { settleSurplusPlaces } from './surplus-places.js';
import { settleTailRepeats } from './tail-repeats.js';
import { alignUnnumbered } from './unnumbered.js';
import { cheapestWay } from './ways.js';
import { type Sides, wideReadings } from './wide-readings.js';
import { isUnnumbered, withWrittenNumbers } from './written-numbers.js';

/**
 * Aligns both sides by frame order, reel by reel: which frame of the return is which frame of the film. Where one change of all of a title makes the film
 * hard to follow, it is followed as if that change were undone, and so is another beside it.
 */
export function align(record: Side, returned: Side): Alignment[] {
  const written: Sides = { record, returned };
  let best = cheapestReels(written, written, Number.POSITIVE_INFINITY) ?? [];
  // nothing costs less than film on which everything agrees
  for (let sides: Sides | null = written; sides !== null && costOf(best) > 0; ) {
    const readings: readonly Sides[] = wideReadings(sides.record, sides.returned);
    sides = null;
    for (const reading of readings) {
      const other = cheapestReels(reading, written, costOf(best));
      if (other !== null && costOf(other) < costOf(best)) [best, sides] = [other, reading];
    }
  }
  forgetKeys();
  return best;
}

/** What a reel costs that only one side has. */
const costAlone = (frames: number): number => (frames === 0 ? 0 : COST.gapOpen + frames * COST.gapEach);

function costOf(alignments: readonly Alignment[]): number {
  return alignments.reduce((sum, { cost }) => sum + cost, 0);
}

/**
 * Both sides with the reels as they are named, or as their documents lie where the film is followed better so; `written` are both as they came. May be
 * null where that costs as much as the limit.
 */
function cheapestReels({ record, returned }: Sides, written: Sides, limit: number): Alignment[] | null {
  const [mine, theirs] = [withWrittenNumbers(record), withWrittenNumbers(returned)];
  const matches = matchReels(mine, theirs);
  // a document on another reel opens a run there at least
  const named = followed(matches, mine, theirs, written, Math.max(limit, COST.gapOpen + 1));
  if (matches.length < 2 || (named !== null && costOf(named) <= COST.gapOpen)) return named;
  const other = matchedByDocuments(matches, mine, theirs);
  if (other === null) return named;
  return followed(other, mine, theirs, written, named === null ? limit : costOf(named)) ?? named;
}

/** Reel by reel; null as soon as that costs as much as the limit. */
function followed(matches: readonly ReelMatch[], record: Side, returned: Side, written: Sides, limit: number): Alignment[] | null {
  // a page that gives no number lies somewhere around its neighbours, as one does whose number was counted on
  const countedOn = (ref: ReturnRef): boolean => frameOf(returned, ref).frame === null;
  const alignments: Alignment[] = [];
  let cost = 0;
  for (const match of matches) {
    const alignment = alignReel(match, record, returned, written, countedOn);
    cost += alignment.cost;
    if (cost >= limit) return null;
    alignments.push(alignment);
  }
  return alignments;
}

/** Both sides with written numbers only, and as they came; `countedOn` tells of a frame of the return whether its number was inferred. */
function alignReel(match: ReelMatch, record: Side, returned: Side, written: Sides, countedOn: (ref: ReturnRef) => boolean): Alignment {
  const reel = match.recordReel === null ? undefined : record.reels[match.recordReel];
  const base = { recordReel: match.recordReel, returnReels: match.returnReels, by: match.by, numbered: true };
  if (reel === undefined) {
    const pairs = match.refs.map((ref): Pair => {
      const exposure = frameOf(returned, ref).frame?.exposure ?? null;
      return { record: null, returned: ref, slot: true, exposure, how: 'order' };
    });
    return { ...base, pairs, reversals: [], cost: costAlone(pairs.length) };
  }
  if (match.refs.length === 0) {
    const pairs = reel.frames.map((_, index): Pair => ({ record: index, returned: null, slot: false, exposure: null, how: 'order' }));
    return { ...base, pairs, reversals: [], cost: costAlone(pairs.length) };
  }
  if (isUnnumbered(match.refs, returned, reel))
    return { ...base, numbered: false, ...alignUnnumbered(match.refs, reel, record, returned), reversals: [] };
  const copies = copiedDocuments(match.refs, record, returned, 'number');
  const own = sharedNumbers(
    match.refs.filter((ref) => !copies.has(ref)),
    written.record.reels[match.recordReel ?? -1] ?? reel,
    written,
  );
  const strays = strayNumbers(own, returned, reel);
  const straight = own.filter((ref) => !strays.has(ref));
  const { found, cost, lettered, given } = cheapestWay(straight, restartOffsets(own, reel, record, returned), {
    reel,
    record,
    returned,
    countedOn,
  });
  for (const ref of strays) {
    found.push({ record: null, returned: ref, slot: true, exposure: frameOf(returned, ref).frame?.exposure ?? null, how: 'order' });
  }
  const counted = countEmptyPlaces(settled(found, reel, record, returned), reel, returned, lettered, given);
  const pairs = withCopies(counted, copies, returned);
  return { ...base, pairs, reversals: runsOf(pairs), cost };
}

/** What the cheapest alignment leaves open or cannot see, settled step by step; each step takes the pairs and gives them back. */
function settled(found: readonly Pair[], reel: Reel, record: Side, returned: Side): Pair[] {
  const steps: readonly ((pairs: readonly Pair[]) => Pair[])[] = [
    (pairs) => pairMoved(pairs, reel, record, returned),
    (pairs) => settlePermutations(pairs, reel, record, returned),
    (pairs) => settleByContent(pairs, reel, record, returned),
    (pairs) => halvesOfLost(pairs, reel),
    (pairs) => settleCountedIn(pairs, reel, returned),
    (pairs) => settleTakes(pairs, reel, record, returned),
    (pairs) => firstOfTwo(pairs, returned),
    (pairs) => settleTailRepeats(pairs, reel, returned),
    (pairs) => settleSurplusPlaces(pairs, reel, returned),
  ];
  return steps.reduce<Pair[]>((pairs, step) => step(pairs), [...found]);
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
