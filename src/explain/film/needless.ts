import type { PairRef } from '../../model/difference.js';
import { deliveredPages, pageReadingAt, sheetsOf } from '../facts/page-surroundings.js';
import type { Rule } from '../facts/regular.js';
import { breaksOfPages } from '../facts/regular-pages.js';
import { judged, type Testimony } from '../facts/sides.js';
import { pairKey } from '../runs.js';
import type { Scene } from '../scene.js';

/** Whether pages that did not come are counted in the record although its issue is whole without them. */
export function needless(scene: Scene, refs: readonly PairRef[], issue: number | null): Testimony {
  const gone = new Set(refs.map(pairKey));
  const pages = issue === null ? [] : deliveredPages(scene, issue).map(({ ref }) => ref);
  const left = pages.filter((ref) => !gone.has(pairKey(ref)));
  if (issue === null || left.length === 0) return { cause: 'vendor-image', evidence: [] };
  const beside = { ...sheetsOf(scene, issue), last: null, next: null };
  const breaks = (of: readonly PairRef[]): Rule[] =>
    breaksOfPages(
      of.flatMap((ref) => pageReadingAt(scene, ref) ?? []),
      beside,
    );
  return judged(breaks(pages), breaks(left));
}
