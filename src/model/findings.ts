// Generated from schemas/findings.schema.json by `npm run generate`: change the schema, not this file.
import type { ResolvedAgreement } from './agreement.js';
import type { PublicationPattern } from './collation-record.js';
import type { RecordItem } from './record-check.js';

/** A saved result. Self-contained: every report renders from it alone. */
export interface Findings {
  /** Name and version of this format. */
  readonly format: 'reeltally/findings/2';
  /** The program that made the result. */
  readonly tool: {
    /** Its name. */
    readonly name: string;
    /** Its version. */
    readonly version: string;
  };
  /** What was compared and when. */
  readonly run: Run;
  /** The agreement that was applied, defaults filled in. */
  readonly agreement: ResolvedAgreement;
  /** What the program advises. */
  readonly verdict: {
    /** The advice. */
    readonly decision: Decision;
    /** Why, in sentences. */
    readonly reasons: readonly string[];
  };
  /** How many of everything. */
  readonly counts: Counts;
  /** The titles of the record. */
  readonly titles: readonly ResultTitle[];
  /** The reels of the record, then those that only the return has. */
  readonly reels: readonly ResultReel[];
  /** The findings, most severe first. */
  readonly findings: readonly Finding[];
  /** Where the record that was sent to the vendor was given too: what was changed in it since. */
  readonly sent?: {
    /** Each change in a sentence. */
    readonly changes: readonly string[];
  };
  /** With an earlier result: its findings whose frames were all compared again and agree now. */
  readonly corrected: readonly Finding[];
  /** With an earlier result, and only where there are any: its findings that are gone without being seen to be corrected. `unchecked` says why of each; the next delivery is held against them too. */
  readonly pending?: readonly Finding[];
  /** Open problems of the record, as `collation check` tells them, the most telling first; what stands in NAME.explained.csv is not open. */
  readonly record: readonly RecordItem[];
  /** What could not be looked at. */
  readonly unchecked: readonly Unchecked[];
  /** Texts of the codes, so that the result explains itself years later. */
  readonly catalogue: readonly CatalogueEntry[];
}

/** How much a finding weighs. */
export type Severity = 'critical' | 'major' | 'minor' | 'note';

/** The side likelier wrong; `unclear` weighs like the vendor's. */
export type Cause = 'vendor-metadata' | 'vendor-image' | 'film' | 'collation' | 'unclear';

/** What the program advises about a batch. */
export type Decision = 'accept' | 'accept-with-corrections' | 'return-for-rework' | 'cannot-decide';

/** What was compared and when. */
export interface Run {
  /** When the comparison ran, ISO 8601. */
  readonly at: string;
  /** When the delivery came in, `YYYY-MM-DD`. */
  readonly received: string | null;
  /** The last day for the library's answer, `YYYY-MM-DD`; left out where nobody said when the delivery came in. */
  readonly reviewDay?: string;
  /** Where the batch came in several folders: documents of an earlier one that a later one replaces under another name; left out where there are none. */
  readonly replaced?: readonly {
    /** Its path in the batch. */
    readonly document: string;
    /** Paths of the documents that stand for it. */
    readonly by: readonly string[];
  }[];
  /** Name of the batch. */
  readonly batch: string;
  /** 1 for the first sending of the batch, 2 for the next. */
  readonly delivery: number;
  /** The profile that was used. */
  readonly profile: string;
  /** The files that were read. */
  readonly inputs: readonly Input[];
  /** Choices made while reading, in sentences. */
  readonly remarks: readonly string[];
}

/** One file that was read. */
export interface Input {
  /** What it was read as. */
  readonly role: string;
  /** Its name, without the folder it stood in. */
  readonly name: string;
  /** SHA-256 of its bytes, in lower case; empty where a whole folder was read. */
  readonly sha256: string;
}

/** How many of everything. */
export interface Counts {
  /** Counts by reel. */
  readonly reels: readonly ReelCounts[];
  /** Pages in the return. */
  readonly pagesReturned: number;
  /** Pages that have a partner in the record. */
  readonly pagesMatched: number;
  /** Pages that have none. */
  readonly pagesUnmatched: number;
  /** Differences before they were explained. */
  readonly differences: number;
  /** Findings. */
  readonly findings: number;
  /** Everything that came, and what became of it. */
  readonly received: ReceivedCounts;
  /** Counts by price class. */
  readonly classes: readonly ClassCount[];
  /** Frames of the record that no class of a scan pays for; left out where there is none. */
  readonly unpriced?: {
    /** Those that are held back as duplicates. */
    readonly duplicates: number;
    /** All others. */
    readonly others: number;
  };
}

/** Everything that came, by class. A document is counted as a file too; sections are what stands in documents under an ID. */
export interface ReceivedCounts {
  /** Folders of the batch. */
  readonly folders: Came;
  /** Documents of the layout, page text and image data included. */
  readonly documents: Came;
  /** Metadata sections, file entries and divisions of documents. */
  readonly sections: Came;
  /** Files on disk, documents included. */
  readonly files: Came;
  /** Files that were held against the digests or sizes stated for them; left out where nobody asked for it. */
  readonly fixity?: FixityCounts;
}

/** What came of holding the bytes of files against what is stated of them. */
export interface FixityCounts {
  /** Files that were read and compared. */
  readonly compared: number;
  /** How many of these are not as stated. */
  readonly differ: number;
  /** Files of pages that came and for which nothing is stated that could be compared. */
  readonly without: number;
}

/** How many things of one class came, and what became of them; `came` is the sum of the rest. */
export interface Came {
  /** How many came. */
  readonly came: number;
  /** How many took part in the comparison. */
  readonly compared: number;
  /** How many are the matter of a finding. */
  readonly found: number;
  /** How many stand under `unchecked`. */
  readonly unchecked: number;
}

/** Counts of one reel. */
export interface ReelCounts {
  /** Number of the reel. */
  readonly reel: string;
  /** Frames in the record. */
  readonly frames: number;
  /** Frames of each kind, by whether they are delivered. */
  readonly kinds: readonly {
    /** Kind of frame. */
    readonly kind: string;
    /** Whether it must appear in the return. */
    readonly deliver: boolean;
    /** How many. */
    readonly count: number;
  }[];
  /** Absences the record states. */
  readonly absent: number;
  /** Frames in the return. */
  readonly returned: number;
  /** Frames with a partner. */
  readonly matched: number;
  /** Frames without one. */
  readonly unmatched: number;
}

/** Counts of one price class. */
export interface ClassCount {
  /** Name of the class. */
  readonly class: string;
  /** What it pays for. */
  readonly charge: string;
  /** By the record. */
  readonly record: number;
  /** How many came; a frame that is held back shows in no page and came all the same, unless something speaks against it. */
  readonly returned: number;
  /** Returned less disputed. */
  readonly accepted: number;
  /** Came, and named by an open finding that counts and is critical or major, changes billing or asks for a rescan. */
  readonly disputed: number;
  /** Frames of this class by the record that came as pages and count there; left out where there is none. */
  readonly asPages?: number;
}

/** A title of the record. */
export interface ResultTitle {
  /** Identifier. */
  readonly id: string;
  /** Name; empty where the record gives none. */
  readonly name: string;
  /** When it came out. */
  readonly patterns: readonly PublicationPattern[];
}

/** One reel with its frames in film order. */
export interface ResultReel {
  /** Number of the reel. */
  readonly number: string;
  /** Absences the record states for it. */
  readonly absent: readonly ResultAbsence[];
  /** Frames in film order. */
  readonly frames: readonly ResultFrame[];
}

/** A page or a whole issue that is not on the film. */
export interface ResultAbsence {
  /** Identifier of the title. */
  readonly title: string | null;
  /** Date. */
  readonly date: string | null;
  /** The second day of a combined issue, `YYYY-MM-DD`; left out where there is none. */
  readonly combinedWith?: string;
  /** Number of the edition. */
  readonly edition: number | null;
  /** Page label; null for the whole issue. */
  readonly page: string | null;
  /** Whether it came out. */
  readonly published: 'yes' | 'no' | 'unknown';
}

/** One place of the film, as both sides have it. */
export interface ResultFrame {
  /** The record's frame number, or null. */
  readonly frame: string | null;
  /** The return's frame number, or null. */
  readonly returned: string | null;
  /** What the return has in this place: a page, a listed target, a frame delivered outside any issue; null where it shows no frame. */
  readonly returnedKind: 'page' | 'target' | 'unmatched' | null;
  /** What came of comparing. number-differs: it is right, and the vendor's number for it is another. record-only: held back, and the return does not count it. not-compared: what came for it cannot be read, or nothing shows whether it came. */
  readonly state:
    | 'agrees'
    | 'number-differs'
    | 'differs'
    | 'not-delivered'
    | 'delivered-though-held-back'
    | 'record-only'
    | 'return-only'
    | 'not-compared';
  /** What the frame is. */
  readonly kind: string;
  /** Whether it must appear in the return. */
  readonly deliver: boolean;
  /** Identifier of the title. */
  readonly title: string | null;
  /** Date of the issue. */
  readonly date: string | null;
  /** The second day of a combined issue, `YYYY-MM-DD`; left out where there is none. */
  readonly combinedWith?: string;
  /** Number of the edition. */
  readonly edition: number | null;
  /** Section. */
  readonly section: string | null;
  /** Page label. */
  readonly page: string | null;
  /** Place inside the issue. */
  readonly order: number | null;
  /** Film irregularities and damage of the paper. */
  readonly condition: readonly string[];
  /** Number of the reel that was spliced in here. */
  readonly sourceReel: string | null;
  /** The frame that shows the same page. */
  readonly duplicateOf: string | null;
  /** Files of the return for this frame. */
  readonly files: readonly {
    /** What the file is for. */
    readonly use: string;
    /** Path relative to the batch. */
    readonly path: string;
  }[];
  /** Ids of the findings that name this frame. */
  readonly findings: readonly string[];
  /**
   * Ids of the findings of which something that differs here is only a consequence, such as a later number after a frame too many; nothing here is charged to them. Left out where there are none.
   *
   * @minItems 1
   *
   * Items: An id.
   */
  readonly follows?: readonly string[];
}

/** One cause with all the differences that it explains. */
export interface Finding {
  /** Made from code, title, date, edition, field and the record's reel and frames; stays the same over deliveries. Equal ones get -2, -3. */
  readonly id: string;
  /** Code of the finding; its texts stand in `catalogue`. */
  readonly code: string;
  /** How much it weighs under this agreement. */
  readonly severity: Severity;
  /** Pages that it counts for in the verdict: one for a number that is wrong by the same on all of them; left out by earlier versions. */
  readonly weighs?: number;
  /** How far the one cause reaches: a page, an issue, a run of either, a reel, a title, every file of one use, or the whole batch. */
  readonly scope: 'page' | 'issue' | 'run' | 'reel' | 'title' | 'use' | 'batch';
  /** The side likelier wrong; the reasons stand in `evidence`. */
  readonly cause: Cause;
  /** The record's reel; for an issue on two reels the first. */
  readonly reel: string | null;
  /** Frame where it begins; for a shift the frame that was left out or captured twice. */
  readonly at: string | null;
  /** The frames it affects, by the collation's numbers; null where nothing is on the film. */
  readonly frames: FrameRange | null;
  /** How many frames it affects. */
  readonly count: number;
  /** Identifier of the title. */
  readonly title: string | null;
  /** Date of the issue, as the record has it. */
  readonly date: string | null;
  /** Number of the edition. */
  readonly edition: number | null;
  /** Label of the page. */
  readonly page: string | null;
  /** Which fact differs. */
  readonly field: string | null;
  /** What the record says, as text. */
  readonly collation: string | null;
  /** What the vendor sent, as text. */
  readonly return: string | null;
  /** One sentence of what is so. */
  readonly says: string;
  /** One imperative sentence to the vendor, or null. */
  readonly instruction: string | null;
  /** Sentences that speak for this cause: weekday, neighbours, numbering, digest, text. */
  readonly evidence: readonly string[];
  /** The return is as the record was when it was sent: the vendor did as he was told. */
  readonly asSent?: true;
  /** Other readings that explain it as well. */
  readonly alternatives: readonly Alternative[];
  /** What would have to be done to the return to put this right, for machines, in the vendor's own frame numbers and file names. */
  readonly repair: readonly Repair[];
  /** What the record would need if the return is right. */
  readonly corrections: readonly Correction[];
  /** Where it stands in the return and in the record. */
  readonly places: readonly ResultPlace[];
  /** Whether film has to be scanned again. */
  readonly rescan: 'yes' | 'no';
  /** How counts of price classes change. */
  readonly billable: readonly {
    /** Name of the price class. */
    readonly class: string;
    /** By how many; negative where too many were billed. */
    readonly change: number;
  }[];
  /** Only with an earlier result: whether the finding is new or was open before. */
  readonly status?: 'new' | 'open';
  /**
   * Only where all that it says of the return rests on what open problems of the record leave in doubt: their ids in `record`. Until it is ruled it is charged to nobody.
   *
   * @minItems 1
   */
  readonly doubts?: readonly string[];
  /** Only in `corrected`: which side has changed since, the return, the record, or it cannot be told. */
  readonly changed?: 'return' | 'record' | 'unclear';
  /** What the library decided about it, or null. */
  readonly ruling: {
    /** The decision. */
    readonly decision: string;
    /** Why. */
    readonly note: string;
    /** Who decided. */
    readonly by: string;
    /** When. */
    readonly on: string;
  } | null;
  /** What the vendor answered, or null. */
  readonly answer: {
    /** The answer. */
    readonly text: string;
    /** The delivery in which the vendor says it is mended; left out where the vendor does not say. */
    readonly fixedIn?: string;
    /** When. */
    readonly on: string;
  } | null;
}

/** Frames from one to another, both included. */
export interface FrameRange {
  /** First frame. */
  readonly from: string;
  /** Last frame. */
  readonly to: string;
  /** Given when the frames are not one unbroken run, or lie on two reels (`reel:frame`). */
  readonly list?: readonly string[];
}

/** Another reading that explains a finding as well. */
export interface Alternative {
  /** What would be so. */
  readonly says: string;
  /** The side that would be wrong. */
  readonly cause: Cause;
  /** What the vendor would have to do, or null. */
  readonly instruction: string | null;
}

/** One change to the return. */
export interface Repair {
  /** set: give a fact another reading, or none. remove: take out what is too much. add: put in what is missing and is there. move: put a page elsewhere. exchange: let two bear each other's facts. renumber: add `to` to the frame number. split and merge: of documents and exposures. rescan: scan the film again. */
  readonly do: 'set' | 'remove' | 'add' | 'move' | 'exchange' | 'renumber' | 'split' | 'merge' | 'rescan';
  /** Path of the document or file in the batch; null where there is none yet. */
  readonly document: string | null;
  /** Where in the document: an ID or the name of an element. */
  readonly element: string | null;
  /** Only where frames are named without a document: the number of their reel, as the vendor writes it, or as the record does where nothing of the reel came. */
  readonly reel?: string;
  /** The vendor's own frame number, or `from to to` for a run of them; for what did not come, the number that it must have. */
  readonly frame: string | null;
  /** Only where nothing came for the frame: its number is the record's, and may be that of another frame in the return. */
  readonly numberedBy?: 'record';
  /** The fact; null where the whole page, document or file is meant. */
  readonly field: string | null;
  /** What stands there; null where nothing does. */
  readonly from: string | null;
  /** What must stand there; null where nothing must. For renumber what is to be added, such as `+1`. */
  readonly to: string | null;
}

/** One change that the record would need. */
export interface Correction {
  /** Number of the reel. */
  readonly reel: string;
  /** Frame that is changed, or after which one is put in. */
  readonly frame: string;
  /** What to do. */
  readonly action: 'set' | 'insert-after' | 'remove' | 'renumber';
  /** The field; empty where the whole frame is meant. */
  readonly field: string;
  /** What stands there. */
  readonly from: string;
  /** What should. */
  readonly to: string;
}

/** A document and element of the return, or a sheet and row of the record. */
export interface ResultPlace {
  /** Path of the document, relative to the batch. */
  readonly document?: string;
  /** Path of the element. */
  readonly element?: string;
  /** Line in the document. */
  readonly line?: number;
  /** Sheet or file of the record. */
  readonly sheet?: string;
  /** Row in the sheet. */
  readonly row?: number;
  /** Only on the last of a long run: how many places the run has. Those between the first three and this one are not named. */
  readonly of?: number;
}

/** Something that could not be looked at. */
export interface Unchecked {
  /** What. */
  readonly what: string;
  /** Why not. */
  readonly why: string;
  /** The frames concerned, or null. */
  readonly frames: FrameRange | null;
  /** Where it stands in the return or the record: all places, or the first hundred of them. */
  readonly places: readonly ResultPlace[];
  /** How many things of this kind were not looked at, as many as there are, whatever `places` shows. */
  readonly count: number;
  /** Whether the agreement requires it. */
  readonly required: boolean;
}

/** Texts of one code. */
export interface CatalogueEntry {
  /** The code. */
  readonly code: string;
  /** Its group. */
  readonly group: string;
  /** What it is called. */
  readonly title: string;
  /** Why it matters. */
  readonly why: string;
  /** Its usual severity. */
  readonly severity: Severity;
}
