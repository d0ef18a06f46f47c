import type { ReturnRef } from './alignment.js';

/** Where a difference stands: an alignment and one of its pairs. */
export interface PairRef {
  readonly alignment: number;
  readonly pair: number;
}

export type DifferenceField =
  /** A frame of the record for which the return's numbering has no place. */
  | 'not-scanned'
  /** A frame of the return that the record does not have. */
  | 'surplus'
  /** A number of the return's sequence under which nothing came and for which the record has no frame. */
  | 'empty-number'
  /** Numbers must be unbroken, and nothing at all came under the number of a frame that is held back. */
  | 'number-unfilled'
  /** Must be delivered and is not: the numbering leaves a place, nothing is delivered as a page. */
  | 'not-delivered'
  /** Must be held back and is delivered. */
  | 'delivered'
  | 'number'
  | 'reel'
  | 'page'
  | 'order'
  | 'section'
  | 'title'
  | 'date'
  | 'datePrinted'
  | 'edition'
  | 'editionLabel'
  | 'volume'
  | 'issueNumber'
  /** Pages of one issue of the record came in several documents: this is one that is not the main one. */
  | 'extra-document'
  /** The record states an absence that the return does not. */
  | 'absence-missing'
  /** The return states an absence that the record does not. */
  | 'absence-extra'
  /** Both state it, but differ on whether it was published. */
  | 'absence-published'
  /** The return lists a target that it should not, or lacks one that it should. */
  | 'target'
  /** Two places of the return say different things of the same fact. */
  | 'copy'
  | 'digest'
  | 'file'
  | 'reel-fact'
  | 'count'
  | 'document';

/** One fact that is not the same on both sides, or a frame that has no partner. */
export interface Difference {
  readonly id: number;
  readonly field: DifferenceField;
  /** Pairs concerned: one for a frame's fact, all pages of an issue for an issue's fact, none where nothing lies on film. */
  readonly pairs: readonly PairRef[];
  /** Index into the record's issues, and into the return's. */
  readonly recordIssue: number | null;
  readonly returnIssue: number | null;
  /** Index into the absences of the side that states it. */
  readonly absence: number | null;
  readonly collation: string | null;
  readonly returned: string | null;
  /** For copies, reel facts and documents: more words on what this is about, and the frame it concerns. */
  readonly about: string | null;
  readonly ref: ReturnRef | null;
  /** For digests: the other frame that carries the same one. */
  readonly twin: ReturnRef | null;
  /** Index into the return's `problems`, for differences of documents. */
  readonly problem: number | null;
}
