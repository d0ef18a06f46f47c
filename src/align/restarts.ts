import type { ReturnRef } from '../model/alignment.js';
import type { Reel, Side } from '../model/film.js';
import { contentKey, orderKey, uniqueKeys } from './keys.js';
import { frameOf } from './sequences.js';

/** So many numbers must be used twice before a count is taken to have begun anew. */
const REPEATED = 5;
/** A count that begins anew falls back by more than single frames that were left out or taken twice can explain, and goes on for some frames. */
const FALLS_BACK = 4;
const GOES_ON = 3;

/**
 * Where the vendor's count begins anew inside a reel, as at a splice, its numbers are those of earlier frames. What must be added to each
 * frame's number so that all follow the film; nothing for reels whose count runs through.
 */
export function restartOffsets(refs: readonly ReturnRef[], reel: Reel, record: Side, returned: Side): ReadonlyMap<ReturnRef, number> {
  const offsets = new Map<ReturnRef, number>();
  const numbers = refs.flatMap((ref) => frameOf(returned, ref).frame?.text ?? []);
  if (numbers.length - new Set(numbers).size < REPEATED) return offsets;
  const byLabel = uniqueKeys(reel.frames, record, contentKey);
  const byOrder = uniqueKeys(reel.frames, record, orderKey);
  const known = refs
    .flatMap((ref) => {
      const frame = frameOf(returned, ref);
      const index = byLabel.get(contentKey(frame, returned) ?? '') ?? byOrder.get(orderKey(frame, returned) ?? '');
      const mine = index === undefined ? undefined : reel.frames[index]?.frame?.exposure;
      return index === undefined || mine === undefined || frame.frame === null ? [] : [{ ref, index, off: mine - frame.frame.exposure }];
    })
    .sort((a, b) => a.index - b.index);
  let added = 0;
  let base = known[0]?.off ?? 0;
  known.forEach(({ ref, off }, at) => {
    const next = known.slice(at, at + GOES_ON);
    if (off - base - added > FALLS_BACK && next.length === GOES_ON && next.every((other) => Math.abs(other.off - off) <= 1))
      added = off - base;
    else if (Math.abs(off - base - added) <= FALLS_BACK) base = off - added;
    if (added > 0) offsets.set(ref, added);
  });
  withTheirIssues(refs, offsets, returned);
  const told = new Set(known.map(({ ref }) => ref));
  secondOfTwo(
    refs.filter((ref) => !told.has(ref) && !offsets.has(ref)),
    refs,
    offsets,
    returned,
  );
  return offsets;
}

/** Frames that cannot be told by what they say go with the others of their document. */
function withTheirIssues(refs: readonly ReturnRef[], offsets: Map<ReturnRef, number>, returned: Side): void {
  const ofIssue = new Map<number, number>();
  for (const [ref, added] of offsets) {
    const { issue } = frameOf(returned, ref);
    if (issue !== null) ofIssue.set(issue, added);
  }
  for (const ref of refs) {
    const added = ofIssue.get(frameOf(returned, ref).issue ?? -1);
    if (added !== undefined && !offsets.has(ref)) offsets.set(ref, added);
  }
}

/** Targets and other frames outside any issue: of two under one number the second belongs to the count that began anew. */
function secondOfTwo(rest: readonly ReturnRef[], refs: readonly ReturnRef[], offsets: Map<ReturnRef, number>, returned: Side): void {
  const added = [...offsets.values()][0];
  if (added === undefined) return;
  const text = (ref: ReturnRef): string => frameOf(returned, ref).frame?.text ?? '';
  const others = new Set(rest);
  const taken = new Set(refs.filter((ref) => !others.has(ref) && !offsets.has(ref)).map(text));
  for (const ref of rest) {
    if (taken.has(text(ref))) offsets.set(ref, added);
    else taken.add(text(ref));
  }
}
