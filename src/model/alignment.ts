/** Two frames taken for the same artifact, or one that has no partner. Indexes point into the reels' `frames`. */
export interface Pair {
  /** Index into the record reel's frames; null where only the return has something. */
  readonly record: number | null;
  /** Index into the return reel's frames; null where the return shows no frame. */
  readonly returned: number | null;
  /** The return's frame number that stands in this place, also where nothing is delivered under it; null where there is none. */
  readonly slot: number | null;
  /** `content`, `place` (a frame that is not in the XML, known by its number), `moved`, `reversed`, or `none`. */
  readonly how: 'content' | 'place' | 'moved' | 'reversed' | 'none';
}

/** The alignment of one reel of the record with one reel of the return. */
export interface Alignment {
  /** Index into the record's reels; null where the return has a reel that the record does not. */
  readonly recordReel: number | null;
  /** Index into the return's reels; null where the return lacks the reel. */
  readonly returnReel: number | null;
  readonly pairs: readonly Pair[];
  /** Cost by the model in src/align, for tests and benchmarks. */
  readonly cost: number;
}
