import type { ReturnRef } from './alignment.js';
import type { Reading } from './expected.js';

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
  /** A document without a page or a statement, of an issue that the record does not have. */
  | 'empty-document'
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
  /** Two frames name one file. */
  | 'same-file'
  | 'file'
  | 'reel-fact'
  | 'count'
  | 'document';

/** What is so of a fact or thing: it is other than expected, it must be there and is not, or it is there and must not be. */
export type Form = 'other' | 'missing' | 'surplus';

/** One fact or thing in which the return is not the expected one. Typed: words for people are made from it where they are needed. */
export interface Difference {
  readonly id: number;
  readonly field: DifferenceField;
  readonly form: Form;
  /** The readings that would be right, the wanted one first; none where nothing may stand there or the difference is no fact's. */
  readonly expected: readonly Reading[];
  /** What the return says; null where it says nothing. */
  readonly given: Reading | null;
  /** Pairs concerned: one for a frame's fact, all pages of an issue for an issue's fact, none where nothing lies on film. */
  readonly pairs: readonly PairRef[];
  /** Index into the record's issues, and into the return's. */
  readonly recordIssue: number | null;
  readonly returnIssue: number | null;
  /** Index into the absences of the side that states it, and of the other where both do. */
  readonly absence: number | null;
  readonly otherAbsence: number | null;
  /** For copies, reel facts and documents: more words on what this is about, and the frame it concerns. */
  readonly about: string | null;
  readonly ref: ReturnRef | null;
  /** For digests: the other frame that carries the same one. */
  readonly twin: ReturnRef | null;
  /** Index into the return's `problems`, for differences of documents. */
  readonly problem: number | null;
}
