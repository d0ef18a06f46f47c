import type { Policies } from './agreement.js';
import type { Severity } from './findings.js';

/** How the documents of a return are laid out; each has a reader in src/read/layouts. */
export type LayoutName = 'issue-mets' | 'page-mods';

/** A fact that a document can state and that has a path in a profile. */
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

/** The part of a return that states a fact: an issue, a section object, a page, a target or a reel as a whole. */
export type DocumentPart = 'issue' | 'section' | 'page' | 'target' | 'reel';

/**
 * Where a document keeps its facts: for each fact the paths to try, the first that holds text wins. A path names elements by local
 * name from the MODS root, `relatedItem[@type=host]/identifier[@type=lccn]`; it may test attributes (`[@a]`, `[@a=b]`, `[@a="b c"]`,
 * `[not(@a)]`) and may end in an attribute (`note/@displayLabel`).
 */
export type FactPaths = Readonly<Partial<Record<FactName, readonly string[]>>>;

/**
 * File and folder names, as patterns of plain text and placeholders: `{date}` 1907-03-15, `{day}` 19070315, `{edition}` two digits,
 * `{frame}` digits and perhaps a letter, `{number}` digits, `{lccn}`, and up to two free ones: `{title}` `{reel}` `{batch}` `{label}` `{any}`.
 * Letters count without regard to case. The first pattern that fits wins.
 */
export type NamePatterns = readonly string[];

/** One of the wordings by which a document says that a page or an issue is there or is not. */
export interface PresentWording {
  readonly text: string;
  readonly present: boolean;
  readonly published: 'yes' | 'no' | 'unknown';
}

/** Names of files and folders that carry facts; which of them a layout uses is the layout's. */
export interface ProfileNames {
  readonly manifest: NamePatterns;
  readonly issueDocument: NamePatterns;
  readonly issueFolder: NamePatterns;
  readonly titleFolder: NamePatterns;
  readonly reelDocument: NamePatterns;
  readonly reelFolder: NamePatterns;
  /** Page documents of `page-mods`. */
  readonly pageDocument: NamePatterns;
  /** Page documents of pages that are known to be missing. */
  readonly absentPageDocument: NamePatterns;
  /** Page files whose name carries the frame number. */
  readonly pageFile: NamePatterns;
  readonly unmatchedFolder: NamePatterns;
  readonly unmatchedFile: NamePatterns;
  readonly targetFolder: NamePatterns;
  readonly targetFile: NamePatterns;
  /** The label of an issue document, which repeats its date and edition. */
  readonly label: NamePatterns;
}

/** Where a programme's XML keeps each fact, and what its words mean. */
export interface Profile {
  readonly format: 'reeltally/profile/1';
  readonly name: string;
  readonly layout: LayoutName;
  readonly names: ProfileNames;
  readonly facts: Readonly<Record<DocumentPart, FactPaths>>;
  /** Local names of the elements that hold facts about a reel as a whole. */
  readonly reelFacts: readonly string[];
  /** Files that belong to a page and are named after its document: use and ending. */
  readonly companions: readonly { readonly use: string; readonly ending: string }[];
  readonly present: readonly PresentWording[];
  readonly reelNumber: {
    readonly stripLeadingZeros: boolean;
    /** End of a reel number that the supplier chooses, `#` for a digit (`-##`); null where there is none. */
    readonly supplierSuffix: string | null;
    /** True where the name of a reel's folder is the reel number. */
    readonly folderIsReelNumber: boolean;
  };
  /** What `Page/@PHYSICAL_IMG_NR` of the page text holds. */
  readonly altoImageNumber: 'frame' | 'order' | 'nothing';
  /** Defaults of the programme; the library's agreement goes before them. */
  readonly policies: Partial<Policies>;
  /** Severity at most, by finding code. */
  readonly severityCaps: Readonly<Record<string, Severity>>;
}

/** A library's own profile: a built-in one with parts put in place of its own. */
export interface OwnProfile {
  readonly format: 'reeltally/profile/1';
  readonly name: string;
  readonly startsFrom: LayoutName;
  readonly names?: Partial<ProfileNames>;
  readonly facts?: Partial<Record<DocumentPart, FactPaths>>;
  readonly reelFacts?: readonly string[];
  readonly companions?: Profile['companions'];
  readonly present?: readonly PresentWording[];
  readonly reelNumber?: Partial<Profile['reelNumber']>;
  readonly altoImageNumber?: Profile['altoImageNumber'];
  readonly policies?: Partial<Policies>;
  readonly severityCaps?: Readonly<Record<string, Severity>>;
}
