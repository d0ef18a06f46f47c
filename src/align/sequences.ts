import type { ReturnRef } from '../model/alignment.js';
import type { Frame, FrameNumber, Reel, Side } from '../model/film.js';
import type { Sequence } from './cheapest.js';
import { type Dictionary, emptyFeatures, type Features, fillFeatures, KIND } from './features.js';

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
  const ends = (at: number): boolean => features.kind[at] === KIND.page || (tail === 'target' && features.kind[at] === KIND.target);
  if (tail !== 'unmatched') for (let at = places.length - 1; at >= 0 && !ends(at); at--) free[at] = 1;
  if (freeLead) for (let at = 0; at < places.length && features.kind[at] !== KIND.page; at++) free[at] = 1;
  return { places, sequence: { features, free } };
}

/** The return's places in the order of its numbers; `record` says where numbering begins, how long it may be and whether exposures are split. */
export function returnPlaces(
  refs: readonly ReturnRef[],
  numberOf: (ref: ReturnRef) => FrameNumber | null,
  record: Reel,
  halves: boolean,
): ReturnPlace[] {
  const places: ReturnPlace[] = [];
  const numbers = refs.map(numberOf);
  const allowed = Math.max(0, record.frames.length - refs.length) + SLACK;
  const first = record.frames[0]?.frame?.exposure ?? null;
  let last = first === null ? null : first - 1;
  numbers.forEach((number, index) => {
    const ref = refs[index] ?? null;
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
    if (number.half === 'B' && before?.exposure !== number.exposure) places.push({ ref: null, exposure: number.exposure, half: 'A' });
    places.push({ ref, exposure: number.exposure, half: number.half });
    if (number.half === 'A' && after?.exposure !== number.exposure) places.push({ ref: null, exposure: number.exposure, half: 'B' });
    last = number.exposure;
  });
  return places;
}

/** The return's places as a sequence. An empty second half may be passed over: not every exposure was split. */
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
    if (second) free[at] = 1;
  });
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
