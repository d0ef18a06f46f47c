import { COST } from './cost.js';
import type { Features } from './features.js';
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
 * Only a band around the diagonal is filled. A path that leaves a band of half-width w takes at least w steps on one side alone, so it
 * costs at least `gapOpenSilent + (w - free) * gapEach`; once the best path inside costs no more than that, it is the best of all. Otherwise the
 * band grows. So a reel with few discrepancies costs frames times discrepancies, and the answer is always the optimum.
 */
export function cheapestAlignment(record: Sequence, returned: Sequence): { readonly steps: readonly Step[]; readonly cost: number } {
  const n = record.features.length;
  const m = returned.features.length;
  let free = 0;
  for (let i = 0; i < n; i++) free += record.free[i] ?? 0;
  for (let j = 0; j < m; j++) free += returned.free[j] ?? 0;
  const widest = Math.max(n, m);
  let width = Math.min(widest, Math.abs(n - m) + Math.min(free, 64) + 24);
  const costs = placeCosts(record.features, returned.features);
  for (;;) {
    const result = banded(record, returned, width, costs);
    if (width >= widest || result.cost <= COST.gapOpenSilent + (width - free) * COST.gapEach) return result;
    const needed = Math.ceil((result.cost - COST.gapOpenSilent) / COST.gapEach) + free + 1;
    width = needed * 3 > widest ? widest : needed;
  }
}

/** Bits of a traceback cell: how the best path came here, and whether each gap was opened here. */
const FROM = { both: 0, gapRecord: 1, gapReturn: 2, freeRecord: 3, freeReturn: 4, mask: 7 } as const;
const OPENED_RECORD = 8;
const OPENED_RETURN = 16;

function banded(record: Sequence, returned: Sequence, width: number, price: PriceRow): { steps: Step[]; cost: number } {
  const n = record.features.length;
  const m = returned.features.length;
  const cells = Math.min(2 * width, m) + 1;
  const trace = new Uint8Array((n + 1) * cells);
  const prices = new Int32Array(m + 1);
  // Cheapest ways to each column, all of them and those that end in frames only the record has; columns outside the band stay FAR.
  let best = new Int32Array(m + 2).fill(FAR);
  let previous = new Int32Array(m + 2).fill(FAR);
  const onlyRecord = new Int32Array(m + 2).fill(FAR);
  const freeReturn = returned.free;
  const { gapEach } = COST;
  const openRecord = openingCosts(record.features);
  const openReturn = openingCosts(returned.features);
  // What a run in the return costs more at each place, and what beginning one there does.
  const carry = Int32Array.from(freeReturn, (free) => (free === 1 ? 0 : gapEach));
  const begin = openReturn.map((open) => open + gapEach);
  firstRow(previous, trace, Math.min(m, width), carry, begin, freeReturn);
  for (let i = 1; i <= n; i++) {
    const low = Math.max(0, i - width);
    const high = Math.min(m, i + width);
    const row = i * cells - low;
    const freeHere = record.free[i - 1] === 1;
    const carried = freeHere ? 0 : gapEach;
    const opening = (openRecord[i - 1] ?? 0) + gapEach;
    price(i - 1, Math.max(0, low - 1), high - 1, prices);
    let onlyReturn = FAR;
    let left = FAR;
    if (low === 0) {
      // Column 0: the record's places so far stand alone.
      const above = previous[0] ?? FAR;
      const going = (onlyRecord[0] ?? FAR) + carried;
      const gap = Math.min(above + opening, going);
      const passed = freeHere && above < gap;
      onlyRecord[0] = gap;
      left = passed ? above : gap;
      best[0] = left;
      trace[row] = (passed ? FROM.freeRecord : FROM.gapRecord) | (above + opening <= going ? OPENED_RECORD : 0);
    }
    const start = low === 0 ? 1 : low;
    let across = previous[start - 1] ?? FAR;
    for (let j = start; j <= high; j++) {
      const above = previous[j] ?? FAR;
      // Both: the frame before on each side, and this pair.
      let value = across + (prices[j - 1] ?? 0);
      let from: number = FROM.both;
      let opened = 0;
      let gap = above + opening;
      const going = (onlyRecord[j] ?? FAR) + carried;
      if (gap <= going) opened = OPENED_RECORD;
      else gap = going;
      onlyRecord[j] = gap;
      if (gap < value) {
        value = gap;
        from = FROM.gapRecord;
      }
      if (freeHere && above < value) {
        value = above;
        from = FROM.freeRecord;
      }
      gap = left + (begin[j - 1] ?? 0);
      onlyReturn += carry[j - 1] ?? 0;
      if (gap <= onlyReturn) {
        opened |= OPENED_RETURN;
        onlyReturn = gap;
      }
      if (onlyReturn < value) {
        value = onlyReturn;
        from = FROM.gapReturn;
      }
      if (left < value && freeReturn[j - 1] === 1) {
        value = left;
        from = FROM.freeReturn;
      }
      best[j] = value;
      left = value;
      across = above;
      trace[row + j] = from | opened;
    }
    // The next row looks one column further to either side.
    if (high < m) best[high + 1] = FAR;
    if (high < m) onlyRecord[high + 1] = FAR;
    [best, previous] = [previous, best];
  }
  return { steps: walkBack(trace, cells, width, n, m), cost: previous[m] ?? FAR };
}

/** The row before the record's first place: the return's places can only stand alone. */
function firstRow(row: Int32Array, trace: Uint8Array, high: number, carry: Int32Array, begin: Int32Array, free: Uint8Array): void {
  row[0] = 0;
  let onlyReturn = FAR;
  for (let j = 1; j <= high; j++) {
    const left = row[j - 1] ?? FAR;
    const opened = left + (begin[j - 1] ?? 0);
    const going = onlyReturn + (carry[j - 1] ?? 0);
    onlyReturn = Math.min(opened, going);
    const passed = free[j - 1] === 1 && left < onlyReturn;
    row[j] = passed ? left : onlyReturn;
    trace[j] = (passed ? FROM.freeReturn : FROM.gapReturn) | (opened <= going ? OPENED_RETURN : 0);
  }
}

function walkBack(trace: Uint8Array, cells: number, width: number, n: number, m: number): Step[] {
  const steps: Step[] = [];
  let i = n;
  let j = m;
  let gap: 'none' | 'record' | 'return' = 'none';
  while (i > 0 || j > 0) {
    const bits = trace[i * cells - Math.max(0, i - width) + j] ?? 0;
    const from = bits & FROM.mask;
    if (gap === 'record' || (gap === 'none' && from === FROM.gapRecord)) {
      gap = (bits & OPENED_RECORD) !== 0 ? 'none' : 'record';
      steps.push({ record: --i, returned: null });
    } else if (gap === 'return' || from === FROM.gapReturn) {
      gap = (bits & OPENED_RETURN) !== 0 ? 'none' : 'return';
      steps.push({ record: null, returned: --j });
    } else if (from === FROM.freeRecord) {
      steps.push({ record: --i, returned: null });
    } else if (from === FROM.freeReturn) {
      steps.push({ record: null, returned: --j });
    } else {
      steps.push({ record: --i, returned: --j });
    }
  }
  return steps.reverse();
}
