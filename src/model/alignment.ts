/** A frame of the return: which reel, and which of its frames. */
export interface ReturnRef {
  readonly reel: number;
  readonly frame: number;
}

/** Two frames taken for the same artifact, or one that has no partner. */
export interface Pair {
  /** Index into the record reel's frames; null where only the return has something. */
  readonly record: number | null;
  /** The frame of the return; null where the return shows no frame in this place. */
  readonly returned: ReturnRef | null;
  /** True where the return's numbering leaves a number for this frame, whether something is delivered under it or not. */
  readonly slot: boolean;
  /** The exposure number that the return's numbering gives to this place; null where it has none. */
  readonly exposure: number | null;
  /** Order: as the numbering has it. Moved: paired by content, out of its numbered place. Reversed: inside a run that came back to front. */
  readonly how: 'order' | 'moved' | 'reversed';
}

/** The alignment of one reel of the record with what the return has for it. */
export interface Alignment {
  /** Index into the record's reels; null where the return has a reel that the record lacks. */
  readonly recordReel: number | null;
  /** Indexes into the return's reels that were read for it, the main one first; empty where the return lacks the reel. */
  readonly returnReels: readonly number[];
  /** How the two reels were taken for the same: by number, by content, or as reels spliced together. */
  readonly by: 'number' | 'content' | 'spliced' | 'none';
  /**
   * False where no frame numbers lead through the reel (the return gives its pages none, or the record's are places in a volume): frames were
   * paired by what they show, a page that must come has a place of its own, and what is not delivered was not looked at.
   */
  readonly numbered: boolean;
  readonly pairs: readonly Pair[];
  /** Runs of the return that came back to front, as indexes into `pairs`, inclusive. */
  readonly reversals: readonly { readonly from: number; readonly to: number }[];
  /** Cost by the model of src/align/cost.ts. */
  readonly cost: number;
}
