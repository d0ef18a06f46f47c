import type { PairRef } from '../../model/difference.js';
import { groupBy, idsOf } from '../runs.js';
import { differencesAt, pairOf, type Scene } from '../scene.js';
import { type FactEdit, isWide } from './lift.js';

/**
 * What a change of the numbers of pages does to places under which nothing came: those among the pages and beside them are as far off, and the
 * numbers that the pages left are empty.
 */
export function numbersAlong(scene: Scene, { fact, change, places, scope }: FactEdit): readonly number[] {
  if (fact !== 'number' || places.length < 2) return [];
  const by = change.kind === 'plus' ? Number(change.by) : null;
  const refs = groupBy(
    places.flatMap((place) => place.refs),
    ({ alignment }) => alignment,
  );
  return [...refs].flatMap(([alignment, list]) => ofReel(scene, alignment, list, by, isWide(scope)));
}

function ofReel(scene: Scene, alignment: number, refs: readonly PairRef[], by: number | null, wide: boolean): readonly number[] {
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
      if (field === 'number' ? (by === null ? inside : step === by && (inside || wide)) : left) ids.push(id);
    }
  }
  // numbers too low all over leave no room for as many frames before the first
  const before = pairs.slice(from, first).flatMap((_, at) => differencesAt(scene, { alignment, pair: from + at }, 'not-scanned'));
  return wide && by !== null && before.length === -by ? [...ids, ...idsOf(before)] : ids;
}
