import type { InspectionLevel, Severity } from '../../src/model/sample.js';

/** A plan as others looked it up in the tables, and where it was published. */
export interface LookUp {
  readonly lot: number;
  readonly level: InspectionLevel;
  readonly severity: Severity;
  readonly aql: string;
  readonly plan: {
    readonly letter: string;
    readonly usedLetter: string;
    readonly printedSize: number;
    readonly accept: number;
    readonly reject: number;
  };
  readonly source: string;
}

/** Published look-ups in the tables of MIL-STD-105E. */
export const lookUps: readonly LookUp[] = [
  {
    lot: 5000,
    level: 'II',
    severity: 'normal',
    aql: '1.5',
    plan: { letter: 'L', usedLetter: 'L', printedSize: 200, accept: 7, reject: 8 },
    source: 'Lawson, AQLSchemes 1.7-2 vignette',
  },
  {
    lot: 3201,
    level: 'II',
    severity: 'tightened',
    aql: '1.5',
    plan: { letter: 'L', usedLetter: 'L', printedSize: 200, accept: 5, reject: 6 },
    source: 'Lawson, AQLSchemes 1.7-2 vignette',
  },
  {
    lot: 10000,
    level: 'II',
    severity: 'normal',
    aql: '1.5',
    plan: { letter: 'L', usedLetter: 'L', printedSize: 200, accept: 7, reject: 8 },
    source: 'Lawson, AQLSchemes 1.7-2 vignette',
  },
  {
    lot: 27,
    level: 'II',
    severity: 'normal',
    aql: '2.5',
    plan: { letter: 'D', usedLetter: 'C', printedSize: 5, accept: 0, reject: 1 },
    source: 'asqasktheexperts.com 2015-08-11 (up arrow D to C)',
  },
  {
    lot: 105000,
    level: 'II',
    severity: 'normal',
    aql: '1.5',
    plan: { letter: 'N', usedLetter: 'N', printedSize: 500, accept: 14, reject: 15 },
    source: 'elsmar.com thread 65161',
  },
  {
    lot: 105000,
    level: 'S-4',
    severity: 'normal',
    aql: '1.5',
    plan: { letter: 'J', usedLetter: 'J', printedSize: 80, accept: 3, reject: 4 },
    source: 'elsmar.com thread 65161',
  },
  {
    lot: 120,
    level: 'II',
    severity: 'normal',
    aql: '0.65',
    plan: { letter: 'F', usedLetter: 'F', printedSize: 20, accept: 0, reject: 1 },
    source: 'Birolini 2007 Table 7.1/Fig. 7.4 (IEC 60410), AQL 0.65',
  },
  {
    lot: 900,
    level: 'II',
    severity: 'normal',
    aql: '0.65',
    plan: { letter: 'J', usedLetter: 'J', printedSize: 80, accept: 1, reject: 2 },
    source: 'Birolini 2007 Table 7.1/Fig. 7.4 (IEC 60410), AQL 0.65',
  },
  {
    lot: 100000,
    level: 'II',
    severity: 'normal',
    aql: '0.65',
    plan: { letter: 'N', usedLetter: 'N', printedSize: 500, accept: 7, reject: 8 },
    source: 'Birolini 2007 Table 7.1/Fig. 7.4 (IEC 60410), AQL 0.65',
  },
  {
    lot: 1000,
    level: 'II',
    severity: 'normal',
    aql: '0.65',
    plan: { letter: 'J', usedLetter: 'J', printedSize: 80, accept: 1, reject: 2 },
    source: 'NIBS AC-TABLE.ASC (from MIL-STD-105E Tables I, II-A, II-B)',
  },
  {
    lot: 250,
    level: 'II',
    severity: 'normal',
    aql: '0.65',
    plan: { letter: 'G', usedLetter: 'F', printedSize: 20, accept: 0, reject: 1 },
    source: 'NIBS AC-TABLE.ASC (from MIL-STD-105E Tables I, II-A, II-B)',
  },
  {
    lot: 400,
    level: 'II',
    severity: 'normal',
    aql: '0.65',
    plan: { letter: 'H', usedLetter: 'J', printedSize: 80, accept: 1, reject: 2 },
    source: 'NIBS AC-TABLE.ASC (from MIL-STD-105E Tables I, II-A, II-B)',
  },
  {
    lot: 2000,
    level: 'II',
    severity: 'normal',
    aql: '10',
    plan: { letter: 'K', usedLetter: 'K', printedSize: 125, accept: 21, reject: 22 },
    source: 'NIBS AC-TABLE.ASC (from MIL-STD-105E Tables I, II-A, II-B)',
  },
  {
    lot: 2000,
    level: 'II',
    severity: 'normal',
    aql: '15',
    plan: { letter: 'K', usedLetter: 'J', printedSize: 80, accept: 21, reject: 22 },
    source: 'NIBS AC-TABLE.ASC (from MIL-STD-105E Tables I, II-A, II-B)',
  },
  {
    lot: 400,
    level: 'II',
    severity: 'tightened',
    aql: '0.65',
    plan: { letter: 'H', usedLetter: 'K', printedSize: 125, accept: 1, reject: 2 },
    source: 'NIBS AC-TABLE.ASC (from MIL-STD-105E Tables I, II-A, II-B)',
  },
  {
    lot: 900,
    level: 'II',
    severity: 'tightened',
    aql: '0.65',
    plan: { letter: 'J', usedLetter: 'K', printedSize: 125, accept: 1, reject: 2 },
    source: 'NIBS AC-TABLE.ASC (from MIL-STD-105E Tables I, II-A, II-B)',
  },
  {
    lot: 60,
    level: 'II',
    severity: 'tightened',
    aql: '4.0',
    plan: { letter: 'E', usedLetter: 'F', printedSize: 20, accept: 1, reject: 2 },
    source: 'NIBS AC-TABLE.ASC (from MIL-STD-105E Tables I, II-A, II-B)',
  },
  {
    lot: 5000,
    level: 'II',
    severity: 'tightened',
    aql: '10',
    plan: { letter: 'L', usedLetter: 'K', printedSize: 125, accept: 18, reject: 19 },
    source: 'NIBS AC-TABLE.ASC (from MIL-STD-105E Tables I, II-A, II-B)',
  },
];
