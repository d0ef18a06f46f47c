import type { Met, Verdict } from './judge.js';

/** Counts of one row of the table. */
export interface Tally {
  cases: number;
  mistakes: number;
  found: number;
  findings: number;
  untrue: number;
  one: number;
  code: number;
  owned: number;
  told: number;
  toldRight: number;
  open: number;
  openRight: number;
  accepted: number;
}

export const emptyTally = (): Tally => ({
  cases: 0,
  mistakes: 0,
  found: 0,
  findings: 0,
  untrue: 0,
  one: 0,
  code: 0,
  owned: 0,
  told: 0,
  toldRight: 0,
  open: 0,
  openRight: 0,
  accepted: 0,
});

/** Counts one mistake. */
export function countMet(tally: Tally, { planted, findings, code, side, owned }: Met): void {
  tally.mistakes += 1;
  tally.findings += findings.length;
  if (findings.length > 0) tally.found += 1;
  if (findings.length === 1) tally.one += 1;
  if (code) tally.code += 1;
  if (owned) tally.owned += 1;
  if (planted.told) tally.told += 1;
  else tally.open += 1;
  if (side && planted.told) tally.toldRight += 1;
  if (side && !planted.told) tally.openRight += 1;
}

/** Counts what belongs to the case as a whole. */
export function countCase(tally: Tally, { untrue, accepted }: Verdict): void {
  tally.cases += 1;
  tally.findings += untrue.length;
  tally.untrue += untrue.length;
  if (accepted) tally.accepted += 1;
}

const share = (part: number, whole: number): string => (whole === 0 ? '–' : `${((100 * part) / whole).toFixed(1)} %`).padStart(9);

/** The names of the columns. */
export const HEAD = `${''.padEnd(30)} mistakes     found      true       one  each     all pages right code  side told side open  accepted`;

/** One row of the table. */
export function row(name: string, tally: Tally): string {
  const { mistakes, found, findings, untrue, one, code, owned, told, toldRight, open, openRight, accepted } = tally;
  const each = (findings / Math.max(1, mistakes)).toFixed(3).padStart(6);
  return `${name.padEnd(30)} ${String(mistakes).padStart(8)} ${share(found, mistakes)} ${share(findings - untrue, findings)} ${share(one, mistakes)} ${each} ${share(owned, mistakes).padStart(13)} ${share(code, mistakes)} ${share(toldRight, told).padStart(10)} ${share(openRight, open)} ${String(accepted).padStart(9)}`;
}
