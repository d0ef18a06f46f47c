import { agreeingSteps } from './agreeing.js';
import { widthNeeded } from './band.js';
import { COST } from './cost.js';
import type { Features } from './features.js';
import { issueCosts } from './issue-cost.js';
import { openingCosts, type PriceRow, placeCosts } from './place-cost.js';

/** One step along both sequences: a place of the record, of the return, or of both taken for the same frame. */
export interface Step {
  readonly record: number | null;
  readonly returned: number | null;
}

/** A sequence to align, and which of its places may be passed over without cost (see src/align/sequences.ts). */
export interface Sequence {
  readonly features: Features;
  readonly free: Uint8Array;
}

const FAR = 0x3fffffff;

/**
 * The cheapest alignment of two sequences by the model of cost.ts, with runs on one side priced as a whole (affine gaps; O. Gotoh, 1982).
 *
 * Only a band around the diagonal is filled; once no path outside can be cheaper than the best inside (src/align/band.ts), that one is the best
 * of all. Otherwise the band grows. So a reel with few discrepancies costs frames times discrepancies, and the answer is always the optimum. Sequences
 * that agree in everything need no table.
 */
export function cheapestAlignment(record: Sequence, returned: Sequence): { readonly steps: readonly Step[]; readonly cost: number } {
  const n = record.features.length;
  const m = returned.features.length;
  let free = 0;
  for (let i = 0; i < n; i++) free += record.free[i] ?? 0;
  for (let j = 0; j < m; j++) free += returned.free[j] ?? 0;
  const widest = Math.max(n, m);
  const width = Math.min(widest, Math.abs(n - m) + Math.min(free, 64) + 24);
  const agreeing = agreeingSteps(record, returned, width);
  if (agreeing !== null) return { steps: agreeing, cost: 0 };
  const issues = issueCosts(record.features, returned.features);
  const costs = placeCosts(record.features, returned.features, issues);
  const narrow = banded(record, returned, width, costs);
  if (width >= widest || narrow.cost === 0) return narrow;
  const needed = widthNeeded(record, returned, issues)(narrow.cost);
  return needed <= width ? narrow : banded(record, returned, Math.min(needed, widest), costs);
}

/**
 * Bits of a traceback cell. A path's last step is the first of these that none of the first four bits rules out: both places, a gap of the
 * record, a free place of the record, a gap of the return; with all four set it is a free place of the return. The last two say whether each
 * gap goes on from the cell before or was opened here.
 */
const NOT_BOTH = 1;
const NOT_GAP_RECORD = 2;
const NOT_FREE_RECORD = 4;
const NOT_GAP_RETURN = 8;
const GOES_ON_RECORD = 16;
const GOES_ON_RETURN = 32;

/** Added to a way that is closed; a closed way on top of FAR still fits 31 bits. */
const CLOSED = 0x20000000;

/** Fills the band row by row. The inner loop has no branch, for where nothing matches none could be foreseen: `(a - b) >>> 31` is 1 where a < b. */
function banded(record: Sequence, returned: Sequence, width: number, price: PriceRow): { steps: Step[]; cost: number } {
  const n = record.features.length;
  const m = returned.features.length;
  const cells = Math.min(2 * width, m) + 1;
  const trace = new Uint8Array((n + 1) * cells);
  // Cheapest ways to each column, all of them and those that end in frames only the record has; columns outside the band stay FAR.
  let best = new Int32Array(m + 2).fill(FAR);
  let previous = new Int32Array(m + 2).fill(FAR);
  const onlyRecord = new Int32Array(m + 2).fill(FAR);
  const { gapEach } = COST;
  const openRecord = openingCosts(record.features);
  const openReturn = openingCosts(returned.features);
  // What a run in the return costs more at each place, what beginning one there does, and what passing the place over alone does.
  const carry = Int32Array.from(returned.free, (free) => (free === 1 ? 0 : gapEach));
  const begin = openReturn.map((open) => open + gapEach);
  const pass = Int32Array.from(returned.free, (free) => (free === 1 ? 0 : CLOSED));
  firstRow(previous, trace, Math.min(m, width), carry, begin, pass);
  for (let i = 1; i <= n; i++) {
    const low = Math.max(0, i - width);
    const high = Math.min(m, i + width);
    const row = i * cells - low;
    const freeHere = record.free[i - 1] === 1;
    const carried = freeHere ? 0 : gapEach;
    const passed = freeHere ? 0 : CLOSED;
    const opening = (openRecord[i - 1] ?? 0) + gapEach;
    const { base, extra, cap } = price(i - 1, Math.max(0, low - 1), high - 1);
    let onlyReturn = FAR;
    let left = FAR;
    if (low === 0) {
      // Column 0: the record's places so far stand alone.
      const above = previous[0] ?? FAR;
      const going = (onlyRecord[0] ?? FAR) + carried;
      const gap = Math.min(above + opening, going);
      onlyRecord[0] = gap;
      left = Math.min(gap, above + passed);
      best[0] = left;
      trace[row] = NOT_BOTH | (left < gap ? NOT_GAP_RECORD : 0) | (going < above + opening ? GOES_ON_RECORD : 0);
    }
    const start = low === 0 ? 1 : low;
    let across = previous[start - 1] ?? FAR;
    for (let j = start; j <= high; j++) {
      const above = previous[j] ?? FAR;
      // Both: the frame before on each side, and this pair.
      const both = (across + Math.min(cap, (base[j - 1] ?? 0) + (extra[j - 1] ?? 0))) | 0;
      const opensRecord = (above + opening) | 0;
      const goesOnRecord = ((onlyRecord[j] ?? FAR) + carried) | 0;
      const gapRecord = Math.min(opensRecord, goesOnRecord);
      onlyRecord[j] = gapRecord;
      const freeRecord = (above + passed) | 0;
      const opensReturn = (left + (begin[j - 1] ?? 0)) | 0;
      const goesOnReturn = (onlyReturn + (carry[j - 1] ?? 0)) | 0;
      onlyReturn = Math.min(opensReturn, goesOnReturn);
      const freeReturn = (left + (pass[j - 1] ?? 0)) | 0;
      const value = Math.min(Math.min(Math.min(both, gapRecord), Math.min(freeRecord, freeReturn)), onlyReturn);
      best[j] = value;
      left = value;
      across = above;
      trace[row + j] =
        ((value - both) >>> 31) |
        (((value - gapRecord) >>> 31) << 1) |
        (((value - freeRecord) >>> 31) << 2) |
        (((value - onlyReturn) >>> 31) << 3) |
        (((goesOnRecord - opensRecord) >>> 31) << 4) |
        (((goesOnReturn - opensReturn) >>> 31) << 5);
    }
    // The next row looks one column further to either side.
    if (high < m) best[high + 1] = FAR;
    if (high < m) onlyRecord[high + 1] = FAR;
    [best, previous] = [previous, best];
  }
  return { steps: walkBack(trace, cells, width, n, m), cost: previous[m] ?? FAR };
}

/** The row before the record's first place: the return's places can only stand alone. */
function firstRow(row: Int32Array, trace: Uint8Array, high: number, carry: Int32Array, begin: Int32Array, pass: Int32Array): void {
  row[0] = 0;
  let onlyReturn = FAR;
  for (let j = 1; j <= high; j++) {
    const left = row[j - 1] ?? FAR;
    const opens = left + (begin[j - 1] ?? 0);
    const goesOn = onlyReturn + (carry[j - 1] ?? 0);
    onlyReturn = Math.min(opens, goesOn);
    const value = Math.min(onlyReturn, left + (pass[j - 1] ?? 0));
    row[j] = value;
    const step = NOT_BOTH | NOT_GAP_RECORD | NOT_FREE_RECORD | (value < onlyReturn ? NOT_GAP_RETURN : 0);
    trace[j] = step | (goesOn < opens ? GOES_ON_RETURN : 0);
  }
}

function walkBack(trace: Uint8Array, cells: number, width: number, n: number, m: number): Step[] {
  const steps: Step[] = [];
  let i = n;
  let j = m;
  let gap: 'none' | 'record' | 'return' = 'none';
  while (i > 0 || j > 0) {
    const bits = trace[i * cells - Math.max(0, i - width) + j] ?? 0;
    if (gap === 'none' && (bits & NOT_BOTH) === 0) {
      steps.push({ record: --i, returned: --j });
    } else if (gap === 'record' || (gap === 'none' && (bits & NOT_GAP_RECORD) === 0)) {
      gap = (bits & GOES_ON_RECORD) !== 0 ? 'record' : 'none';
      steps.push({ record: --i, returned: null });
    } else if (gap === 'none' && (bits & NOT_FREE_RECORD) === 0) {
      steps.push({ record: --i, returned: null });
    } else if (gap === 'return' || (bits & NOT_GAP_RETURN) === 0) {
      gap = (bits & GOES_ON_RETURN) !== 0 ? 'return' : 'none';
      steps.push({ record: null, returned: --j });
    } else {
      steps.push({ record: null, returned: --j });
    }
  }
  return steps.reverse();
}
