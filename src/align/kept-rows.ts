/** So many places beyond a band are priced along with it. */
const AHEAD = 16;

/** Writes the entries `from` to `to` (included) of row `i` into `out`. */
export type Fill = (i: number, from: number, to: number, out: Int32Array) => void;
/** The row of a key, filled at least from `from` to `to` (included); good until the next row is asked for. */
export type KeptRows = (key: string, i: number, from: number, to: number, fill: Fill) => Int32Array;

/**
 * Rows of prices by what decides them, the last `room` of them, each filled as far as it was asked for: a band around the diagonal moves along
 * the return, and the next row of the same key goes on where the last one ended.
 */
export function keptRows(length: number, room: number): KeptRows {
  const kept = new Map<string, { out: Int32Array; from: number; to: number }>();
  return (key, i, from, to, fill) => {
    let row = kept.get(key);
    if (row === undefined) {
      const oldest = kept.size < room ? undefined : kept.keys().next().value;
      const spent = oldest === undefined ? undefined : kept.get(oldest);
      if (oldest !== undefined) kept.delete(oldest);
      row = { out: spent?.out ?? new Int32Array(length), from, to: from - 1 };
      kept.set(key, row);
    }
    if (from < row.from || from > row.to + 1) Object.assign(row, { from, to: from - 1 });
    if (to > row.to) {
      // a band moves on by one place a row: what its next rows need is filled along
      const end = Math.min(length - 1, to + AHEAD);
      fill(i, row.to + 1, end, row.out);
      row.to = end;
    }
    return row.out;
  };
}
