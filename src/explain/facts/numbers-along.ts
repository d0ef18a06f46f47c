import type { PairRef } from '../../model/difference.js';
import { groupBy, idsOf } from '../runs.js';
import { differencesAt, expectedFrame, pairOf, type Scene } from '../scene.js';
import { type FactEdit, isWide } from './lift.js';

/**
 * What a change of the numbers of pages does to places under which nothing came: those among the pages and beside them are as far off, and the
 * numbers that the pages left are empty. Behind one number for all of them the count goes on from that; and what has the one number of a record has no
 * place of its own.
 */
export function numbersAlong(scene: Scene, { fact, change, places, scope }: FactEdit): readonly number[] {
  if (fact !== 'number' || places.length < 2) return [];
  const by = change.kind === 'plus' ? Number(change.by) : null;
  const refs = groupBy(
    places.flatMap((place) => place.refs),
    ({ alignment }) => alignment,
  );
  if (change.kind === 'stuck') return [...refs.keys()].flatMap((alignment) => withNumber(scene, alignment, change.by));
  return [...refs].flatMap(([alignment, list]) =>
    ofReel(scene, alignment, list, { by, wide: isWide(scope), oneForAll: change.kind === 'all' }),
  );
}

/** Differences of frames that did not come and have this number in the record. */
function withNumber(scene: Scene, alignment: number, number: string): readonly number[] {
  return (scene.alignments[alignment]?.pairs ?? []).flatMap((pair, at) => {
    const ref = { alignment, pair: at };
    const isOne = pair.returned === null && expectedFrame(scene, ref)?.facts.number.right[0]?.key === number;
    return isOne ? idsOf(differencesAt(scene, ref, 'number', 'not-scanned')) : [];
  });
}

interface Renumbered {
  /** By how much all numbers are too high; null where that is not one number. */
  readonly by: number | null;
  readonly wide: boolean;
  readonly oneForAll: boolean;
}

function ofReel(scene: Scene, alignment: number, refs: readonly PairRef[], { by, wide, oneForAll }: Renumbered): readonly number[] {
  const pairs = scene.alignments[alignment]?.pairs ?? [];
  const own = refs.map(({ pair }) => pair);
  const [first, last] = [Math.min(...own), Math.max(...own)];
  let [from, to] = [first, last];
  while (from > 0 && pairs[from - 1]?.returned === null) from--;
  while (to < pairs.length - 1 && pairs[to + 1]?.returned === null) to++;
  const ids: number[] = [];
  for (let pair = from; pair <= to; pair++) {
    const ref = { alignment, pair };
    if (pairOf(scene, ref).returned !== null) continue;
    const inside = pair > first && pair < last;
    for (const { id, field, collation, returned } of differencesAt(scene, ref, 'number', 'empty-number')) {
      const step = Number.parseInt(returned ?? '', 10) - Number.parseInt(collation ?? '', 10);
      // numbers too high leave empty ones before them, numbers too low behind them
      const left = by === null || (by > 0 ? pair < first : pair > last);
      const behind = oneForAll && pair > last;
      if (field === 'number' ? (by === null ? inside || behind : step === by && (inside || wide)) : left) ids.push(id);
    }
  }
  // numbers too low all over leave no room for as many frames before the first
  const before = pairs.slice(from, first).flatMap((_, at) => differencesAt(scene, { alignment, pair: from + at }, 'not-scanned'));
  return wide && by !== null && before.length === -by ? [...ids, ...idsOf(before)] : ids;
}
