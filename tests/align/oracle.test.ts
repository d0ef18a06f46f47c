import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { agreeingSteps } from '../../src/align/agreeing.js';
import { cheapestAlignment, type Sequence, type Step } from '../../src/align/cheapest.js';
import { COST } from '../../src/align/cost.js';
import { emptyFeatures, KIND } from '../../src/align/features.js';
import { issueCosts } from '../../src/align/issue-cost.js';
import { type PriceRow, placeCosts } from '../../src/align/place-cost.js';

/** A place as a test draws it. */
interface Drawn {
  readonly kind: number;
  readonly date: number;
  readonly label: number;
  readonly order: number;
  readonly issue: number;
  readonly title?: number;
  readonly edition?: number;
  readonly free: boolean;
}

function sequenceOf(places: readonly Drawn[]): Sequence {
  const features = emptyFeatures(places.length);
  const free = new Uint8Array(places.length);
  places.forEach((place, at) => {
    features.kind[at] = place.kind;
    // what an issue says of itself it says on each of its pages
    features.date[at] = place.issue === 0 ? 0 : (places.find((one) => one.issue === place.issue)?.date ?? 0);
    features.title[at] = place.title ?? 1;
    features.edition[at] = place.edition ?? 1;
    features.label[at] = place.label;
    features.order[at] = place.order;
    features.issue[at] = place.issue;
    free[at] = place.free ? 1 : 0;
  });
  return { features, free };
}

const place = (kinds: readonly number[], free = fc.boolean()): fc.Arbitrary<Drawn> =>
  fc.record({
    kind: fc.constantFrom(...kinds),
    date: fc.integer({ min: 0, max: 2 }),
    label: fc.integer({ min: 0, max: 3 }),
    order: fc.integer({ min: 0, max: 3 }),
    issue: fc.integer({ min: 1, max: 2 }),
    free,
  });
const record = fc.array(place([KIND.page, KIND.page, KIND.heldBackPage, KIND.blank, KIND.target]), { maxLength: 5 });
const returned = fc.array(place([KIND.page, KIND.page, KIND.empty, KIND.emptyHalf, KIND.target, KIND.unmatched]), { maxLength: 5 });

/** The same places of another paper: nothing that they say agrees. */
function strange(places: readonly Drawn[]): Drawn[] {
  return places.map((one) => ({ ...one, date: one.date + 10, label: one.label + 10, order: one.order + 10, title: 2, edition: 2 }));
}

/** Pages only, every one an issue of its own. */
function alone(places: readonly Drawn[]): Drawn[] {
  return places.map((one, at) => ({ ...one, kind: KIND.page, issue: at + 1 }));
}

type State = 'settled' | 'record' | 'return';

/** A run that begins with a place that shows no page is cheaper to begin. */
function opening(sequence: Sequence, at: number): number {
  const shown: readonly number[] = [KIND.page, KIND.target, KIND.unmatched];
  return shown.includes(sequence.features.kind[at] ?? -1) ? COST.gapOpen : COST.gapOpenSilent;
}

const prices = (a: Sequence, b: Sequence): PriceRow => placeCosts(a.features, b.features, issueCosts(a.features, b.features));

function pairPrice(a: Sequence, b: Sequence, i: number, j: number, price = prices(a, b)): number {
  const { base, extra, cap } = price(i, j, j);
  return Math.min(cap, base[j]! + extra[j]!);
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

/** The same from a whole table of states (O. Gotoh, 1982), for sequences too long to try everything. No band: every place meets every other. */
function wholeTable(a: Sequence, b: Sequence): number {
  const [n, m] = [a.features.length, b.features.length];
  const least = (x: Record<State, number>): number => Math.min(x.settled, x.record, x.return);
  const table: Record<State, number>[][] = [];
  const price = prices(a, b);
  for (let i = 0; i <= n; i++) {
    const row: Record<State, number>[] = [];
    table.push(row);
    for (let j = 0; j <= m; j++) {
      const here = { settled: i + j === 0 ? 0 : Infinity, record: Infinity, return: Infinity };
      if (i > 0) {
        const above = table[i - 1]![j]!;
        const free = a.free[i - 1] === 1;
        here.record = Math.min(least(above) + opening(a, i - 1) + COST.gapEach, above.record + (free ? 0 : COST.gapEach));
        if (free) here.settled = Math.min(here.settled, least(above));
      }
      if (j > 0) {
        const left = row[j - 1]!;
        const free = b.free[j - 1] === 1;
        here.return = Math.min(least(left) + opening(b, j - 1) + COST.gapEach, left.return + (free ? 0 : COST.gapEach));
        if (free) here.settled = Math.min(here.settled, least(left));
      }
      if (i > 0 && j > 0) here.settled = Math.min(here.settled, least(table[i - 1]![j - 1]!) + pairPrice(a, b, i - 1, j - 1, price));
      row.push(here);
    }
  }
  return least(table[n]![m]!);
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

/** The steps of a way that costs nothing, each place of the record taken with one of the return as late as can be; null where there is none. By the price of pairs alone. */
function stepsForNothing(a: Sequence, b: Sequence): Step[] | null {
  const price = prices(a, b);
  const reach = new Map<string, boolean>();
  const free = (i: number, j: number): boolean => {
    if (i === 0 && j === 0) return true;
    const key = `${String(i)} ${String(j)}`;
    if (!reach.has(key)) reach.set(key, waysTo(i, j).length > 0);
    return reach.get(key) === true;
  };
  const waysTo = (i: number, j: number): Step[] => [
    ...(i > 0 && j > 0 && pairPrice(a, b, i - 1, j - 1, price) === 0 && free(i - 1, j - 1) ? [{ record: i - 1, returned: j - 1 }] : []),
    ...(i > 0 && a.free[i - 1] === 1 && free(i - 1, j) ? [{ record: i - 1, returned: null }] : []),
    ...(j > 0 && b.free[j - 1] === 1 && free(i, j - 1) ? [{ record: null, returned: j - 1 }] : []),
  ];
  const steps: Step[] = [];
  for (let [i, j] = [a.features.length, b.features.length]; i > 0 || j > 0; ) {
    const [step] = waysTo(i, j);
    if (step === undefined) return null;
    steps.push(step);
    [i, j] = [step.record ?? i, step.returned ?? j];
  }
  return steps.reverse();
}

describe('the cheapest alignment', () => {
  it('takes the steps that the table would take, where it needs none', () => {
    // one side with places of the other left out, which may be passed over or not, and now and then a fact that differs
    const drawn = fc.array(
      fc.record({
        one: place([KIND.page, KIND.page, KIND.page, KIND.heldBackPage, KIND.blank, KIND.target], fc.boolean()),
        left: fc.nat(12),
        other: fc.nat(60),
        silent: fc.nat(3),
      }),
      { maxLength: 40 },
    );
    const counted = { none: 0, byTheTable: 0 };
    fc.assert(
      fc.property(drawn, fc.boolean(), (places, lettered) => {
        const mine = places.filter(({ left, one }) => left !== 0 || !one.free).map(({ one }) => one);
        const theirs = places
          .filter(({ left, one }) => left !== 1 || !one.free)
          .map(({ one, other, silent }) => ({
            ...one,
            kind: one.kind === KIND.page || one.kind === KIND.heldBackPage ? one.kind : lettered ? KIND.empty : one.kind,
            label: other === 0 ? one.label + 1 : silent === 0 ? 0 : one.label,
            order: silent === 1 ? 0 : one.order,
          }));
        const [a, b] = [sequenceOf(mine), sequenceOf(theirs)];
        const width = Math.max(mine.length, theirs.length);
        const found = agreeingSteps(a, b, width);
        const right = stepsForNothing(a, b);
        if (found !== null) expect(found).toEqual(right);
        counted[found === null ? 'byTheTable' : 'none'] += 1;
        const { steps, cost } = cheapestAlignment(a, b);
        expect(cost === 0).toBe(right !== null);
        if (right !== null) expect(steps).toEqual(right);
      }),
      { numRuns: 600 },
    );
    expect(Math.min(...Object.values(counted))).toBeGreaterThan(60);
  });

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

  it('costs what a table without a band gives, where blocks were moved, dropped and left free', () => {
    const seldom = fc.nat(60).map((drawn) => drawn === 0);
    const block = fc.array(place([KIND.page, KIND.page, KIND.heldBackPage, KIND.blank], seldom), {
      minLength: 30,
      maxLength: 70,
      size: 'max',
    });
    const parts = fc.record({ first: block, second: block, third: block, turn: fc.integer({ min: 0, max: 5 }), single: fc.boolean() });
    let banded = 0;
    fc.assert(
      fc.property(parts, ({ first, second, third, turn, single }) => {
        const ours = [...first, ...second, ...third];
        const theirs =
          [[...second, ...first, ...third], [...third, ...first], [...first, ...third], ours.slice(1), strange(ours), strange(third)][
            turn
          ] ?? [];
        const a = sequenceOf(single ? alone(ours) : ours);
        const b = sequenceOf(
          (single ? alone(theirs) : theirs).map((one) => (one.kind === KIND.blank ? { ...one, kind: KIND.empty } : one)),
        );
        if (Math.max(ours.length, theirs.length) > 100) banded++;
        expect(cheapestAlignment(a, b).cost).toBe(wholeTable(a, b));
      }),
      { numRuns: 120, endOnFailure: true },
    );
    expect(banded).toBeGreaterThan(10);
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
