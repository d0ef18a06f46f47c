import type { SeriesLot, Severity, Standing } from '../model/sample.js';

/** What reduced inspection needs beside ten good lots: someone who wants it, steady work, and an agreement to drop the limit numbers. */
export interface ReducedTerms {
  readonly wanted: boolean;
  readonly steady: boolean;
  readonly limitNumbersDropped: boolean;
}

/**
 * Replays the switching rules of MIL-STD-105E, 4.7 and 4.8, over a series of lots for one class of faults; a series starts on normal.
 * The limit numbers of Table VIII are not in this program; reduced inspection is open only where the parties agreed to drop them
 * (ANSI/ASQ Z1.4, 8.5, lets them).
 */
export function nextInspection(lots: readonly SeriesLot[], terms: ReducedTerms): Standing {
  let standing: Standing = { severity: 'normal', because: 'A series starts on normal inspection.' };
  let since: boolean[] = [];
  const go = (severity: Standing['severity'], because: string): void => {
    standing = { severity, because };
    since = [];
  };
  for (const lot of lots) {
    if (standing.severity === 'discontinued' && lot.resumed === true) go('tightened', 'Inspection was taken up again on tightened.');
    if (standing.severity === 'discontinued') continue;
    if (standing.severity === 'reduced' && lot.irregular === true) go('normal', 'Work became irregular or was delayed.');
    since.push(lot.accepted);
    step(standing.severity, lot, since, terms, go);
  }
  return standing;
}

function step(
  severity: Severity | 'discontinued',
  lot: SeriesLot,
  since: readonly boolean[],
  terms: ReducedTerms,
  go: (severity: Standing['severity'], because: string) => void,
): void {
  const rejected = (count: number): number => since.slice(-count).filter((accepted) => !accepted).length;
  if (severity === 'normal') {
    if (!lot.accepted && rejected(5) >= 2) go('tightened', 'Two of five or fewer consecutive lots were not accepted.');
    else if (terms.wanted && terms.steady && terms.limitNumbersDropped && since.length >= 10 && rejected(10) === 0)
      go('reduced', 'The ten lots before were all accepted on normal inspection, work is steady, and reduced inspection is wanted.');
  } else if (severity === 'tightened') {
    if (rejected(since.length) >= 5) go('discontinued', 'Five lots were not accepted on tightened inspection.');
    else if (since.length >= 5 && rejected(5) === 0) go('normal', 'Five consecutive lots were accepted on tightened inspection.');
  } else if (severity === 'reduced') {
    if (!lot.accepted) go('normal', 'A lot was not accepted on reduced inspection.');
    else if (lot.betweenNumbers === true) go('normal', 'A lot was accepted with more wrong units than the acceptance number.');
  }
}

/**
 * Long-run chance that a lot passes in a series that switches between normal and tightened inspection, from the chance of passing under
 * each (K. S. Stephens and K. E. Larson, 1967). Both chances lie between 0 and 1; at the ends the answer is the end itself.
 */
export function seriesAcceptance(normal: number, tightened: number): number {
  if (normal >= 1) return 1;
  if (tightened <= 0) return 0;
  if (tightened >= 1) return normal;
  const onNormal = (2 - normal ** 4) / ((1 - normal) * (1 - normal ** 4));
  const onTightened = (1 - tightened ** 5) / ((1 - tightened) * tightened ** 5);
  return (onNormal * normal + onTightened * tightened) / (onNormal + onTightened);
}
