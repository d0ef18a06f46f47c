/** A chance as an exact fraction of whole numbers. */
export interface Fraction {
  readonly top: bigint;
  readonly bottom: bigint;
}

function choose(n: number, k: number): bigint {
  if (k < 0 || k > n) return 0n;
  let result = 1n;
  for (let i = 1; i <= Math.min(k, n - k); i++) result = (result * BigInt(n - i + 1)) / BigInt(i);
  return result;
}

/** P(X <= count) of the hypergeometric distribution, by its definition, in whole numbers. */
export function exactHypergeometric(lot: number, bad: number, sample: number, count: number): Fraction {
  const low = Math.max(0, sample - (lot - bad));
  const good = lot - bad;
  // the first term by its definition, the next from it: C(D,x+1) C(G,n-x-1) is C(D,x) C(G,n-x) (D-x)(n-x) / ((x+1)(G-n+x+1)), an exact division
  let term = choose(bad, low) * choose(good, sample - low);
  let top = 0n;
  for (let x = low; x <= Math.min(count, bad, sample); x++) {
    top += term;
    term = (term * BigInt(bad - x) * BigInt(sample - x)) / (BigInt(x + 1) * BigInt(good - sample + x + 1));
  }
  return { top, bottom: choose(lot, sample) };
}

/** P(X <= count) of the binomial distribution for the rate `top / bottom`, in whole numbers. */
export function exactBinomial(sample: number, rate: Fraction, count: number): Fraction {
  const other = rate.bottom - rate.top;
  let top = 0n;
  for (let x = 0; x <= count; x++) top += choose(sample, x) * rate.top ** BigInt(x) * other ** BigInt(sample - x);
  return { top, bottom: rate.bottom ** BigInt(sample) };
}

/** The fraction as a number right to about 16 digits, small ones too. */
export function asNumber({ top, bottom }: Fraction): number {
  if (top === 0n) return 0;
  // scale so that the quotient keeps 18 digits or more
  const scale = Math.max(0, bottom.toString().length - top.toString().length) + 20;
  const quotient = (top * 10n ** BigInt(scale)) / bottom;
  return Number(`${quotient}e-${scale}`);
}
