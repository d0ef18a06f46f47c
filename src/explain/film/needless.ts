import type { PairRef } from '../../model/difference.js';
import { deliveredPages, pageReadingAt, sheetsOf } from '../facts/page-surroundings.js';
import { breaksOfPages, type PageReading } from '../facts/regular-pages.js';
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
  const read = (of: readonly PairRef[]): PageReading[] => of.flatMap((ref) => pageReadingAt(scene, ref) ?? []);
  const orders = read(pages.filter((ref) => gone.has(pairKey(ref)))).flatMap(({ order }) => order ?? []);
  // without them the pages behind would have been counted on
  const closedUp = read(left).map((page) => ({
    ...page,
    order: page.order === null ? null : page.order - orders.filter((order) => order < (page.order ?? 0)).length,
  }));
  return judged(breaksOfPages(read(pages), beside), breaksOfPages(closedUp, beside));
}
