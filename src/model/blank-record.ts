import type { Weekday } from './collation-record.js';

/** A sheet that is to be filled in, in the columns of a record. */
export interface BlankSheet {
  readonly name: string;
  readonly heads: readonly string[];
  readonly rows: readonly (readonly string[])[];
  /** So many columns stay in sight when the sheet is moved sideways. */
  readonly kept: number;
  /** Words that a column offers; where it takes others too, they are only an offer. */
  readonly choices: readonly { readonly head: string; readonly words: readonly string[]; readonly others: boolean }[];
}

/** What is known of a day of the calendar: its issue is on the film, wanting, not published, unknown, or nobody has said yet. */
export type BlankDayState = 'film' | 'wanting' | 'not-published' | 'unknown' | 'open';

/** A day within the span; `expected` where the pattern has an issue on it, `state` null where none is expected and none is known. */
export interface BlankDay {
  readonly day: string;
  readonly weekday: Weekday;
  readonly expected: boolean;
  readonly state: BlankDayState | null;
}

/** A record that is still to be filled in: its sheets, the calendar of its days, and how it is done. */
export interface BlankRecord {
  readonly title: { readonly id: string; readonly name: string | null };
  readonly from: string;
  readonly to: string;
  /** The first sheet is the one to be filled in; those of titles and reels follow. */
  readonly sheets: readonly BlankSheet[];
  readonly per: 'issue' | 'frame';
  /** Every day of the span. */
  readonly days: readonly BlankDay[];
  /** Publication in words, such as "Wednesday and Saturday", for each pattern. */
  readonly pattern: readonly string[];
  /** The sheets beside those of the record: their names and the text of their first cells. */
  readonly beside: Readonly<Record<'guide' | 'calendar', { readonly name: string; readonly first: string }>>;
  /** A catchword, empty where the line goes on, and a sentence. */
  readonly guide: readonly (readonly [catchword: string, says: string])[];
}
