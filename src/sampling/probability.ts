/** Chances of a count of wrong units in a sample: of exactly the number asked for, of at most it, and of more. */
export interface Chances {
  readonly exactly: number;
  readonly atMost: number;
  readonly above: number;
}

/**
 * Number of wrong units in `sample` units drawn without replacement from a lot of `lot` with `bad` wrong ones (hypergeometric).
 * All are whole; `bad` and `sample` are from 0 to `lot`. Chances under 1e-300 of the likeliest count's are given as 0.
 */
export function hypergeometric(lot: number, bad: number, sample: number, count: number): Chances {
  const low = Math.max(0, sample - (lot - bad));
  const high = Math.min(bad, sample);
  const mode = Math.floor(((sample + 1) * (bad + 1)) / (lot + 2));
  return fromMode(low, high, mode, count, (x) => ((bad - x) * (sample - x)) / ((x + 1) * (lot - bad - sample + x + 1)));
}

/** Number of wrong units in `sample` units of an endless process with the error rate `rate`, 0 to 1 (binomial). */
export function binomial(sample: number, rate: number, count: number): Chances {
  if (rate <= 0) return sure(0, count);
  if (rate >= 1) return sure(sample, count);
  const odds = rate / (1 - rate);
  return fromMode(0, sample, Math.floor((sample + 1) * rate), count, (x) => ((sample - x) / (x + 1)) * odds);
}

/** Number of errors where `mean` are expected and one unit can hold several (Poisson); the tables mean this above an AQL of 10. */
export function poisson(mean: number, count: number): Chances {
  if (mean <= 0) return sure(0, count);
  return fromMode(0, Infinity, Math.floor(mean), count, (x) => mean / (x + 1));
}

function sure(value: number, count: number): Chances {
  return { exactly: count === value ? 1 : 0, atMost: count >= value ? 1 : 0, above: count >= value ? 0 : 1 };
}

const NEGLIGIBLE = 1e-300;

/**
 * Every chance is taken relative to the likeliest count's, by the ratio of neighbours, and divided by the sum of all. Only + - * / are
 * used: no logarithm or gamma function, whose last digits differ from machine to machine, so a saved result can be made again anywhere.
 */
function fromMode(low: number, high: number, mode: number, count: number, ratio: (x: number) => number): Chances {
  const start = Math.min(high, Math.max(low, mode));
  const below = compensated();
  const above = compensated();
  let exactly = 0;
  const take = (x: number, term: number): void => {
    (x <= count ? below : above).add(term);
    if (x === count) exactly = term;
  };
  take(start, 1);
  for (let x = start - 1, term = 1; x >= low; x--) {
    term /= ratio(x);
    if (term < NEGLIGIBLE) break;
    take(x, term);
  }
  for (let x = start, term = 1; x < high; x++) {
    term *= ratio(x);
    if (term < NEGLIGIBLE) break;
    take(x + 1, term);
  }
  const total = below.value() + above.value();
  return { exactly: exactly / total, atMost: below.value() / total, above: above.value() / total };
}

/** A running sum of positive numbers that keeps what rounding drops (A. Neumaier, 1974), so the order of adding does not matter. */
function compensated(): { readonly add: (term: number) => void; readonly value: () => number } {
  let sum = 0;
  let lost = 0;
  return {
    add: (term) => {
      const next = sum + term;
      lost += sum >= term ? sum - next + term : term - next + sum;
      sum = next;
    },
    value: () => sum + lost,
  };
}
