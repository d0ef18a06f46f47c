import type { Policies } from './agreement.js';
import type { Needs } from './expected.js';
import type { Severity } from './findings.js';

/** How the documents of a return are laid out: one METS document for each issue, or one document for each page and edition. Each has a reader in src/read/layouts. */
export type LayoutName = 'issue-mets' | 'page-mods';

/** A fact that a document can state. */
export type FactName =
  | 'titleId'
  | 'date'
  | 'datePrinted'
  | 'edition'
  | 'editionLabel'
  | 'volume'
  | 'issueNumber'
  | 'present'
  | 'presentNote'
  | 'section'
  | 'page'
  | 'order'
  | 'reel'
  | 'frame';

/** The part of a return that states a fact: an issue, a section object, a page, a target on the film, a technical target of the scanner, a reel as a whole. */
export type DocumentPart = 'issue' | 'section' | 'page' | 'target' | 'scannerTarget' | 'reel';

/** As `Needs`; where-held: must where the batch holds at least one file of that use. */
export type FileNeeds = Needs | 'where-held';

/**
 * File and folder names and labels, as plain text and placeholders. Of a fixed shape: `{date}` 1907-03-15 or as the fact's `shape` says, `{day}`
 * 19070315, `{edition}` two digits, `{frame}` digits and perhaps a letter, `{number}` digits, `{lccn}`; `{folder}` is the name of the folder that
 * the document lies in. Free: `{title}` `{reel}` (one word with a digit in it) `{batch}` `{label}` `{any}`, and `{this}` for the fact itself.
 * Letters count without regard to case; the shortest way to fill the free ones counts. Of several patterns the first that fits the whole text wins.
 */
export type NamePatterns = readonly string[];

/**
 * One place where a fact is looked for. A bare text is a path in the part's own metadata section (MODS or another), from its first element. A path
 * names elements by local name, `relatedItem[@type=host]/identifier[@type=lccn]`; it may test attributes (`[@a]`, `[@a=b]`, `[@a="b c"]`,
 * `[not(@a)]`), end in an attribute (`note/@displayLabel`), or be nothing but one (`@ORDER`). `pattern` picks the fact out of a longer text.
 */
export type FactSource =
  | string
  | { readonly in: 'section'; readonly path: string; readonly pattern?: string | NamePatterns }
  /** From the part's own division of the structMap. */
  | { readonly in: 'division'; readonly path: string; readonly pattern?: string | NamePatterns }
  /** From the first element of the document. */
  | { readonly in: 'document'; readonly path: string; readonly pattern?: string | NamePatterns }
  /** From the line about the document in the manifest. */
  | { readonly in: 'manifest'; readonly path: string; readonly pattern?: string | NamePatterns }
  /** From the sections of a reel's targets, where all of them say the same. */
  | { readonly in: 'targets'; readonly path: string; readonly pattern?: string | NamePatterns }
  /** The name of the document's file. */
  | { readonly in: 'document-name'; readonly pattern: string | NamePatterns }
  /** The name of a folder: 1 up is the one in which the document lies. */
  | { readonly in: 'folder'; readonly up: number; readonly pattern: string | NamePatterns }
  /** The names of the files that belong to the part, or those of one use. */
  | { readonly in: 'file-name'; readonly pattern: string | NamePatterns; readonly use?: string }
  /** The place of a page among those of its issue, 1, 2, 3 ..., in the order of the structMap. */
  | { readonly in: 'place' }
  | { readonly in: 'constant'; readonly text: string }
  /** Nobody wrote it: it is counted on. What was counted is said and never compared. */
  | { readonly in: 'count' };

/** How one fact is read. */
export interface FactRule {
  /** The first of these places that holds text gives the fact. */
  readonly sources: readonly FactSource[];
  /** Other places that say it again; each is compared with the fact. */
  readonly copies?: readonly FactSource[];
  /** How a date is written, of D DD M MM YYYY and what stands between them: `D.M.YYYY`. `YYYY-MM-DD` and `YYYYMMDD` are always understood. */
  readonly shape?: string;
  readonly needs?: Needs;
  /** The policy of the agreement that decides, in the place of `needs`, whether the fact must be there. */
  readonly movedBy?: keyof Policies;
}

/** The facts of one part. */
export type FactRules = Readonly<Partial<Record<FactName, FactRule>>>;

/** The kinds of document. */
export type DocumentKind = 'manifest' | 'issue' | 'reel' | 'page' | 'absentPage';

/** Which documents are of a kind: by name, by their first element, or by a division that they hold. */
export interface DocumentRule {
  readonly names: NamePatterns;
  /** First elements by local name; `types` are ends of their TYPE after the last colon, without regard to case, any where left out. */
  readonly roots?: readonly { readonly element: string; readonly types?: readonly string[] }[];
  /** Types of divisions, besides those of the parts, that make a document one of this kind, whatever its first element calls it. */
  readonly holds?: readonly string[];
  readonly needs?: Needs;
}

/** The parts that have divisions of the structMap. */
export type DivisionPart = 'issue' | 'section' | 'page' | 'reel' | 'target' | 'scannerTargets';

/** Which divisions are a part: their types after the last colon, without regard to case, in structMaps of one TYPE or of any. */
export interface DivisionRule {
  readonly map?: string;
  readonly types: readonly string[];
}

/** What is asked of the files of one use. */
export interface FileUseRule {
  readonly needs: FileNeeds;
  readonly is?: 'image' | 'text' | 'other';
}

/** The files of a page. */
export interface FileRules {
  /** By use: what USE says of the file or of the groups around it, in lower case. */
  readonly uses: Readonly<Record<string, FileUseRule>>;
  readonly otherUses: FileNeeds;
  /** Uses that are never delivered, such as discarded sources: not looked for. */
  readonly ignored: readonly string[];
  /** Files that belong to a page and are named after its document: use and ending. */
  readonly companions: readonly { readonly use: string; readonly ending: string }[];
}

/** Folders of the layout `page-mods` by name, and the files in them. */
export interface FolderRules {
  readonly unmatched: NamePatterns;
  readonly unmatchedFile: NamePatterns;
  readonly target: NamePatterns;
  readonly targetFile: NamePatterns;
  readonly issue: NamePatterns;
}

/** One of the wordings by which a document says that a page or an issue is there or is not. */
export interface PresentWording {
  readonly text: string;
  readonly present: boolean;
  readonly published: 'yes' | 'no' | 'unknown';
}

/** Where the XML of a return keeps each fact, what its words mean, and what must be there. */
export interface Profile {
  readonly format: 'reeltally/profile/2';
  readonly name: string;
  /** Written by the library, so that it may be wrong itself: a must that it finds or can read nowhere is a question, and nothing against the vendor. */
  readonly own?: true;
  readonly layout: LayoutName;
  readonly documents: Readonly<Record<DocumentKind, DocumentRule>>;
  readonly divisions: Readonly<Record<DivisionPart, DivisionRule>>;
  /** How pages belong to their issue: they lie below its division, a structLink leads to them, or they are all pages of the document. */
  readonly pagesOfIssue: 'below' | 'linked' | 'document';
  readonly facts: Readonly<Record<DocumentPart, FactRules>>;
  /** Local names of the elements that hold facts about a reel as a whole. */
  readonly reelFacts: readonly string[];
  readonly files: FileRules;
  readonly folders: FolderRules;
  readonly present: readonly PresentWording[];
  /** What the return calls a title, and the record's id of it. */
  readonly titleKeys: Readonly<Record<string, string>>;
  /** True where a document may lie there twice, plain and with `_1`, `_2` ... at the end of its name from a later step of the vendor's work: the latest is read. */
  readonly laterCopies: boolean;
  readonly reelNumber: {
    /** End of a reel number that the supplier chooses, `#` for a digit (`-##`); null where there is none. */
    readonly supplierSuffix: string | null;
  };
  readonly carrier: 'film' | 'print';
  /** What `Page/@PHYSICAL_IMG_NR` of the page text holds. */
  readonly altoImageNumber: 'frame' | 'order' | 'nothing';
  /** Defaults of the programme; the library's agreement goes before them. */
  readonly policies: Partial<Policies>;
  /** Severity at most, by finding code. */
  readonly severityCaps: Readonly<Record<string, Severity>>;
}

/** A rule for one fact in a library's own profile: a bare list is the list of sources. */
export type OwnFactRule = readonly FactSource[] | Partial<FactRule>;

/** A library's own profile: parts put over those of a built-in one, or over nothing. A list replaces a list, an object is laid over the object. */
export interface OwnProfile {
  readonly format: 'reeltally/profile/2';
  readonly name: string;
  /** Name of a built-in profile, or `nothing`. */
  readonly startsFrom: string;
  readonly layout?: LayoutName;
  readonly documents?: Readonly<Partial<Record<DocumentKind, Partial<DocumentRule>>>>;
  readonly divisions?: Readonly<Partial<Record<DivisionPart, Partial<DivisionRule>>>>;
  readonly pagesOfIssue?: Profile['pagesOfIssue'];
  readonly facts?: Readonly<Partial<Record<DocumentPart, Readonly<Partial<Record<FactName, OwnFactRule>>>>>>;
  readonly reelFacts?: readonly string[];
  readonly files?: Partial<FileRules>;
  readonly folders?: Partial<FolderRules>;
  readonly present?: readonly PresentWording[];
  readonly titleKeys?: Readonly<Record<string, string>>;
  readonly laterCopies?: boolean;
  readonly reelNumber?: Partial<Profile['reelNumber']>;
  readonly carrier?: Profile['carrier'];
  readonly altoImageNumber?: Profile['altoImageNumber'];
  readonly policies?: Partial<Policies>;
  readonly severityCaps?: Readonly<Record<string, Severity>>;
}
