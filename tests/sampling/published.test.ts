import { describe, expect, it } from 'vitest';
import { designEffect, effectiveSize } from '../../src/sampling/clusters.js';
import { countInterval, highestRate, rateInterval, rateWhere } from '../../src/sampling/interval.js';
import { binomial, hypergeometric, poisson } from '../../src/sampling/probability.js';
import { seriesAcceptance } from '../../src/sampling/switching.js';
import { sizeForPrecision, twoPointPlan } from '../../src/sampling/two-point.js';
import { published } from './published.js';

/** Chance that a double plan accepts, from the chances of its two samples: at most `a1` at first, or between and at most `a2` in both. */
function double(first: number, second: number, a1: number, r1: number, a2: number, rate: number): number {
  let sum = binomial(first, rate, a1).atMost;
  for (let d = a1 + 1; d < r1; d++) sum += binomial(first, rate, d).exactly * binomial(second, rate, a2 - d).atMost;
  return sum;
}

/** Plan 1, 4, 3 with samples of 50 and 100 from a lot of 200 with 10 wrong; the second sample comes from what is left. */
function doubleFromLot(): number {
  let sum = hypergeometric(200, 10, 50, 1).atMost;
  for (let d = 2; d < 4; d++) sum += hypergeometric(200, 10, 50, d).exactly * hypergeometric(150, 10 - d, 100, 3 - d).atMost;
  return sum;
}

/** Units looked at on average by the double plan 0, 2, 1 with 13 and 13. */
function averageSize(rate: number): number {
  return 13 + 13 * (binomial(13, rate, 1).atMost - binomial(13, rate, 0).atMost);
}

/** The same where the second sample stops at its first wrong unit, which fails the lot: geometric, cut at 13. */
function averageSizeStopping(rate: number): number {
  return 13 + binomial(13, rate, 1).exactly * ((1 - (1 - rate) ** 13) / rate);
}

const scheme = (rate: number): number => seriesAcceptance(binomial(200, rate, 7).atMost, binomial(200, rate, 5).atMost);
const twoPoint = twoPointPlan(
  (n, c) => binomial(n, 0.05, c).atMost,
  0.95,
  (n, c) => binomial(n, 0.15, c).atMost,
  0.075,
  500,
);
const fleshed = designEffect(12, 0.03) * (1 + 0.25 ** 2) * 0.95;
// the books print the first rejected count on each side; this program prints the last that is not
const kk1 = countInterval({ lot: 300, sample: 100, wrong: 45 }, { top: 1n, bottom: 20n });
const kk2 = countInterval({ lot: 300, sample: 100, wrong: 2 }, { top: 1n, bottom: 20n });
const remarks = countInterval({ lot: 50, sample: 10, wrong: 3 }, { top: 1n, bottom: 20n });

const single: Readonly<Record<string, number>> = {
  'SAS-A1': hypergeometric(120, 22, 20, 1).atMost,
  'SAS-B1': binomial(20, 0.18, 1).atMost,
  'EXACT-A2': doubleFromLot(),
  'SAS-B2': double(13, 13, 0, 2, 1, 0.18),
  'SAS-ASN': averageSize(0.18),
  'SAS-ASNs': averageSizeStopping(0.18),
  'JSS-as1': binomial(20, 0.05, 0).atMost,
  'JSS-as2': binomial(20, 0.15, 0).atMost,
  'JSS-plan-n': twoPoint?.size ?? Number.NaN,
  'JSS-plan-c': twoPoint?.accept ?? Number.NaN,
  SP1: binomial(68, 0.01213, 2).atMost,
  SP2: binomial(68, 0.089704, 2).atMost,
  PM1: binomial(125, 0.1, 2).atMost,
  PM2: binomial(65, 0.012, 2).atMost,
  SCH1: scheme(0.019296),
  SCH2: scheme(0.045884),
  'BIR-LTPD': poisson(3.9, 1).atMost,
  CFR1: poisson(5, 3).atMost,
  CFR2: poisson(0.5, 3).atMost,
  'LQ-J': 100 * rateWhere((rate) => binomial(80, rate, 3).atMost > 0.1),
  'LQ-N': 100 * rateWhere((rate) => poisson(500 * rate, 14).atMost > 0.1),
  KK1L: kk1.low - 1,
  KK1U: kk1.high + 1,
  KK2L: kk2.low,
  KK2U: kk2.high + 1,
  'SBV-L': remarks.low - 1,
  'SBV-U': remarks.high + 1,
  KK3L: rateInterval(1206, 302, 0.05).low,
  KK3U: rateInterval(1206, 302, 0.05).high,
  KK4L: rateInterval(1206, 133, 0.05).low,
  KK4U: rateInterval(1206, 133, 0.05).high,
  KK5: sizeForPrecision(0.5, 0.01, Infinity),
  KK6: sizeForPrecision(0.39, 0.01, Infinity),
  KK7: sizeForPrecision(0.5, 0.05, 300),
  GBA: highestRate(100000, 5, 0.05),
  'INF-L': rateInterval(25, 5, 0.05).low,
  'INF-U': rateInterval(25, 5, 0.05).high,
  'R3-30': highestRate(30, 0, 0.05),
  'R3-300': highestRate(300, 0, 0.05),
  'R3-1500': highestRate(1500, 0, 0.05),
  'NIST-D1': double(108, 108, 2, 5, 4, 0.01),
  'NIST-D2': double(108, 108, 2, 5, 4, 0.05),
  'NIST-D3': double(77, 154, 1, 5, 4, 0.05),
  DEFF1: fleshed,
  DEFF2: effectiveSize(1200, fleshed),
  DEFF3: designEffect(20, 0.05),
};

/** Operating curves are known by the plan in their name and the rate at its end. */
function ours(id: string): number {
  const rate = Number(id.slice(id.lastIndexOf('-') + 1));
  if (id.startsWith('JSS-OC-')) return binomial(10, rate, 3).atMost;
  if (id.startsWith('TB50-')) return binomial(50, rate, 1).atMost;
  return single[id] ?? Number.NaN;
}

describe('values that others printed', () => {
  it('are 64', () => {
    expect(published.length).toBe(64);
  });

  it.each(published)('$id: $what ($source)', ({ id, value, within }) => {
    expect(Math.abs(ours(id) - value)).toBeLessThanOrEqual(within);
  });
});
