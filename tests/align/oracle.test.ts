import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { cheapestAlignment, type Sequence, type Step } from '../../src/align/cheapest.js';
import { COST } from '../../src/align/cost.js';
import { emptyFeatures, KIND } from '../../src/align/features.js';
import { placeCosts } from '../../src/align/place-cost.js';

/** A place as a test draws it. */
interface Drawn {
  readonly kind: number;
  readonly date: number;
  readonly label: number;
  readonly order: number;
  readonly issue: number;
  readonly free: boolean;
}

function sequenceOf(places: readonly Drawn[]): Sequence {
  const features = emptyFeatures(places.length);
  const free = new Uint8Array(places.length);
  places.forEach((place, at) => {
    features.kind[at] = place.kind;
    // what an issue says of itself it says on each of its pages
    features.date[at] = place.issue === 0 ? 0 : (places.find((one) => one.issue === place.issue)?.date ?? 0);
    features.label[at] = place.label;
    features.order[at] = place.order;
    features.issue[at] = place.issue;
    free[at] = place.free ? 1 : 0;
  });
  return { features, free };
}

const place = (kinds: readonly number[]): fc.Arbitrary<Drawn> =>
  fc.record({
    kind: fc.constantFrom(...kinds),
    date: fc.integer({ min: 0, max: 2 }),
    label: fc.integer({ min: 0, max: 3 }),
    order: fc.integer({ min: 0, max: 3 }),
    issue: fc.integer({ min: 1, max: 2 }),
    free: fc.boolean(),
  });
const record = fc.array(place([KIND.page, KIND.page, KIND.heldBackPage, KIND.blank, KIND.target]), { maxLength: 5 });
const returned = fc.array(place([KIND.page, KIND.page, KIND.empty, KIND.emptyHalf, KIND.target, KIND.unmatched]), { maxLength: 5 });

type State = 'settled' | 'record' | 'return';

/** A run that begins with a place that shows no page is cheaper to begin. */
function opening(sequence: Sequence, at: number): number {
  const shown: readonly number[] = [KIND.page, KIND.target, KIND.unmatched];
  return shown.includes(sequence.features.kind[at] ?? -1) ? COST.gapOpen : COST.gapOpenSilent;
}

function pairPrice(a: Sequence, b: Sequence, i: number, j: number): number {
  const prices = new Int32Array(b.features.length);
  placeCosts(a.features, b.features)(i, j, j, prices);
  return prices[j] ?? Infinity;
}

/** The cost of the best alignment, by trying every one: no table, no band, nothing shared with the program but the price of a pair. */
function exhaustive(a: Sequence, b: Sequence, i = 0, j = 0, state: State = 'settled'): number {
  if (i === a.features.length && j === b.features.length) return 0;
  const options: number[] = [];
  if (i < a.features.length && j < b.features.length) {
    options.push(pairPrice(a, b, i, j) + exhaustive(a, b, i + 1, j + 1, 'settled'));
  }
  if (i < a.features.length) {
    const each = a.free[i] === 1 && state === 'record' ? 0 : COST.gapEach;
    options.push((state === 'record' ? 0 : opening(a, i)) + each + exhaustive(a, b, i + 1, j, 'record'));
    if (a.free[i] === 1) options.push(exhaustive(a, b, i + 1, j, 'settled'));
  }
  if (j < b.features.length) {
    const each = b.free[j] === 1 && state === 'return' ? 0 : COST.gapEach;
    options.push((state === 'return' ? 0 : opening(b, j)) + each + exhaustive(a, b, i, j + 1, 'return'));
    if (b.free[j] === 1) options.push(exhaustive(a, b, i, j + 1, 'settled'));
  }
  return Math.min(...options);
}

/** What a list of steps costs at the least, with gaps priced as runs. */
function priceOf(steps: readonly Step[], a: Sequence, b: Sequence): number {
  let best: Record<State, number> = { settled: 0, record: Infinity, return: Infinity };
  for (const { record: i, returned: j } of steps) {
    const any = Math.min(best.settled, best.record, best.return);
    if (i !== null && j !== null) {
      best = { settled: any + pairPrice(a, b, i, j), record: Infinity, return: Infinity };
    } else if (i !== null) {
      const free = a.free[i] === 1;
      best = {
        settled: free ? any : Infinity,
        record: Math.min(any + opening(a, i) + COST.gapEach, best.record + (free ? 0 : COST.gapEach)),
        return: Infinity,
      };
    } else if (j !== null) {
      const free = b.free[j] === 1;
      best = {
        settled: free ? any : Infinity,
        return: Math.min(any + opening(b, j) + COST.gapEach, best.return + (free ? 0 : COST.gapEach)),
        record: Infinity,
      };
    }
  }
  return Math.min(best.settled, best.record, best.return);
}

describe('the cheapest alignment', () => {
  it('costs what the best of all alignments costs, on small sequences', () => {
    fc.assert(
      fc.property(record, returned, (left, right) => {
        const a = sequenceOf(left);
        const b = sequenceOf(right);
        expect(cheapestAlignment(a, b).cost).toBe(exhaustive(a, b));
      }),
      { numRuns: 400 },
    );
  });

  it('names every place once, in order, and its steps cost what it says', () => {
    const long = (kinds: readonly number[]): fc.Arbitrary<Drawn[]> => fc.array(place(kinds), { maxLength: 60 });
    fc.assert(
      fc.property(long([KIND.page, KIND.blank, KIND.heldBackPage]), long([KIND.page, KIND.empty]), (left, right) => {
        const a = sequenceOf(left);
        const b = sequenceOf(right);
        const { steps, cost } = cheapestAlignment(a, b);
        expect(steps.flatMap((step) => step.record ?? [])).toEqual(left.map((_, at) => at));
        expect(steps.flatMap((step) => step.returned ?? [])).toEqual(right.map((_, at) => at));
        expect(priceOf(steps, a, b)).toBe(cost);
      }),
      { numRuns: 200 },
    );
  });
});
