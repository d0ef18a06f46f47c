/** What the library wrote down about the film, before scanning: the canonical form. */
export interface CollationRecord {
  readonly format: 'reeltally/collation-record/1';
  readonly titles: readonly TitleEntry[];
  readonly reels: readonly ReelEntry[];
}

/** One newspaper title. */
export interface TitleEntry {
  /** LCCN or the programme's own identifier, as text. */
  readonly id: string;
  readonly name?: string;
  /** ISO 639-2 language code of the paper, such as `eng`; decides how printed weekdays are read. */
  readonly language?: string;
  readonly readingDirection?: 'ltr' | 'rtl';
  /** `gregorian`, or `julian-until YYYY-MM-DD` where the last Julian day is given. */
  readonly calendar?: string;
  /** When the title came out, as a dated list; days in no pattern are no statement. */
  readonly patterns?: readonly PublicationPattern[];
}

/** A stretch of time in which a title came out on the same weekdays. */
export interface PublicationPattern {
  readonly from?: string;
  readonly to?: string;
  readonly days: readonly Weekday[];
  /** Days on which no issue came out: `MM-DD` every year, or a full date. */
  readonly omitted?: readonly string[];
  /** Usual numbers of pages. */
  readonly usualPages?: readonly number[];
  /** MARC 21 008/18 frequency code. */
  readonly frequency?: string;
}

export type Weekday = 'mon' | 'tue' | 'wed' | 'thu' | 'fri' | 'sat' | 'sun';

/** One carrier of film. */
export interface ReelEntry {
  /** The carrier's number, always text. */
  readonly number: string;
  /** Standard image position on the film. */
  readonly position?: '1A' | '1B' | '2A' | '2B';
  readonly filmBase?: string;
  readonly polarity?: string;
  readonly generation?: string;
  readonly reduction?: string;
  readonly notes?: string;
  /** Every frame in scanning order. */
  readonly frames: readonly FrameEntry[];
  /** Pages and whole issues known not to be on the film. */
  readonly absent?: readonly AbsentEntry[];
}

/** `page` (also a blank side that belongs to an issue), `blank` (an exposure between issues), `target`, `void` (ruined or punched), `other`. */
export type FrameKind = 'page' | 'blank' | 'target' | 'void' | 'other';

/** One artifact in the reel's scanning sequence. Everything that is text on paper stays text. */
export interface FrameEntry {
  /** Frame number, `12`, or `12A` / `12B` where one exposure was split under one number. */
  readonly frame: string;
  readonly kind?: FrameKind;
  /** true: must appear in the return; false: scanned, counted and held back. */
  readonly deliver?: boolean;
  readonly title?: string;
  /** Real date of publication, `YYYY-MM-DD`, or EDTF level 1 when uncertain. */
  readonly date?: string;
  /** The date on the paper when it differs; any text. */
  readonly datePrinted?: string;
  readonly weekdayPrinted?: string;
  /** 1 for the first edition of that title and day, 2 for the next. */
  readonly edition?: number;
  readonly editionLabel?: string;
  readonly volume?: string;
  readonly issueNumber?: string;
  readonly issueNumberIntended?: string;
  readonly section?: string;
  readonly supplement?: boolean;
  /** The page label the library wants. */
  readonly page?: string;
  /** The label on the paper when it differs; `-` when nothing is printed. */
  readonly pagePrinted?: string;
  /** The page's place inside its issue, 1, 2, 3 ... */
  readonly order?: number;
  /** A frame of the same reel, or `reel:frame`. */
  readonly duplicateOf?: string;
  readonly retakeOf?: string;
  /** Number of the reel that was spliced in here. */
  readonly sourceReel?: string;
  readonly condition?: readonly string[];
  readonly note?: string;
}

/** A page or a whole issue known not to be on the film. It has no frame number. */
export interface AbsentEntry {
  readonly title?: string;
  readonly date: string;
  /** Inclusive: every expected day of the pattern from `date` to here. */
  readonly dateTo?: string;
  readonly edition?: number;
  readonly section?: string;
  /** The page label; left out, the whole issue is absent. */
  readonly page?: string;
  readonly order?: number;
  readonly published?: 'yes' | 'no' | 'unknown';
  readonly note?: string;
}
