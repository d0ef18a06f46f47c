import type { FrameKind, TitleEntry } from '../../../src/model/collation-record.js';

/** The truth about an invented film: what is on it, frame by frame, and what was published and is not on it. */
export interface Film {
  readonly seed: number;
  readonly titles: readonly FilmTitle[];
  /** Every issue of every edition, those that are not on film included, by title and then by date. */
  readonly issues: readonly FilmIssue[];
  readonly reels: readonly FilmReel[];
}

export interface FilmTitle extends Required<Omit<TitleEntry, 'calendar'>> {
  /** True when the front page never prints its number. */
  readonly frontPageUnnumbered: boolean;
}

/** One edition of one day. */
export interface FilmIssue {
  readonly title: string;
  readonly date: string;
  /** What the paper says where that is another date, an impossible day included. */
  readonly datePrinted: string | null;
  readonly weekdayPrinted: string | null;
  readonly edition: number;
  readonly editionLabel: string | null;
  readonly volume: string | null;
  readonly issueNumber: string | null;
  readonly issueNumberIntended: string | null;
  readonly status: 'on-film' | 'wanting' | 'not-published' | 'unknown';
  /** Pages of the issue that are not on the film. */
  readonly wanting: readonly WantingPage[];
  /** Pages as published. */
  readonly pages: number;
}

export interface WantingPage {
  readonly page: string;
  readonly section: string | null;
  readonly order: number;
  readonly published: 'yes' | 'unknown';
}

export interface FilmReel {
  readonly number: string;
  readonly position: '1A' | '1B' | '2A' | '2B';
  readonly reduction: string;
  readonly shots: readonly FilmShot[];
  /** Indexes into `issues`: those that are wanting and would stand on this reel, and those of which pages are wanting here. */
  readonly wanting: readonly number[];
}

/** One frame of the film. */
export interface FilmShot {
  /** The frame number as text, `12` or `12A`. */
  readonly frame: string;
  readonly exposure: number;
  readonly half: '' | 'A' | 'B';
  readonly kind: FrameKind;
  readonly deliver: boolean;
  /** Index into the film's issues. */
  readonly issue: number | null;
  readonly section: string | null;
  readonly supplement: boolean;
  readonly page: string | null;
  readonly pagePrinted: string | null;
  /** Place in the issue; null for what is held back. */
  readonly order: number | null;
  /** Place in the issue of what the picture shows, held back or not. */
  readonly place: number | null;
  /** As the record writes it, a frame of this reel or `reel:frame`. */
  readonly duplicateOf: string | null;
  readonly retakeOf: string | null;
  readonly sourceReel: string | null;
  readonly condition: readonly string[];
  readonly note: string | null;
  /** What is photographed, a number of its own for every frame of the film. */
  readonly picture: number;
  /** The picture that shows the same page, where a page was filmed twice. */
  readonly twin: number | null;
}
