import type { PairRef } from '../model/difference.js';

/** The name under which a pair is listed: `alignment:pair`. */
export function pairKey(ref: PairRef): string {
  return `${String(ref.alignment)}:${String(ref.pair)}`;
}

/** Splits pairs, in film order, into runs that follow one another without another frame of the record between. */
export function neighbouringRuns(refs: readonly PairRef[], same: (a: PairRef, b: PairRef) => boolean = () => true): PairRef[][] {
  const runs: PairRef[][] = [];
  for (const ref of refs) {
    const run = runs.at(-1);
    const last = run?.at(-1);
    if (run !== undefined && last?.alignment === ref.alignment && ref.pair - last.pair === 1 && same(last, ref)) run.push(ref);
    else runs.push([ref]);
  }
  return runs;
}

/** Pairs in film order, each once. */
export function inFilmOrder(refs: readonly PairRef[]): PairRef[] {
  const seen = new Set<string>();
  return [...refs]
    .sort((a, b) => a.alignment - b.alignment || a.pair - b.pair)
    .filter((ref) => {
      const key = pairKey(ref);
      if (seen.has(key)) return false;
      seen.add(key);
      return true;
    });
}

/** Groups by a key, keeping the order of first appearance. */
export function groupBy<T, K>(items: readonly T[], key: (item: T) => K): Map<K, T[]> {
  const groups = new Map<K, T[]>();
  for (const item of items) {
    const k = key(item);
    const list = groups.get(k);
    if (list === undefined) groups.set(k, [item]);
    else list.push(item);
  }
  return groups;
}

/** Ids of the differences at the pairs, of any field given. */
export function idsOf(differences: readonly { readonly id: number }[]): number[] {
  return [...new Set(differences.map((difference) => difference.id))];
}
