/** A hundred reels of two thousand frames; what is longer is no sheet of a record, and a cell far below all others was touched by accident. */
export const MOST_ROWS = 200_000;
/** Far above any sheet that people keep. */
export const MOST_COLUMNS = 1000;
