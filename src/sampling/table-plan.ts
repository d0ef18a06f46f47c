import type { InspectionLevel, Refused, Severity, TablePlan } from '../model/sample.js';
import { codeLetters } from './code-letters.js';
import { lotMistake } from './decimal.js';
import { aqls, masterTables, restsOf } from './master-tables.js';

/** What a plan is looked up by. */
export interface TableWish {
  readonly lot: number;
  readonly level: InspectionLevel;
  readonly severity: Severity;
  /** As the tables head their columns: `0.65`, `1.0`, `10`; `1` is taken for `1.0`. */
  readonly aql: string;
}

type Rests = TablePlan['rests'];

/** The code letter of Table I; a lot of one unit, which the table does not know, is read as the smallest. */
export function codeLetter(lot: number, level: InspectionLevel): string {
  const row = codeLetters.find((entry) => lot <= entry.upTo);
  if (row === undefined) throw new Error(`Table I has no row for a lot of ${lot}`);
  return row.letters[level];
}

/**
 * The single-sampling plan of MIL-STD-105E: code letter, then the master table, arrows followed to the row of the plan, whose sample size
 * holds. Where that size is the lot or more, every unit is looked at (footnote of the tables).
 */
export function tablePlan({ lot, level, severity, aql }: TableWish): TablePlan | Refused {
  const mistake = lotMistake(lot);
  const column = aqls.findIndex((head) => Number(head) === Number(aql) && /^\d+(\.\d+)?$/.test(aql.trim()));
  const head = aqls[column];
  const refused: string[] = [];
  if (mistake !== null) refused.push(mistake);
  if (head === undefined) refused.push(`The acceptance quality limit is "${aql}". The tables have these: ${aqls.join(', ')}.`);
  if (refused.length > 0 || head === undefined) return { refused };
  const letter = codeLetter(lot, level);
  const found = followArrows(severity, letter, column, head);
  return {
    kind: 'acceptance-quality-limit',
    lot,
    size: Math.min(lot, found.size),
    accept: found.accept,
    reject: found.reject,
    level,
    severity,
    aql: head,
    letter,
    usedLetter: found.letter,
    printedSize: found.size,
    rests: found.rests,
  };
}

interface Found {
  readonly letter: string;
  readonly size: number;
  readonly accept: number;
  readonly reject: number;
  readonly rests: Rests;
}

function followArrows(severity: Severity, letter: string, column: number, aql: string): Found {
  const rows = masterTables[severity];
  let at = rows.findIndex((row) => row.letter === letter);
  let rests: Rests = 'several-sources';
  for (let steps = 0; steps <= rows.length; steps++) {
    const row = rows[at];
    const cell = row?.cells.split(' ')[column];
    if (row === undefined || cell === undefined) break;
    // an answer rests on no more than the weakest cell that led to it
    rests = weaker(rests, restsOf(severity, row.letter, aql));
    const numbers = /^(\d+)\/(\d+)$/.exec(cell);
    if (numbers !== null) return { letter: row.letter, size: row.size, accept: Number(numbers[1]), reject: Number(numbers[2]), rests };
    at += cell === 'v' ? 1 : -1;
  }
  throw new Error(`the ${severity} table leads nowhere from ${letter} at ${aql}`);
}

function weaker(a: Rests, b: Rests): Rests {
  if (a === 'memory' || b === 'memory') return 'memory';
  return a === 'one-source' || b === 'one-source' ? 'one-source' : 'several-sources';
}
