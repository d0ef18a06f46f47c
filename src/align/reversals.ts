import type { ReturnPlace } from './sequences.js';

/** A run shorter than this may come from filming out of order; a longer one going steadily backwards is a section that was scanned the other way round. */
const SHORTEST = 4;

/** A run of places, inclusive. */
export interface Run {
  readonly from: number;
  readonly to: number;
}

/**
 * Runs of the return's places whose pages go steadily backwards through the record. `position` gives a place's page in the record by
 * content, null where it is unknown. Places without a page belong to the run they lie in; a whole reel that runs backwards takes its ends with it.
 */
export function reversedRuns(places: readonly ReturnPlace[], position: readonly (number | null)[]): Run[] {
  const known = position.flatMap((at, place) => (at === null ? [] : [{ at, place }]));
  const runs: { from: number; to: number; length: number }[] = [];
  let start = 0;
  for (let k = 1; k <= known.length; k++) {
    const here = known[k];
    const before = known[k - 1];
    if (here !== undefined && before !== undefined && here.at < before.at) continue;
    const first = known[start];
    if (k - start >= SHORTEST && first !== undefined && before !== undefined) runs.push({ from: first.place, to: before.place, length: k - start });
    start = k;
  }
  const only = runs.length === 1 ? runs[0] : undefined;
  if (only !== undefined && only.length > known.length * 0.9) return [{ from: 0, to: places.length - 1 }];
  return runs.map(({ from, to }) => ({ from, to }));
}

/** The places with each run turned round. */
export function turned(places: readonly ReturnPlace[], runs: readonly Run[]): ReturnPlace[] {
  const result = [...places];
  for (const { from, to } of runs) result.splice(from, to - from + 1, ...places.slice(from, to + 1).reverse());
  return result;
}
