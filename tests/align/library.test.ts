import { diffArrays } from 'diff';
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { cheapestAlignment, type Sequence } from '../../src/align/cheapest.js';
import { emptyFeatures, KIND } from '../../src/align/features.js';

/** Pages that are told apart by everything they say: title, date and label are the page's own number. */
function pages(numbers: readonly number[]): Sequence {
  const features = emptyFeatures(numbers.length);
  numbers.forEach((number, at) => {
    features.kind[at] = KIND.page;
    features.title[at] = number;
    features.date[at] = number;
    features.label[at] = number;
    features.issue[at] = number;
  });
  return { features, free: new Uint8Array(numbers.length) };
}

/** Frames dropped from one side and added to the other, well apart, so that losing and inventing frames is all there is to explain. */
const cases = fc
  .record({
    length: fc.integer({ min: 20, max: 120 }),
    drops: fc.uniqueArray(fc.integer({ min: 0, max: 11 }), { maxLength: 4 }),
    adds: fc.uniqueArray(fc.integer({ min: 0, max: 11 }), { maxLength: 4 }),
  })
  .map(({ length, drops, adds }) => {
    const whole = Array.from({ length }, (_, at) => at + 1);
    const dropped = new Set(drops.map((at) => at * 10 + 2));
    const right = whole.flatMap((number) => [
      ...(dropped.has(number) ? [] : [number]),
      ...(adds.some((at) => at * 10 + 7 === number) ? [1000 + number] : []),
    ]);
    return { left: whole, right };
  });

describe('against the npm package diff (Myers, general purpose), where frames are only lost or added', () => {
  it('pairs as many frames as the longest common subsequence has, and the same ones', () => {
    fc.assert(
      fc.property(cases, ({ left, right }) => {
        const common = diffArrays(left, right)
          .filter((part) => !part.added && !part.removed)
          .flatMap((part) => part.value);
        const { steps } = cheapestAlignment(pages(left), pages(right));
        const paired = steps.flatMap((step) =>
          step.record !== null && step.returned !== null ? [[left[step.record], right[step.returned]]] : [],
        );
        expect(paired).toEqual(common.map((number) => [number, number]));
      }),
      { numRuns: 150 },
    );
  });
});
