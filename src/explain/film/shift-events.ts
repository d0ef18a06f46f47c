import type { PairRef } from '../../model/difference.js';
import { differencesAt, pairOf, recordFrame, returnFrame, type Scene } from '../scene.js';

/** Where a run of wrong numbers begins: frames that one side lacks, a repeated number, or numbers that start elsewhere. */
export interface Event {
  readonly kind: 'lost' | 'surplus' | 'empty' | 'repeat' | 'start';
  readonly refs: readonly PairRef[];
  /** Ids of the differences at the event itself. */
  readonly own: readonly number[];
  /** Pairs whose numbers are wrong from here up to the next event, and the ids of those differences. */
  readonly wrong: PairRef[];
  readonly ids: number[];
  delta: number;
}

/** Where runs of wrong numbers begin on a reel, in film order. */
export function eventsOf(scene: Scene, a: number): Event[] {
  const events: Event[] = [];
  const pairs = scene.alignments[a]?.pairs ?? [];
  let delta = 0;
  // The event whose wrong numbers these are: one that leaves the offset as it was, such as a lost second half, takes none over.
  let carrier: Event | undefined;
  pairs.forEach((pair, p) => {
    const ref = { alignment: a, pair: p };
    const own = differencesAt(scene, ref, 'not-scanned', 'surplus', 'empty-number');
    const first = own[0];
    // what only one side has is told wherever it lies
    if (pair.how !== 'order' && first === undefined) return;
    if (first !== undefined) {
      const kind = first.field === 'not-scanned' ? 'lost' : first.field === 'surplus' ? 'surplus' : 'empty';
      const last = events.at(-1);
      const before = last?.refs.at(-1);
      const follows = before?.pair === p - 1 && (kind !== 'surplus' || showsPage(scene, before) === showsPage(scene, ref));
      if (last !== undefined && follows && last.kind === kind && last.wrong.length === 0) {
        events[events.length - 1] = { ...last, refs: [...last.refs, ref], own: [...last.own, first.id] };
      } else {
        events.push({ kind, refs: [ref], own: [first.id], wrong: [], ids: [], delta: 0 });
      }
      return;
    }
    const wrong = differencesAt(scene, ref, 'number')[0];
    const right = pair.slot && pair.record !== null && !isPassed(scene, ref, delta) ? 0 : delta;
    const here = wrong === undefined ? right : exposureDelta(wrong.collation, wrong.returned);
    const last = events.at(-1);
    const explained = last !== undefined && last.wrong.length === 0 && (last.refs.at(-1)?.pair ?? -2) === p - 1;
    if (here !== delta && !explained && wrong !== undefined) {
      // the numbers change their offset although no frame is missing: a number was used twice, or the count began elsewhere
      events.push({
        kind: p > 0 && here < delta && here >= delta - 2 ? 'repeat' : 'start',
        refs: [ref],
        own: [],
        wrong: [],
        ids: [],
        delta: here,
      });
    }
    if (here !== delta || carrier === undefined) carrier = events.at(-1);
    delta = here;
    if (wrong !== undefined && carrier !== undefined) {
      // A frame without a number inside the run does not break it.
      const between = events.at(-1);
      if (between !== undefined && between !== carrier && between.kind === 'lost' && between.refs.at(-1)?.pair === p - 1)
        carrier.wrong.push(...between.refs);
      carrier.wrong.push(ref);
      carrier.ids.push(wrong.id);
      carrier.delta = here;
    }
  });
  return events;
}

/** A place without an image between frames that are as far off on both sides says nothing of the count. */
function isPassed(scene: Scene, { alignment, pair }: PairRef, delta: number): boolean {
  const pairs = scene.alignments[alignment]?.pairs ?? [];
  if (delta === 0 || pairs[pair]?.returned !== null) return false;
  let next = pair;
  while (pairs[next] !== undefined && pairs[next]?.returned === null) next++;
  const wrong = differencesAt(scene, { alignment, pair: next }, 'number')[0];
  return wrong !== undefined && exposureDelta(wrong.collation, wrong.returned) === delta;
}

/** A page that came, and not an image outside any issue: of the two different things are told. */
function showsPage(scene: Scene, ref: PairRef): boolean {
  return returnFrame(scene, ref)?.kind === 'page';
}

/** A number used twice and the one left empty after it are one slip of the counter. */
export function restored(scene: Scene, events: readonly Event[]): Event[] {
  const result: Event[] = [];
  for (const event of events) {
    const last = result.at(-1);
    const empty = event.kind === 'empty' && event.refs.length === 1 ? event.refs[0] : undefined;
    const repeated = empty === undefined || event.delta !== 1 ? null : rightInShift(scene, empty);
    if (repeated !== null && last !== undefined) {
      last.wrong.push(...event.wrong);
      last.ids.push(...event.ids);
      result.push({ kind: 'repeat', refs: [repeated], own: event.own, wrong: [repeated], ids: [], delta: 0 });
    } else if (
      event.kind === 'empty' &&
      event.refs.length === 1 &&
      last?.kind === 'repeat' &&
      (event.wrong.length === 0 ? last.delta === -1 : event.delta === last.delta + 1)
    ) {
      result[result.length - 1] = { ...last, own: [...last.own, ...event.own], wrong: upToLastShown(scene, last.wrong) };
      // what is still wrong behind it goes back to what made it wrong before
      const before = result.at(-2);
      if (before !== undefined && before.delta === event.delta) {
        before.wrong.push(...event.wrong);
        before.ids.push(...event.ids);
      }
    } else if (last !== undefined && isOneSlip(scene, last, event)) {
      result[result.length - 1] = { ...last, kind: 'start', refs: last.wrong.slice(0, 1), own: [...last.own, ...event.own] };
    } else {
      result.push(event);
    }
  }
  return result;
}

/** No longer run of wrong numbers is one slip of whoever typed them where blanks may have been skipped and counted twice at its ends. */
const LONGEST = 12;

/**
 * Whether numbers of a few pages that are too low or too high took the place of frames that show no page on one side and left as many empty on the other:
 * then nothing was skipped or captured again.
 */
function isOneSlip(scene: Scene, last: Event, event: Event): boolean {
  const [lost, empty] = last.kind === 'lost' ? [last, event] : [event, last];
  const silent = lost.refs.every((ref) => recordFrame(scene, ref)?.deliver === false);
  const few = last.wrong.length > 1 && last.wrong.length <= LONGEST && event.wrong.length === 0;
  const back = Math.abs(last.delta) === lost.refs.length && lost.refs.length === empty.refs.length;
  return lost.kind === 'lost' && empty.kind === 'empty' && silent && few && back;
}

/**
 * The frame before an empty number that alone carries its right number, and so that of the frame before it, where the frames on either side of
 * the two are numbered one too high; null for any other place.
 */
export function rightInShift(scene: Scene, empty: PairRef): PairRef | null {
  const at = (step: number): PairRef => ({ alignment: empty.alignment, pair: empty.pair + step });
  const inReel = (ref: PairRef): boolean => scene.alignments[ref.alignment]?.pairs[ref.pair] !== undefined;
  const offset = (ref: PairRef): number | null => (inReel(ref) ? exposureOffset(scene, ref) : null);
  if (differencesAt(scene, empty, 'empty-number').length === 0) return null;
  const number = (ref: PairRef): string | undefined => returnFrame(scene, ref)?.frame?.text;
  return offset(at(-1)) === 0 && offset(at(-2)) === 1 && number(at(-1)) === number(at(-2)) ? at(-1) : null;
}

/**
 * The runs with what lies inside them: a frame whose number is wrong in a way of its own as well (a section turned round, a number used
 * twice) is renumbered with its neighbours. Longer runs of another offset keep their own frames.
 */
export function wholeRuns(scene: Scene, a: number, events: readonly Event[]): Event[] {
  const runs = events.filter((event) => event.wrong.length > 1);
  return events.map((event) => {
    const others = new Set(runs.flatMap((run) => (run === event ? [] : run.wrong.map((ref) => ref.pair))));
    return { ...event, wrong: withThoseBetween(scene, a, event.wrong).filter((ref) => !others.has(ref.pair)) };
  });
}

/** Pairs of a reel with all that hold a frame of the record between the first and the last of them. */
export function withThoseBetween(scene: Scene, a: number, refs: readonly PairRef[]): PairRef[] {
  const frames = refs.flatMap((ref) => pairOf(scene, ref).record ?? []);
  const [from, to] = [Math.min(...frames), Math.max(...frames)];
  return (scene.alignments[a]?.pairs ?? []).flatMap(({ record }, pair) =>
    record !== null && record >= from && record <= to ? [{ alignment: a, pair }] : [],
  );
}

/** By how much a frame is numbered too high, in exposures; null where either side has no number there. */
export function exposureOffset(scene: Scene, ref: PairRef): number | null {
  const [mine, theirs] = [recordFrame(scene, ref)?.frame, returnFrame(scene, ref)?.frame];
  return mine == null || theirs == null ? null : theirs.exposure - mine.exposure;
}

/** Without the frames at the end that the return does not show: where the count is right again behind them, nothing says that theirs was wrong. */
function upToLastShown(scene: Scene, refs: readonly PairRef[]): PairRef[] {
  const last = refs.findLastIndex((ref) => pairOf(scene, ref).returned !== null);
  return refs.slice(0, last < 0 ? refs.length : last + 1);
}

function exposureDelta(collation: string | null, returned: string | null): number {
  return Number.parseInt(returned ?? '0', 10) - Number.parseInt(collation ?? '0', 10);
}
