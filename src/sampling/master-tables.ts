import type { Severity } from '../model/sample.js';

/** A row of a master table: sample size and one entry for each AQL: `ac/re`, `v` (use the first plan below) or `^` (the first above). */
export interface MasterRow {
  readonly letter: string;
  readonly size: number;
  readonly cells: string;
}

/** The column heads of Tables II-A, II-B and II-C: percent nonconforming, above 10 nonconformities per hundred units. */
export const aqls = [
  '0.010',
  '0.015',
  '0.025',
  '0.040',
  '0.065',
  '0.10',
  '0.15',
  '0.25',
  '0.40',
  '0.65',
  '1.0',
  '1.5',
  '2.5',
  '4.0',
  '6.5',
  '10',
  '15',
  '25',
  '40',
  '65',
  '100',
  '150',
  '250',
  '400',
  '650',
  '1000',
] as const;

/**
 * Single-sampling master tables of MIL-STD-105E (10 May 1989): II-A normal, II-B tightened, II-C reduced. Every cell was compared in two or
 * more independent transcriptions, except those that `restsOf` names.
 */
export const masterTables: Readonly<Record<Severity, readonly MasterRow[]>> = {
  normal: [
    { letter: 'A', size: 2, cells: 'v v v v v v v v v v v v v v 0/1 v v 1/2 2/3 3/4 5/6 7/8 10/11 14/15 21/22 30/31' },
    { letter: 'B', size: 3, cells: 'v v v v v v v v v v v v v 0/1 ^ v 1/2 2/3 3/4 5/6 7/8 10/11 14/15 21/22 30/31 44/45' },
    { letter: 'C', size: 5, cells: 'v v v v v v v v v v v v 0/1 ^ v 1/2 2/3 3/4 5/6 7/8 10/11 14/15 21/22 30/31 44/45 ^' },
    { letter: 'D', size: 8, cells: 'v v v v v v v v v v v 0/1 ^ v 1/2 2/3 3/4 5/6 7/8 10/11 14/15 21/22 30/31 44/45 ^ ^' },
    { letter: 'E', size: 13, cells: 'v v v v v v v v v v 0/1 ^ v 1/2 2/3 3/4 5/6 7/8 10/11 14/15 21/22 30/31 44/45 ^ ^ ^' },
    { letter: 'F', size: 20, cells: 'v v v v v v v v v 0/1 ^ v 1/2 2/3 3/4 5/6 7/8 10/11 14/15 21/22 ^ ^ ^ ^ ^ ^' },
    { letter: 'G', size: 32, cells: 'v v v v v v v v 0/1 ^ v 1/2 2/3 3/4 5/6 7/8 10/11 14/15 21/22 ^ ^ ^ ^ ^ ^ ^' },
    { letter: 'H', size: 50, cells: 'v v v v v v v 0/1 ^ v 1/2 2/3 3/4 5/6 7/8 10/11 14/15 21/22 ^ ^ ^ ^ ^ ^ ^ ^' },
    { letter: 'J', size: 80, cells: 'v v v v v v 0/1 ^ v 1/2 2/3 3/4 5/6 7/8 10/11 14/15 21/22 ^ ^ ^ ^ ^ ^ ^ ^ ^' },
    { letter: 'K', size: 125, cells: 'v v v v v 0/1 ^ v 1/2 2/3 3/4 5/6 7/8 10/11 14/15 21/22 ^ ^ ^ ^ ^ ^ ^ ^ ^ ^' },
    { letter: 'L', size: 200, cells: 'v v v v 0/1 ^ v 1/2 2/3 3/4 5/6 7/8 10/11 14/15 21/22 ^ ^ ^ ^ ^ ^ ^ ^ ^ ^ ^' },
    { letter: 'M', size: 315, cells: 'v v v 0/1 ^ v 1/2 2/3 3/4 5/6 7/8 10/11 14/15 21/22 ^ ^ ^ ^ ^ ^ ^ ^ ^ ^ ^ ^' },
    { letter: 'N', size: 500, cells: 'v v 0/1 ^ v 1/2 2/3 3/4 5/6 7/8 10/11 14/15 21/22 ^ ^ ^ ^ ^ ^ ^ ^ ^ ^ ^ ^ ^' },
    { letter: 'P', size: 800, cells: 'v 0/1 ^ v 1/2 2/3 3/4 5/6 7/8 10/11 14/15 21/22 ^ ^ ^ ^ ^ ^ ^ ^ ^ ^ ^ ^ ^ ^' },
    { letter: 'Q', size: 1250, cells: '0/1 ^ v 1/2 2/3 3/4 5/6 7/8 10/11 14/15 21/22 ^ ^ ^ ^ ^ ^ ^ ^ ^ ^ ^ ^ ^ ^ ^' },
    { letter: 'R', size: 2000, cells: '^ ^ 1/2 2/3 3/4 5/6 7/8 10/11 14/15 21/22 ^ ^ ^ ^ ^ ^ ^ ^ ^ ^ ^ ^ ^ ^ ^ ^' },
  ],
  tightened: [
    { letter: 'A', size: 2, cells: 'v v v v v v v v v v v v v v v v v v 1/2 2/3 3/4 5/6 8/9 12/13 18/19 27/28' },
    { letter: 'B', size: 3, cells: 'v v v v v v v v v v v v v v 0/1 v v 1/2 2/3 3/4 5/6 8/9 12/13 18/19 27/28 41/42' },
    { letter: 'C', size: 5, cells: 'v v v v v v v v v v v v v 0/1 v v 1/2 2/3 3/4 5/6 8/9 12/13 18/19 27/28 41/42 ^' },
    { letter: 'D', size: 8, cells: 'v v v v v v v v v v v v 0/1 v v 1/2 2/3 3/4 5/6 8/9 12/13 18/19 27/28 41/42 ^ ^' },
    { letter: 'E', size: 13, cells: 'v v v v v v v v v v v 0/1 v v 1/2 2/3 3/4 5/6 8/9 12/13 18/19 27/28 41/42 ^ ^ ^' },
    { letter: 'F', size: 20, cells: 'v v v v v v v v v v 0/1 v v 1/2 2/3 3/4 5/6 8/9 12/13 18/19 ^ ^ ^ ^ ^ ^' },
    { letter: 'G', size: 32, cells: 'v v v v v v v v v 0/1 v v 1/2 2/3 3/4 5/6 8/9 12/13 18/19 ^ ^ ^ ^ ^ ^ ^' },
    { letter: 'H', size: 50, cells: 'v v v v v v v v 0/1 v v 1/2 2/3 3/4 5/6 8/9 12/13 18/19 ^ ^ ^ ^ ^ ^ ^ ^' },
    { letter: 'J', size: 80, cells: 'v v v v v v v 0/1 v v 1/2 2/3 3/4 5/6 8/9 12/13 18/19 ^ ^ ^ ^ ^ ^ ^ ^ ^' },
    { letter: 'K', size: 125, cells: 'v v v v v v 0/1 v v 1/2 2/3 3/4 5/6 8/9 12/13 18/19 ^ ^ ^ ^ ^ ^ ^ ^ ^ ^' },
    { letter: 'L', size: 200, cells: 'v v v v v 0/1 v v 1/2 2/3 3/4 5/6 8/9 12/13 18/19 ^ ^ ^ ^ ^ ^ ^ ^ ^ ^ ^' },
    { letter: 'M', size: 315, cells: 'v v v v 0/1 v v 1/2 2/3 3/4 5/6 8/9 12/13 18/19 ^ ^ ^ ^ ^ ^ ^ ^ ^ ^ ^ ^' },
    { letter: 'N', size: 500, cells: 'v v v 0/1 v v 1/2 2/3 3/4 5/6 8/9 12/13 18/19 ^ ^ ^ ^ ^ ^ ^ ^ ^ ^ ^ ^ ^' },
    { letter: 'P', size: 800, cells: 'v v 0/1 v v 1/2 2/3 3/4 5/6 8/9 12/13 18/19 ^ ^ ^ ^ ^ ^ ^ ^ ^ ^ ^ ^ ^ ^' },
    { letter: 'Q', size: 1250, cells: 'v 0/1 v v 1/2 2/3 3/4 5/6 8/9 12/13 18/19 ^ ^ ^ ^ ^ ^ ^ ^ ^ ^ ^ ^ ^ ^ ^' },
    { letter: 'R', size: 2000, cells: '0/1 ^ v 1/2 2/3 3/4 5/6 8/9 12/13 18/19 ^ ^ ^ ^ ^ ^ ^ ^ ^ ^ ^ ^ ^ ^ ^ ^' },
    { letter: 'S', size: 3150, cells: '^ ^ 1/2 ^ ^ ^ ^ ^ ^ ^ ^ ^ ^ ^ ^ ^ ^ ^ ^ ^ ^ ^ ^ ^ ^ ^' },
  ],
  reduced: [
    { letter: 'A', size: 2, cells: 'v v v v v v v v v v v v v v 0/1 v v 1/2 2/3 3/4 5/6 7/8 10/11 14/15 21/22 30/31' },
    { letter: 'B', size: 2, cells: 'v v v v v v v v v v v v v 0/1 ^ v 0/2 1/3 2/4 3/5 5/6 7/8 10/11 14/15 21/22 30/31' },
    { letter: 'C', size: 2, cells: 'v v v v v v v v v v v v 0/1 ^ v 0/2 1/3 1/4 2/5 3/6 5/8 7/10 10/13 14/17 21/24 ^' },
    { letter: 'D', size: 3, cells: 'v v v v v v v v v v v 0/1 ^ v 0/2 1/3 1/4 2/5 3/6 5/8 7/10 10/13 14/17 21/24 ^ ^' },
    { letter: 'E', size: 5, cells: 'v v v v v v v v v v 0/1 ^ v 0/2 1/3 1/4 2/5 3/6 5/8 7/10 10/13 14/17 21/24 ^ ^ ^' },
    { letter: 'F', size: 8, cells: 'v v v v v v v v v 0/1 ^ v 0/2 1/3 1/4 2/5 3/6 5/8 7/10 10/13 ^ ^ ^ ^ ^ ^' },
    { letter: 'G', size: 13, cells: 'v v v v v v v v 0/1 ^ v 0/2 1/3 1/4 2/5 3/6 5/8 7/10 10/13 ^ ^ ^ ^ ^ ^ ^' },
    { letter: 'H', size: 20, cells: 'v v v v v v v 0/1 ^ v 0/2 1/3 1/4 2/5 3/6 5/8 7/10 10/13 ^ ^ ^ ^ ^ ^ ^ ^' },
    { letter: 'J', size: 32, cells: 'v v v v v v 0/1 ^ v 0/2 1/3 1/4 2/5 3/6 5/8 7/10 10/13 ^ ^ ^ ^ ^ ^ ^ ^ ^' },
    { letter: 'K', size: 50, cells: 'v v v v v 0/1 ^ v 0/2 1/3 1/4 2/5 3/6 5/8 7/10 10/13 ^ ^ ^ ^ ^ ^ ^ ^ ^ ^' },
    { letter: 'L', size: 80, cells: 'v v v v 0/1 ^ v 0/2 1/3 1/4 2/5 3/6 5/8 7/10 10/13 ^ ^ ^ ^ ^ ^ ^ ^ ^ ^ ^' },
    { letter: 'M', size: 125, cells: 'v v v 0/1 ^ v 0/2 1/3 1/4 2/5 3/6 5/8 7/10 10/13 ^ ^ ^ ^ ^ ^ ^ ^ ^ ^ ^ ^' },
    { letter: 'N', size: 200, cells: 'v v 0/1 ^ v 0/2 1/3 1/4 2/5 3/6 5/8 7/10 10/13 ^ ^ ^ ^ ^ ^ ^ ^ ^ ^ ^ ^ ^' },
    { letter: 'P', size: 315, cells: 'v 0/1 ^ v 0/2 1/3 1/4 2/5 3/6 5/8 7/10 10/13 ^ ^ ^ ^ ^ ^ ^ ^ ^ ^ ^ ^ ^ ^' },
    { letter: 'Q', size: 500, cells: '0/1 ^ v 0/2 1/3 1/4 2/5 3/6 5/8 7/10 10/13 ^ ^ ^ ^ ^ ^ ^ ^ ^ ^ ^ ^ ^ ^ ^' },
    { letter: 'R', size: 800, cells: '^ ^ 0/2 1/3 1/4 2/5 3/6 5/8 7/10 10/13 ^ ^ ^ ^ ^ ^ ^ ^ ^ ^ ^ ^ ^ ^ ^ ^' },
  ],
};

/** Arrows of Table II-B that one transcription alone gives: another has Ac 0 here, which the pattern of the diagonals contradicts. */
const tightenedOnce: ReadonlySet<string> = new Set(['J 0.40', 'K 0.25', 'L 0.15', 'M 0.10', 'N 0.065', 'P 0.040', 'Q 0.025']);

/**
 * On what the cell of a letter and an AQL rests. One source alone gives the rejection numbers of Table II-C and seven arrows of Table II-B;
 * row S of Table II-B is from memory but for its one plan, the only cell of that row that a lot can reach.
 */
export function restsOf(severity: Severity, letter: string, aql: string): 'several-sources' | 'one-source' | 'memory' {
  if (severity === 'reduced') return 'one-source';
  if (severity === 'normal') return 'several-sources';
  if (letter === 'S' && aql !== '0.025') return 'memory';
  return tightenedOnce.has(`${letter} ${aql}`) ? 'one-source' : 'several-sources';
}
