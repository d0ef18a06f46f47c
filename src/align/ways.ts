import type { Pair, ReturnRef } from '../model/alignment.js';
import type { FrameNumber, Reel, Side } from '../model/film.js';
import { cheapestAlignment } from './cheapest.js';
import { EXCURSION, withoutExcursions } from './excursions.js';
import { dictionary } from './features.js';
import { contentKey, orderKey, uniqueKeys } from './keys.js';
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

type Numbers = (ref: ReturnRef) => FrameNumber | null;

/** A reel of the record and what is held against it; `countedOn` tells of a frame of the return whether its number was inferred. */
export interface Film {
  readonly reel: Reel;
  readonly record: Side;
  readonly returned: Side;
  readonly countedOn: (ref: ReturnRef) => boolean;
}

/** The pairs of an alignment, what it costs, and whether the return letters halves. */
interface Way {
  readonly found: Pair[];
  readonly cost: number;
  readonly lettered: boolean;
}

/** A way with the numbers that frames were given where slips were undone. */
interface Followed extends Way {
  readonly given: ReadonlyMap<ReturnRef, FrameNumber>;
}

/**
 * The film followed by the numbers of the return as they are, or with what must be added where the count seems to begin anew, whichever costs less: numbers that
 * begin anew may as well be a run of wrong ones before them.
 */
export function cheapestWay(refs: readonly ReturnRef[], restarts: ReadonlyMap<ReturnRef, number>, film: Film): Followed {
  const written: Numbers = (ref) => frameOf(film.returned, ref).frame;
  const through = followed(refs, written, film);
  if (restarts.size === 0) return through;
  const restarted: Numbers = (ref) => {
    const number = written(ref);
    return number === null ? null : { ...number, exposure: number.exposure + (restarts.get(ref) ?? 0) };
  };
  const anew = followed(sortedBy(refs, restarted), restarted, film);
  return anew.cost < through.cost ? anew : through;
}

/** The film followed by its numbers, or as if some slips of them were undone, at what that costs more. */
function followed(refs: readonly ReturnRef[], number: Numbers, film: Film): Followed {
  const { reel, record, returned } = film;
  const way = { ...inOrder(refs, number, film), given: new Map<ReturnRef, FrameNumber>() };
  // what costs less than the least of such slips is not followed again
  const undone = way.cost <= EXCURSION ? null : withoutExcursions(refs, number, reel, record, returned, way.lettered);
  if (undone === null) return way;
  const numbers: Numbers = (ref) => undone.numbers.get(ref) ?? number(ref);
  const other = inOrder(sortedBy(refs, numbers), numbers, film);
  const cost = other.cost + undone.cost;
  return cost < way.cost ? { ...other, cost, given: undone.numbers } : way;
}

const sortedBy = (refs: readonly ReturnRef[], number: Numbers): ReturnRef[] =>
  [...refs].sort((a, b) => compareNumbers(number(a), number(b)));

/** Frames of the return in the order of their numbers, aligned with those of a reel at the lowest cost. */
function inOrder(refs: readonly ReturnRef[], number: Numbers, { reel, record, returned, countedOn }: Film): Way {
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
