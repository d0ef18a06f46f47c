import type { Sequence } from './cheapest.js';
import { COST } from './cost.js';
import { KIND } from './features.js';
import { FIRST, type IssueCosts } from './issue-cost.js';
import { continues, kindCosts, showsPage } from './place-cost.js';

/**
 * How wide a band around the diagonal must be so that no path outside it can be cheaper than `cost`.
 *
 * A path that leaves a band of half-width w and comes back passes over at least `w + 1 - max(0, m - n)` places of the record alone, and as many
 * of the return as the lengths then demand. Every place of the record that it does not pass over costs at least what it costs with its best
 * partner. So each place passed over adds at least `rate` to what all places cost with their best partners.
 */
export function widthNeeded(record: Sequence, returned: Sequence, issues: IssueCosts): (cost: number) => number {
  const n = record.features.length;
  const longer = returned.features.length - n;
  let free = 0;
  for (const one of record.free) free += one;
  for (const one of returned.free) free += one;
  // A place that is dear with any partner is passed over gladly; priced lower it tells less in all and more of each place passed over.
  const least = leastPrices(record, returned, issues);
  const bounds = [COST.mismatchCap, 2 * COST.gapEach].map((most) => {
    const { places, total } = allTogether(least, returned, most);
    return { total, rate: leastRate(places) };
  });
  return (cost) => {
    const asides = bounds.map(({ total, rate }) => {
      const short = cost - total - (longer - free) * COST.gapEach;
      // Without a rate places are passed over at a gain, and nothing is known.
      return rate === null || (short > 0 && rate === 0) ? n : Math.ceil(Math.max(0, short) / (rate || 1));
    });
    const aside = Math.max(0, -longer, Math.min(n, ...asides));
    return aside + Math.max(0, longer);
  };
}

/**
 * The least by which any run of the record's places, passed over together, exceeds what they cost with their best partners: per place, with
 * the opening of the run and a place of the return passed over for each. Found by halving: a rate holds if no run falls short of it. Null where
 * a run costs less passed over.
 */
function leastRate(places: Int32Array): number | null {
  const holds = (rate: number): boolean => {
    let run = COST.gapOpenSilent;
    for (const price of places) {
      run = Math.min(run, COST.gapOpenSilent) + 2 * COST.gapEach - price - rate;
      if (run < 0) return false;
    }
    return true;
  };
  let [low, high] = [0, 2 * COST.gapEach];
  if (!holds(low)) return null;
  for (let halvings = 0; halvings < 16; halvings++) {
    const middle = (low + high) / 2;
    if (holds(middle)) low = middle;
    else high = middle;
  }
  return low;
}

/** The least each place of the record can cost with a partner that is no empty place, and with an empty one; 0 for what may be passed over. */
interface Least {
  readonly filled: Int32Array;
  readonly empty: Int32Array;
}

/** Kinds of places that nothing was delivered under: the cheapest partners of many, but each serves one. */
const EMPTY: ReadonlySet<number> = new Set([KIND.empty, KIND.emptyHalf]);

function leastPrices(record: Sequence, returned: Sequence, issues: IssueCosts): Least {
  const { features: a } = record;
  const kinds = [...new Set(returned.features.kind)].filter((kind) => kind !== KIND.page);
  const byKind = new Map<number, { filled: number; empty: number; page: number }>();
  const kindOf = (here: number, second: boolean): { filled: number; empty: number; page: number } => {
    const key = here * 2 + Number(second);
    const known = byKind.get(key);
    if (known !== undefined) return known;
    const table = kindCosts(here, second);
    const cheapest = (empty: boolean): number =>
      Math.min(COST.mismatchCap, ...kinds.filter((kind) => EMPTY.has(kind) === empty).map((kind) => table[kind] ?? 0));
    const made = { filled: cheapest(false), empty: cheapest(true), page: table[KIND.page] ?? 0 };
    byKind.set(key, made);
    return made;
  };
  const issueOf = leastOfIssues(record, returned, issues);
  const labelOf = leastOfLabels(record, returned);
  const filled = new Int32Array(a.length);
  const empty = new Int32Array(a.length);
  a.kind.forEach((here, i) => {
    if (record.free[i] === 1) return;
    const kind = kindOf(here, a.second[i] === 1);
    filled[i] = Math.min(COST.mismatchCap, kind.filled, showsPage(here) ? issueOf(i) + labelOf(i) : kind.page);
    empty[i] = kind.empty;
  });
  return { filled, empty };
}

/** The least of each place, but no more than `most`, and the least of all together: the empty places go where they save most. */
function allTogether(least: Least, returned: Sequence, most: number): { places: Int32Array; total: number } {
  const places = least.filled.map((price) => Math.min(price, most));
  const saved = places.map((price, i) => Math.max(0, price - (least.empty[i] ?? 0))).sort((x, y) => y - x);
  const room = returned.features.kind.reduce((sum, kind) => sum + Number(EMPTY.has(kind)), 0);
  const sum = (numbers: Int32Array): number => numbers.reduce((all, one) => all + one, 0);
  return { places, total: sum(places) - sum(saved.subarray(0, room)) };
}

/** The least that a page's issue can cost with any document of the return, by the place of the page. */
function leastOfIssues(record: Sequence, returned: Sequence, issues: IssueCosts): (i: number) => number {
  const { features: a } = record;
  const { apart, width, like } = issues;
  const documents = [...new Set(returned.features.issue.filter((_, j) => returned.features.kind[j] === KIND.page))];
  const known = new Map<number, { first: number; again: number }>();
  return (i) => {
    const issue = like[a.issue[i] ?? 0] ?? 0;
    let least = known.get(issue);
    if (least === undefined) {
      least = { first: COST.mismatchCap, again: COST.mismatchCap };
      for (const document of documents) {
        const cell = apart[issue * width + document] ?? 0;
        least.first = Math.min(least.first, Math.floor(cell / FIRST));
        least.again = Math.min(least.again, cell % FIRST);
      }
      known.set(issue, least);
    }
    return continues(a, i) ? Math.min(least.first, least.again) : least.first;
  };
}

/** The least that a page's label can cost: nothing, unless no page of the return has it. */
function leastOfLabels(record: Sequence, returned: Sequence): (i: number) => number {
  const { features: a } = record;
  const given = new Set(returned.features.label.filter((_, j) => returned.features.kind[j] === KIND.page));
  return (i) => {
    const [label, printed] = [a.label[i] ?? 0, a.labelPrinted[i] ?? 0];
    if (label === 0 || given.has(label) || (printed !== 0 && given.has(printed))) return 0;
    const missing = !given.has(0) ? COST.label : a.unprinted[i] === 1 ? 0 : COST.labelMissing;
    return continues(a, i) ? Math.min(COST.again, missing) : missing;
  };
}
