import type { FrameKind, PublicationPattern } from './collation-record.js';
import type { FrameFact, IssueFact } from './expected.js';
import type { ReceivedCounts, Unchecked } from './findings.js';

/** Where something stands: a document and element of the return, or a sheet and row of the record. */
export interface Place {
  readonly document?: string;
  readonly element?: string;
  readonly line?: number;
  readonly sheet?: string;
  readonly row?: number;
}

/** A frame number as written and as understood: exposure 12, half `A`. Compare by exposure, then half. */
export interface FrameNumber {
  readonly text: string;
  readonly exposure: number;
  /** Empty for a whole exposure; `A`, `B` ... for the parts of a split one. */
  readonly half: string;
  /** Nobody wrote this number: it was counted on, or is a place in a printed volume. It is never compared, and no hole beside it means anything. */
  readonly inferred?: true;
}

/** A date as written, and the certain Gregorian day it means (`YYYY-MM-DD`), null when it is uncertain or no real day. */
export interface DateReading {
  readonly text: string;
  readonly day: string | null;
  /** True when the text itself says that it is not certain (EDTF `?`, `~`, `%`, `X`). */
  readonly uncertain: boolean;
  /** Return only: the second day of a combined issue, where the return gives both in one place (`1899-01-04/1899-01-05`). */
  readonly second?: string;
}

/** How a frame came to be on its side: `page` and `target` are described, `unmatched` is delivered outside any issue. */
export type FrameStanding = FrameKind | 'unmatched';

/** A file that a page points to. Path is relative to the batch, `/` separated; null where it may not or cannot be resolved. */
export interface PageFile {
  readonly use: string;
  readonly href: string;
  readonly path: string | null;
  /** `unnamed`: the page names no file of a use that every page must have; `href` is empty. */
  readonly state: 'present' | 'missing' | 'empty' | 'unsafe' | 'not-looked-for' | 'unnamed';
  /** Why nothing is read there, where the state is `unsafe`. */
  readonly because?: NotFollowed;
  /** Digest as stated in the vendor's own metadata, `sha1:7e6b...`, lower case. */
  readonly digest: string | null;
  /** Pixels, from the vendor's image metadata. */
  readonly width: number | null;
  readonly height: number | null;
}

/**
 * Why a reference to a file is not followed: nothing stands there, it is an address of a machine or a path from its root, it has a backslash or other
 * characters that no path has, it means the document's own folder, it leads out of the batch; or what lies there is a link or no regular file.
 */
export type NotFollowed = 'nothing' | 'address' | 'backslash' | 'characters' | 'own-folder' | 'outside' | 'link' | 'device';

/** A use under which documents name the files of pages, or under which the profile asks for pictures. */
export interface FileUse {
  readonly use: string;
  /** Whether a file of it came, and how many files of it documents name. */
  readonly came: boolean;
  readonly named: number;
}

/** Facts that are written in several places, or several times in one. */
export type CopiedFact =
  | 'date'
  | 'edition'
  | 'title'
  | 'frame'
  | 'exposure'
  | 'reel'
  | 'order'
  | 'editionLabel'
  | 'page'
  | 'datePrinted'
  | 'volume'
  | 'issueNumber'
  | 'section'
  | 'present';

/** Another place where the return writes the same fact: folder name, manifest, file name, structMap order, LABEL, ALTO. */
export interface Copy {
  readonly fact: CopiedFact;
  readonly source: string;
  readonly text: string;
  /** Normalised, to be compared with the fact's main reading in the same form; null when it cannot be read. */
  readonly value: string | null;
  /** Where the same place states the fact twice: the statement that was read, as it is written and normalised like `value`. */
  readonly beside?: { readonly text: string; readonly value: string | null };
  readonly place: Place;
}

/** A frame that another one names: number of the reel (null for its own) and key of the frame, both as they are compared, and the words of the record. */
export interface FramePointer {
  readonly reel: string | null;
  readonly frame: string;
  readonly text: string;
}

/** What one row of a record says of its issue. */
export type IssueStatement = Partial<
  Pick<Issue, 'datePrinted' | 'weekdayPrinted' | 'editionLabel' | 'volume' | 'issueNumber' | 'issueNumberIntended'>
>;

/** One frame of either side, in film order. */
export interface Frame {
  readonly frame: FrameNumber | null;
  readonly kind: FrameStanding;
  readonly deliver: boolean;
  /** Index into the side's `issues`; null for what belongs to no issue. */
  readonly issue: number | null;
  readonly section: string | null;
  readonly supplement: boolean;
  /** Record: the label wanted. Return: the label given. null when none. */
  readonly page: string | null;
  /** Record only: the label on the paper where it differs, `-` for nothing printed. */
  readonly pagePrinted: string | null;
  /** `page` and `pagePrinted` as they are compared: upper case, no padding zeros, without the section's own letter (normalise/labels `labelKey(withoutSection(...))`). */
  readonly pageKey: string | null;
  readonly pagePrintedKey: string | null;
  readonly order: number | null;
  readonly duplicateOf: FramePointer | null;
  readonly retakeOf: FramePointer | null;
  /** Record only: the reel that was spliced in, its number normalised for comparing like that of a reel. */
  readonly sourceReel: { readonly number: string; readonly text: string } | null;
  readonly condition: readonly string[];
  readonly note: string | null;
  /** Record only: what the row of this frame says of its issue, where it says more than title, day and edition. */
  readonly ofIssue?: IssueStatement;
  /** Return: the page gives no reel number and was taken to be on the reel that it stands under; that is never held against anyone. */
  readonly reelInferred?: true;
  /** Return: what describes the page cannot be read or found, which is told as that; the facts that it lacks are not missed one by one. */
  readonly undescribed?: true;
  readonly files: readonly PageFile[];
  readonly copies: readonly Copy[];
  readonly place: Place;
}

/** One issue of one edition: in the record a title, date and edition; in the return a document. */
export interface Issue {
  readonly title: string | null;
  readonly date: DateReading | null;
  /** Record only: index of the issue that has the same name there, where the return shows that they are two. */
  readonly apartFrom?: number;
  /** Record only: the second day of a combined issue, `YYYY-MM-DD`; left out where there is none. */
  readonly combinedWith?: string;
  readonly datePrinted: DateReading | null;
  readonly weekdayPrinted: string | null;
  readonly edition: number | null;
  readonly editionLabel: string | null;
  readonly volume: string | null;
  readonly issueNumber: string | null;
  readonly issueNumberIntended: string | null;
  /** False for an issue said to be absent as a whole. */
  readonly present: boolean;
  /** Return: as of a frame. */
  readonly undescribed?: true;
  /** Return: what the document must say itself and does not, and was taken from elsewhere; that is never held against anyone. */
  readonly inferred?: readonly CopiedFact[];
  readonly copies: readonly Copy[];
  readonly place: Place;
}

/** A page or whole issue stated to be absent. `issue` points to the issue where that stands on its side. */
export interface Absence {
  readonly reel: string | null;
  readonly title: string | null;
  readonly date: DateReading | null;
  /** Record only: index of the issue that has the same name there, where the return shows that they are two. */
  readonly apartFrom?: number;
  /** Record only: the second day of a combined issue, `YYYY-MM-DD`; left out where there is none. */
  readonly combinedWith?: string;
  readonly edition: number | null;
  readonly section: string | null;
  readonly page: string | null;
  readonly order: number | null;
  readonly published: 'yes' | 'no' | 'unknown';
  /** Return: it is said in words that are not agreed, so that nobody can tell whether it was published. That is told of the words. */
  readonly unreadWords?: true;
  readonly issue: number | null;
  readonly place: Place;
}

/** One reel of either side. `number` is normalised for comparing, `text` as written. */
export interface Reel {
  readonly number: string;
  readonly text: string;
  /** Nobody wrote this number: the reel is known by what its frames show, and its number is never compared. */
  readonly numberInferred?: true;
  /** Other normalised numbers that mean the same reel, such as the number without a suffix that the supplier chooses. */
  readonly alsoKnownAs: readonly string[];
  /** Record: scanning order. Return: by frame number, equal numbers in document order. */
  readonly frames: readonly Frame[];
  /** Facts about the reel as text by name: position, reductionRatio, startDate, endDate, numberOfPictures ... */
  readonly facts: Readonly<Record<string, string>>;
  /** True when the side lists its targets for this reel one by one. */
  readonly targetsListed: boolean;
  readonly place: Place;
}

/** A title of the record. */
export interface Title {
  readonly id: string;
  readonly name: string;
  readonly language: string;
  readonly readingDirection: 'ltr' | 'rtl';
  readonly patterns: readonly PublicationPattern[];
}

/** What went wrong with a document of the return while it was read. */
export interface DocumentProblem {
  readonly code:
    | 'document-unreadable'
    | 'file-missing'
    | 'file-not-listed'
    | 'checksum-differs'
    | 'manifest-disagrees'
    | 'vocabulary-unknown'
    | 'documents-disagree'
    | 'not-ordered'
    | 'page-not-delivered'
    | 'title-differs'
    | 'edition-differs'
    | 'reel-number-wrong'
    | 'frame-number-wrong';
  readonly reel: string | null;
  readonly title: string | null;
  readonly date: string | null;
  readonly edition: number | null;
  /** One sentence: which document, what stands there. */
  readonly says: string;
  readonly instruction: string | null;
  readonly collation: string | null;
  readonly returned: string | null;
  readonly field: string | null;
  readonly place: Place;
  /** Where the same is wrong in several places, all of them, with what stands in each. */
  readonly each?: readonly { readonly place: Place; readonly text: string | null }[];
}

/**
 * A fact that the library's own profile asks for and that it found, or could read, in next to no document: a question to the profile and to the
 * layout of the return. That it is missing is held against nobody.
 */
export interface Unfound {
  /** The field of the differences that are not told because of it, null where none would be; `pages`: not one page was found, and nothing is compared. */
  readonly field: FrameFact | IssueFact | 'pages' | null;
  /** Said only where the record states the fact, so that the return would have to. */
  readonly whereRecorded: boolean;
  readonly unchecked: Unchecked;
}

/** One whole side, the record or the return, in one shape. */
export interface Side {
  readonly titles: readonly Title[];
  readonly issues: readonly Issue[];
  readonly reels: readonly Reel[];
  readonly absences: readonly Absence[];
  readonly problems: readonly DocumentProblem[];
  /** What could not be looked at on this side. */
  readonly unchecked: readonly Unchecked[];
  /** Return: facts that the library's own profile found nowhere. */
  readonly unfound?: readonly Unfound[];
  /** Return: the uses of page files, in the order of their names. */
  readonly fileUses?: readonly FileUse[];
  /** Return: the account of everything that came; a side that was read from no folder has none. */
  readonly received?: ReceivedCounts;
  /** Choices made while reading, worth telling: which layout, which of two copies. */
  readonly remarks: readonly string[];
  /** Return: true where the layout files the documents of an issue by reel, so that an issue on two reels has two of them. */
  readonly documentsPerReel?: boolean;
  /** Return: true where the layout has a place for frames that belong to no issue. */
  readonly looseDelivered?: boolean;
}
