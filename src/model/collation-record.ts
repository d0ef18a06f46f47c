// Generated from schemas/collation-record.schema.json by `npm run generate`: change the schema, not this file.

/** What the library wrote down about the film, before scanning. */
export interface CollationRecord {
  /** Name and version of this format. */
  readonly format: 'reeltally/collation-record/2';
  /** The newspaper titles on the film. */
  readonly titles: readonly TitleEntry[];
  /** The carriers of film. */
  readonly reels: readonly ReelEntry[];
}

/** One newspaper title. */
export interface TitleEntry {
  /** LCCN or the programme's own identifier, as text. */
  readonly id: string;
  /** Name of the title. */
  readonly name?: string;
  /** ISO 639-2 code of the paper's language, such as `eng`; decides how printed weekdays are read. */
  readonly language?: string;
  /** `rtl` where the paper is read from right to left. Left out: `ltr`. */
  readonly readingDirection?: 'ltr' | 'rtl';
  /** `gregorian`, or `julian-until YYYY-MM-DD`, the last day that was still dated by the Julian calendar. */
  readonly calendar?: string;
  /** When the title came out, as a dated list; days in no pattern are no statement. */
  readonly patterns?: readonly PublicationPattern[];
}

/** A stretch of time in which a title came out on the same weekdays. */
export interface PublicationPattern {
  /** First day, `YYYY-MM-DD`; left out, open. */
  readonly from?: string;
  /** Last day, inclusive; left out, open. */
  readonly to?: string;
  /** Weekdays on which an issue came out. */
  readonly days: readonly Weekday[];
  /** Days on which no issue came out all the same: `MM-DD` for every year, or a full date. */
  readonly omitted?: readonly string[];
  /** Usual numbers of pages. */
  readonly usualPages?: readonly number[];
  /** Frequency code of MARC 21 field 008, position 18, such as `d` for daily. */
  readonly frequency?: string;
  /** Regularity as MARC 21 field 853 subfield $y writes it, such as `pdtu,th,sa` or `od1225`. */
  readonly regularity?: string;
}

/** A day of the week. */
export type Weekday = 'mon' | 'tue' | 'wed' | 'thu' | 'fri' | 'sat' | 'sun';

/** One carrier of film. */
export interface ReelEntry {
  /** The carrier's number, always text. */
  readonly number: string;
  /** `print` where volumes of paper were captured: its frames are places in the volume, counted on, and never compared as numbers. Left out: `film`. */
  readonly carrier?: 'film' | 'print';
  /** Standard image position on the film. */
  readonly position?: '1A' | '1B' | '2A' | '2B';
  /** What the film is made of. */
  readonly filmBase?: string;
  /** Positive or negative. */
  readonly polarity?: string;
  /** Camera master, print master or a copy for readers. */
  readonly generation?: string;
  /** Reduction ratio, such as `16x`. */
  readonly reduction?: string;
  /** What stands on the box. */
  readonly boxLabel?: string;
  /** Anything else worth knowing about the reel. */
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
  /** What the frame is; `page` where nothing is said. */
  readonly kind?: FrameKind;
  /** true: must appear in the return; false: scanned, counted and held back. Left out: true for pages, false for the rest. */
  readonly deliver?: boolean;
  /** Identifier of the title; may be left out where the record has only one. */
  readonly title?: string;
  /** Real date of publication, `YYYY-MM-DD`, or EDTF level 1 (ISO 8601-2) when it is uncertain. */
  readonly date?: string;
  /** The second day of a combined issue, `YYYY-MM-DD`, a certain one; the return may give both days and must give `date`. */
  readonly combinedWith?: string;
  /** The date on the paper where it differs from `date`; any text, an impossible day included. */
  readonly datePrinted?: string;
  /** What the library makes of the date on the paper: it is the real one, it is not, or nobody can tell. Where it is unclear `date` is read as if it ended in `?`. */
  readonly datePrintedJudged?: 'right' | 'wrong' | 'unclear';
  /** Who judged the date on the paper. */
  readonly judgedBy?: string;
  /** The weekday on the paper, in the language of the title. */
  readonly weekdayPrinted?: string;
  /** The title on the paper where it differs from the name of the title. */
  readonly titlePrinted?: string;
  /** 1 for the first edition of that title and day, 2 for the next. Left out: 1. */
  readonly edition?: number;
  /** The words on the paper that name the edition. */
  readonly editionLabel?: string;
  /** The volume as printed. */
  readonly volume?: string;
  /** The issue number as printed. */
  readonly issueNumber?: string;
  /** The issue number as it should have been, where the printed one is wrong. */
  readonly issueNumberIntended?: string;
  /** The section the page belongs to, such as `A`. */
  readonly section?: string;
  /** true where the page belongs to a supplement. */
  readonly supplement?: boolean;
  /** The page label the library wants. */
  readonly page?: string;
  /** The label on the paper where it differs from `page`; `-` when nothing is printed. */
  readonly pagePrinted?: string;
  /** The page's place inside its issue as published, 1, 2, 3 ...; a frame that is held back has none. */
  readonly order?: number;
  /** The frame that shows the same page: a frame of the same reel, or `reel:frame`. */
  readonly duplicateOf?: string;
  /** The frame that this one was filmed to replace: a frame of the same reel, or `reel:frame`. */
  readonly retakeOf?: string;
  /** Number of the reel that was spliced in here. */
  readonly sourceReel?: string;
  /** Image position on the film from this frame on, where it changes inside the reel. */
  readonly position?: '1A' | '1B' | '2A' | '2B';
  /** Reduction ratio from this frame on, where it changes inside the reel. */
  readonly reduction?: string;
  /** Film irregularities and damage of the paper, each in a word or two. */
  readonly condition?: readonly string[];
  /** Anything else worth knowing about the frame. */
  readonly note?: string;
}

/** A page or a whole issue known not to be on the film. It has no frame number. */
export interface AbsentEntry {
  /** Identifier of the title; may be left out where the record has only one. */
  readonly title?: string;
  /** Date of publication, `YYYY-MM-DD`, or EDTF level 1 when it is uncertain. */
  readonly date: string;
  /** The second day of a combined issue, `YYYY-MM-DD`, a certain one. */
  readonly combinedWith?: string;
  /** Last date, inclusive: every expected day of the pattern from `date` to here is absent. */
  readonly dateTo?: string;
  /** Number of the edition. Left out: 1. */
  readonly edition?: number;
  /** The section of the absent page. */
  readonly section?: string;
  /** Label of the absent page; left out, the whole issue is absent. */
  readonly page?: string;
  /** Place of the absent page inside its issue. */
  readonly order?: number;
  /** Whether it came out at all, as far as the library knows. */
  readonly published?: 'yes' | 'no' | 'unknown';
  /** Anything else worth knowing about the absence. */
  readonly note?: string;
}
