/**
 * The cost model of the alignment. All costs are whole numbers, 0 for what agrees; the cheapest alignment is taken.
 *
 * Both sides are sequences in film order. The record's holds every frame. The return's holds every frame number from the first to
 * the last: those under which something is delivered, and the empty ones between, which say "a frame lies here that was not
 * delivered". So one blank that was skipped shows as one frame of the record without a place, not as a reel of wrong numbers.
 *
 * The values were chosen so that (1) one wrong fact, or every fact of one page wrong, is cheaper than losing a frame and
 * inventing another (at most `mismatchCap` against two gaps); (2) a page under whose number nothing came is cheaper than a gap on both sides, at any
 * length; (3) a wrong date of a whole
 * issue, or of several in a row, is cheaper than tearing the order of the frames apart to follow it; (4) a held-back duplicate delivered in place of its twin stays at its place in the film for the same reason.
 */
export const COST = {
  /** Opening a run of frames that only one side has, and each frame in it. */
  gapOpen: 60,
  /** The same where the run begins with a place that shows no page: blanks are skipped and counted twice far more often than pages. */
  gapOpenSilent: 45,
  gapEach: 25,
  /** A page of the record where the return's numbering leaves a place but delivers nothing. */
  notDelivered: 22,
  /** A held-back page of the record that was delivered. */
  heldBackDelivered: 12,
  /** A blank, target or void of the record where the return has a page. */
  nonPageDelivered: 80,
  /** A number that the record does not describe, where the return has a page. */
  undescribedDelivered: 30,
  /** A page of the record where the return lists a target. */
  pageAsTarget: 60,
  /** Another kind of non-page than the record has. */
  otherKind: 10,
  /** A target of the record under whose number nothing is listed: a listed one is the better partner. */
  targetUnlisted: 2,
  /** A page of the record among the frames delivered outside any issue. */
  pageUnmatched: 30,
  /** What an issue says of itself wrongly counts in full once: on its further pages only this much per fact. */
  again: 4,
  /** An empty second half taken for anything but a second half. */
  halfForWhole: 90,
  date: 30,
  /** The return gives the printed date where the record has another real one: half a mismatch. */
  datePrinted: 12,
  title: 30,
  edition: 12,
  label: 24,
  /** A label that the paper prints and the return does not give. */
  labelMissing: 14,
  /** A whole exposure for a half, or the reverse. */
  half: 3,
  section: 6,
  order: 9,
  mismatchCap: 90,
} as const;
