import type { ReturnRef } from '../model/alignment.js';
import type { Frame, FrameNumber, Reel, Side } from '../model/film.js';
import type { Sequence } from './cheapest.js';
import { type Dictionary, emptyFeatures, type Features, fillFeatures, KIND, numberIssues } from './features.js';

/** A place of the record: one of its frames, or null for a number that the record passes over. */
export interface RecordPlace {
  readonly frame: number | null;
}

/** A place of the return: a frame, or a number under which nothing is delivered (null). */
export interface ReturnPlace {
  readonly ref: ReturnRef | null;
  readonly exposure: number | null;
  readonly half: string;
}

/** No run of numbers without a frame is followed further than this past what the record could fill: a mistyped number must not cost memory. */
const SLACK = 50;

/** A long run of frames without numbers must not cost memory either: no more places than these lie around it. */
const MOST_SILENT = 4000;

/** What the return shows behind its last page: nothing, targets that it lists, or frames outside any issue. */
export type Tail = 'page' | 'target' | 'unmatched';

/**
 * The record's sequence. What is no page at the end of the reel leaves no trace in the return, unless the return lists what lies there, and
 * may be passed over without cost.
 */
export function recordSequence(
  reel: Reel,
  side: Side,
  code: Dictionary,
  tail: Tail,
  freeLead: boolean,
  lettered: boolean,
): { places: RecordPlace[]; sequence: Sequence } {
  const places: RecordPlace[] = [];
  let last: number | null = null;
  reel.frames.forEach((frame, index) => {
    const exposure = frame.frame?.exposure ?? null;
    if (exposure !== null && last !== null) {
      const missing = exposure - last - 1;
      if (missing > 0 && missing <= SLACK) for (let k = 0; k < missing; k++) places.push({ frame: null });
    }
    if (exposure !== null) last = exposure;
    places.push({ frame: index });
  });
  const features = emptyFeatures(places.length);
  const free = new Uint8Array(places.length);
  places.forEach((place, at) => {
    const frame = place.frame === null ? undefined : reel.frames[place.frame];
    if (frame === undefined) features.kind[at] = KIND.undescribed;
    else fillFeatures(features, at, frame, side, code);
    // a return without letters numbers the halves on: each of them is a whole place there
    if (!lettered) features.second[at] = 0;
  });
  numberIssues(features);
  const ends = (at: number): boolean => features.kind[at] === KIND.page || (tail === 'target' && features.kind[at] === KIND.target);
  if (tail !== 'unmatched') for (let at = places.length - 1; at >= 0 && !ends(at); at--) free[at] = 1;
  if (freeLead) for (let at = 0; at < places.length && features.kind[at] !== KIND.page; at++) free[at] = 1;
  return { places, sequence: { features, free } };
}

/**
 * The return's places in the order of its numbers; `record` says where numbering begins, how long it may be and whether exposures are split.
 * Around frames whose numbers were counted on nobody knows where the numbers lie that nothing came under: each such place may be passed over.
 */
export function returnPlaces(
  refs: readonly ReturnRef[],
  numberOf: (ref: ReturnRef) => FrameNumber | null,
  countedOn: (ref: ReturnRef) => boolean,
  record: Reel,
  halves: boolean,
): ReturnPlace[] {
  const places: ReturnPlace[] = [];
  const numbers = refs.map(numberOf);
  const around = placesAround(refs.map(countedOn), numbers, record, halves);
  const allowed = Math.max(0, record.frames.length - refs.length) + SLACK;
  const first = record.frames[0]?.frame?.exposure ?? null;
  let last = first === null ? null : first - 1;
  numbers.forEach((number, index) => {
    const ref = refs[index] ?? null;
    places.push(...silentPlaces(around[index] ?? 0, halves));
    if (number !== null && around[index] !== undefined) last = number.exposure - 1;
    if (number === null) {
      places.push({ ref, exposure: null, half: '' });
      return;
    }
    if (last !== null && number.exposure > last + 1) {
      const run = Math.min(number.exposure - last - 1, allowed);
      for (let k = number.exposure - run; k < number.exposure; k++) {
        places.push({ ref: null, exposure: k, half: '' });
        if (halves) places.push({ ref: null, exposure: k, half: 'B' });
      }
    }
    const before = numbers[index - 1] ?? null;
    const after = numbers[index + 1] ?? null;
    if (number.half === 'B' && before?.exposure !== number.exposure && around[index] === undefined)
      places.push({ ref: null, exposure: number.exposure, half: 'A' });
    places.push({ ref, exposure: number.exposure, half: number.half });
    if (number.half === 'A' && after?.exposure !== number.exposure) places.push({ ref: null, exposure: number.exposure, half: 'B' });
    last = number.exposure;
  });
  places.push(...silentPlaces(around[refs.length] ?? 0, halves));
  return places;
}

/** Places whose number nobody knows, for whole exposures and for second halves. */
function silentPlaces(count: number, halves: boolean): ReturnPlace[] {
  const kinds = halves ? ['', 'B'] : [''];
  return Array.from({ length: count }, () => kinds.map((half) => ({ ref: null, exposure: null, half }))).flat();
}

/**
 * For each frame in or right behind a run of frames without written numbers, by its index: how many numbers the run leaves over, which may lie
 * in front of it. At the end of the reel these are as many as the record has frames; where exposures were split each may be two.
 */
function placesAround(
  countedOn: readonly boolean[],
  numbers: readonly (FrameNumber | null)[],
  record: Reel,
  halves: boolean,
): Readonly<Record<number, number>> {
  const around: Record<number, number> = {};
  const end = (record.frames.findLast((frame) => frame.frame !== null)?.frame?.exposure ?? 0) + 1;
  let last = (record.frames[0]?.frame?.exposure ?? 1) - 1;
  for (let at = 0; at < numbers.length; at++) {
    let to = at;
    while (countedOn[to] === true && numbers[to] === null) to++;
    if (to > at) {
      const exposures = (numbers[to]?.exposure ?? end) - last - 1;
      const left = (halves ? 2 * exposures + 2 : exposures) - (to - at);
      const each = Math.min(left, SLACK, Math.floor(MOST_SILENT / (to - at)));
      for (let k = at; k <= to; k++) around[k] = Math.max(0, each);
      at = to;
    }
    last = numbers[at]?.exposure ?? last;
  }
  return around;
}

/** The return's places as a sequence. An empty second half may be passed over: not every exposure was split; so may a place without a number. */
export function returnSequence(places: readonly ReturnPlace[], side: Side, code: Dictionary): Sequence {
  const features: Features = emptyFeatures(places.length);
  const free = new Uint8Array(places.length);
  places.forEach((place, at) => {
    if (place.ref !== null) {
      fillFeatures(features, at, frameOf(side, place.ref), side, code);
      return;
    }
    const second = place.half === 'B';
    features.kind[at] = second ? KIND.emptyHalf : KIND.empty;
    if (second || place.exposure === null) free[at] = 1;
  });
  numberIssues(features);
  return { features, free };
}

/** True when the return letters any half. */
export function usesLetters(frames: readonly Frame[]): boolean {
  return frames.some((frame) => frame.frame !== null && frame.frame.half !== '');
}

/** What lies behind the last page of the return. */
export function tailOf(places: readonly ReturnPlace[], side: Side): Tail {
  const last = places.at(-1)?.ref ?? null;
  if (last === null) return 'page';
  const { kind } = frameOf(side, last);
  return kind === 'page' || kind === 'target' || kind === 'unmatched' ? kind : 'page';
}

export function frameOf(side: Side, ref: ReturnRef): Frame {
  const frame = side.reels[ref.reel]?.frames[ref.frame];
  if (frame === undefined) throw new RangeError(`no frame ${String(ref.frame)} in reel ${String(ref.reel)} of the return`);
  return frame;
}

/** By exposure, then half; what has no number stays behind its predecessor. */
export function compareNumbers(a: FrameNumber | null, b: FrameNumber | null): number {
  if (a === null || b === null) return 0;
  return a.exposure - b.exposure || (a.half < b.half ? -1 : a.half > b.half ? 1 : 0);
}

/** The number of a frame as one word, '' where it has none. */
export function numberOf({ frame }: Frame): string {
  return frame === null ? '' : `${String(frame.exposure)}${frame.half}`;
}
