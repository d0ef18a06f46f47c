import { HELD_BACK } from '../normalise/delivery-words.js';
import { reelNumber } from '../normalise/labels.js';
import { NO, quoted } from '../normalise/sheet-row.js';
import type { ColumnPlan } from './columns.js';
import type { Doubt } from './doubts.js';
import type { Remark } from './note-facts.js';
import { type AnyRow, has, hasCell, holdBack, type ReadRow, valueOf } from './read-row.js';
import type { Ways } from './ways.js';

/** Where two frames show the same page and nothing says which of them is delivered, the reading file does; without it both are, and that is said and asked. */
export function settleCopies(
  rows: readonly ReadRow[],
  plans: readonly ColumnPlan[],
  ways: Ways,
  notes: { readonly remark: Remark; readonly doubt: (doubt: Doubt) => void },
): void {
  if (!areOpen(rows, plans)) return;
  const isOpen = (row: ReadRow): boolean => has(row, 'frame') && !has(row, 'deliver');
  const open = (about: 'duplicates' | 'retakes', row: ReadRow, says: string): void => {
    const text = valueOf(row, about === 'duplicates' ? 'duplicate of' : 'retake of').trim();
    notes.doubt({ about, of: 'frames', row: row.row.row, text });
    notes.remark(row.row.row, quoted(text), `${says}, and nothing says which of the two is delivered; both are. ${ASK}`);
  };
  for (const row of rows.filter((one) => has(one, 'duplicate of') && isOpen(one))) {
    if (ways.duplicates === null) open('duplicates', row, 'is the frame that this one repeats');
    else if (ways.duplicates === 'held back') holdBack(row);
  }
  const reels = reelsOf(rows);
  const byPlace = new Map(rows.map((row, at) => [placeOf(reels[at] ?? '', valueOf(row, 'frame')), row]));
  for (const [at, row] of rows.entries()) {
    if (!has(row, 'retake of') || !isOpen(row)) continue;
    const before = byPlace.get(placeOf(reels[at] ?? '', valueOf(row, 'retake of')));
    if (before === undefined || before === row || !isOpen(before)) continue;
    if (ways.retakes === null) open('retakes', row, 'is the frame that this one replaces');
    else if (ways.retakes === 'the retake') holdBack(before);
  }
}

/** Whether frames show the same page and no column says which of them is delivered. */
export function areOpen(rows: readonly AnyRow[], plans: readonly ColumnPlan[]): boolean {
  return rows.some((row) => has(row, 'duplicate of') || has(row, 'retake of')) && !saysDelivery(rows, plans);
}

const ASK = 'Run "reeltally collation read" with the file, which asks once, or write yes or no under "deliver".';

/** The reel of each row: an empty cell belongs to the reel above it. */
function reelsOf(rows: readonly ReadRow[]): readonly string[] {
  let reel = '';
  return rows.map((row) => {
    reel = valueOf(row, 'reel') === '' ? reel : valueOf(row, 'reel');
    return reel;
  });
}

function placeOf(reel: string, frame: string): string {
  const [, other, own] = /^(.*):([^:]*)$/.exec(frame) ?? [];
  return JSON.stringify([
    reelNumber(other ?? reel),
    (own ?? frame)
      .trim()
      .replace(/^0+(?=\d)/, '')
      .toUpperCase(),
  ]);
}

const HELD: ReadonlySet<string> = new Set([...NO, ...HELD_BACK]);

/** Whether a column says what is held back: then its empty cells say that the frame is delivered. */
function saysDelivery(rows: readonly AnyRow[], plans: readonly ColumnPlan[]): boolean {
  const column = plans.find(({ fields }) => fields.includes('deliver'))?.column;
  return column !== undefined && rows.some((row) => hasCell(row, column) && HELD.has(valueOf(row, 'deliver').trim().toLowerCase()));
}
