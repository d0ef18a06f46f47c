import type { RecordItem } from './record-check.js';

/**
 * What of a return an open problem of the record leaves in doubt: a fact of the frames or of their issues; `between`, frames that lie between those
 * named and that the record does not have; `beside`, such frames before, between or behind them; `documents`, how many of them an issue has.
 */
export type Doubtful =
  | 'number'
  | 'between'
  | 'beside'
  | 'documents'
  | 'delivered'
  | 'absences'
  | 'title'
  | 'date'
  | 'edition'
  | 'volume'
  | 'issueNumber'
  | 'page'
  | 'order'
  | 'section';

/** How far the doubt reaches. */
export interface Touched {
  readonly facts: readonly Doubtful[];
  /** Frames of the record: index of the reel and of the frame in it. */
  readonly frames: readonly { readonly reel: number; readonly at: number }[];
  /** Days of a title between these two, neither of them included, by the calendar of the title; null where no days without an issue are meant. */
  readonly days: { readonly title: string; readonly after: string; readonly before: string } | null;
}

/** An open problem of the record with what it leaves in doubt. */
export interface RecordProblem {
  readonly item: RecordItem;
  readonly touches: Touched;
}
