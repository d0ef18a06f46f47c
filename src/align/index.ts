import type { Alignment, Pair, ReturnRef } from '../model/alignment.js';
import type { FrameNumber, Reel, Side } from '../model/film.js';
import { cheapestAlignment } from './cheapest.js';
import { copiedDocuments, withCopies } from './copied-documents.js';
import { COST } from './cost.js';
import { matchedByDocuments } from './document-homes.js';
import { countEmptyPlaces } from './empty-places.js';
import { EXCURSION, type Undone, withoutExcursions } from './excursions.js';
import { dictionary } from './features.js';
import { contentKey, forgetKeys, orderKey, uniqueKeys } from './keys.js';
import { pairMoved } from './moves.js';
import { matchReels, type ReelMatch } from './reels.js';
import { restartOffsets } from './restarts.js';
import { type InIssue, type Position, straightened } from './reversals.js';
import {
  compareNumbers,
  frameOf,
  type ReturnPlace,
  recordSequence,
  returnPlaces,
  returnSequence,
  tailOf,
  usesLetters,
} from './sequences.js';
import { settleByContent } from './settled-content.js';
import { firstOfTwo, halvesOfLost, settleCountedIn } from './settled-pages.js';
import { settlePermutations } from './settled-permutations.js';
import { settleTakes } from './settled-takes.js';
import { sharedNumbers } from './shared-numbers.js';
import { strayNumbers } from './stray-numbers.js';
import { settleSurplusPlaces } from './surplus-places.js';
import { settleTailRepeats } from './tail-repeats.js';
import { alignUnnumbered } from './unnumbered.js';
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
  const follow = (refs: readonly ReturnRef[], numbers: Numbers): Way => inOrder(refs, numbers, countedOn, reel, record, returned);
  const restarts = restartOffsets(own, reel, record, returned);
  const through = straightWay(straight, (ref) => frameOf(returned, ref).frame, follow, reel, record, returned);
  const anew =
    restarts.size === 0
      ? null
      : straightWay(sortedBy(straight, restarted(returned, restarts)), restarted(returned, restarts), follow, reel, record, returned);
  // numbers that begin anew may as well be a run of wrong ones before them
  const { found, cost, lettered, given } = anew !== null && anew.cost < through.cost ? anew : through;
  for (const ref of strays) {
    found.push({ record: null, returned: ref, slot: true, exposure: frameOf(returned, ref).frame?.exposure ?? null, how: 'order' });
  }
  const counted = countEmptyPlaces(settled(found, reel, record, returned), reel, returned, lettered, given);
  const pairs = withCopies(counted, copies, returned);
  return { ...base, pairs, reversals: runsOf(pairs), cost };
}

/** The film followed by its numbers, or as if some slips of them were undone, whichever costs less; `given` are the numbers without the slips. */
function straightWay(
  refs: readonly ReturnRef[],
  number: Numbers,
  follow: (refs: readonly ReturnRef[], numbers: Numbers) => Way,
  reel: Reel,
  record: Side,
  returned: Side,
): Way & { readonly given: ReadonlyMap<ReturnRef, FrameNumber> } {
  const way = follow(refs, number);
  // what costs less than the least of such slips is not followed again
  const undone = way.cost <= EXCURSION ? null : withoutExcursions(refs, number, reel, record, returned, way.lettered);
  const other = undone === null ? null : followedWithout(undone, refs, number, follow);
  return other !== null && undone !== null && other.cost < way.cost ? { ...other, given: undone.numbers } : { ...way, given: new Map() };
}

/** Numbers as they follow the film where the count begins anew. */
const restarted =
  (returned: Side, offsets: ReadonlyMap<ReturnRef, number>): Numbers =>
  (ref) => {
    const { frame } = frameOf(returned, ref);
    return frame === null ? null : { ...frame, exposure: frame.exposure + (offsets.get(ref) ?? 0) };
  };

type Numbers = (ref: ReturnRef) => FrameNumber | null;

const sortedBy = (refs: readonly ReturnRef[], number: Numbers): ReturnRef[] =>
  [...refs].sort((a, b) => compareNumbers(number(a), number(b)));

/** The film followed as if some slips of the numbers were undone, at what that costs more. */
function followedWithout(
  undone: Undone,
  refs: readonly ReturnRef[],
  number: Numbers,
  follow: (refs: readonly ReturnRef[], numbers: Numbers) => Way,
): Way {
  const numbers: Numbers = (ref) => undone.numbers.get(ref) ?? number(ref);
  const way = follow(sortedBy(refs, numbers), numbers);
  return { ...way, cost: way.cost + undone.cost };
}

/** The pairs of an alignment, what it costs, and whether the return letters halves. */
interface Way {
  readonly found: Pair[];
  readonly cost: number;
  readonly lettered: boolean;
}

/** Frames of the return in the order of their numbers, aligned with those of a reel at the lowest cost. */
function inOrder(
  refs: readonly ReturnRef[],
  number: Numbers,
  countedOn: (ref: ReturnRef) => boolean,
  reel: Reel,
  record: Side,
  returned: Side,
): Way {
  const frames = refs.map((ref) => frameOf(returned, ref));
  // a reel of which no page was delivered shows no letters either
  const lettered = usesLetters(frames) || (!frames.some((frame) => frame.kind === 'page') && usesLetters(reel.frames));
  const numbered = returnPlaces(refs, number, countedOn, reel, lettered);
  const { at, inIssue } = positions(numbered, reel.frames, record, returned);
  const { places, turned, whole } = straightened(numbered, at, inIssue);
  const code = dictionary();
  const mine = recordSequence(reel, record, code, tailOf(places, returned), whole, lettered);
  const theirs = returnSequence(places, returned, code);
  const { steps, cost } = cheapestAlignment(mine.sequence, theirs);
  const found: Pair[] = [];
  for (const step of steps) {
    const frame = step.record === null ? null : (mine.places[step.record]?.frame ?? null);
    const place = step.returned === null ? undefined : places[step.returned];
    const shared = {
      slot: place !== undefined,
      exposure: place?.exposure ?? null,
      how: place !== undefined && turned.has(place) ? 'reversed' : 'order',
    } as const;
    if (frame === null) {
      // numbers that neither side fills, and empty halves that nothing asks for, say nothing
      const silent = place === undefined || (place.ref === null && (step.record !== null || place.half === 'B' || place.exposure === null));
      if (!silent) found.push({ ...shared, record: null, returned: place.ref });
      continue;
    }
    found.push({ ...shared, record: frame, returned: place?.ref ?? null });
  }
  return { found, cost, lettered };
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

/** Where each place's page stands in the record, by what it says of itself, and by its place in its issue alone. */
function positions(
  places: readonly ReturnPlace[],
  frames: Side['reels'][number]['frames'],
  record: Side,
  returned: Side,
): { readonly at: (Position | null)[]; readonly inIssue: InIssue } {
  const byLabel = uniqueKeys(frames, record, contentKey);
  const byOrder = uniqueKeys(frames, record, orderKey);
  const inIssue: InIssue = ({ ref }) => (ref === null ? null : (byOrder.get(orderKey(frameOf(returned, ref), returned) ?? '') ?? null));
  const at = places.map((place): Position | null => {
    const label = place.ref === null ? undefined : byLabel.get(contentKey(frameOf(returned, place.ref), returned) ?? '');
    const found = label ?? inIssue(place);
    return found === null
      ? null
      : { at: found, by: label === undefined ? 'order' : 'label', exposure: frames[found]?.frame?.exposure ?? null };
  });
  return { at, inIssue };
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
