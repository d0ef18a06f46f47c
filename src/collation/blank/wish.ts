import type { CollationRecord, PublicationPattern } from '../../model/collation-record.js';

/** What a record that is to be filled in shall hold. */
export interface BlankWish {
  readonly title: string;
  /** In force in the span; each says on which weekdays the title came out. */
  readonly patterns: readonly PublicationPattern[];
  /** First and last day, `YYYY-MM-DD`. */
  readonly from: string;
  readonly to: string;
  /** Usual numbers of pages, the most usual first. */
  readonly pages: readonly number[];
  readonly per: 'issue' | 'frame';
  /** A record that is taken over, in canonical form; null for none. */
  readonly old: CollationRecord | null;
}
