import type { Copy, DocumentProblem, FileUse, PageFile, Place } from './film.js';
import type { ReceivedCounts, Unchecked } from './findings.js';
import type { FactName, LayoutName } from './profile.js';

/** Facts as they stand in a document, white space at the ends off and inside collapsed; a fact that is not stated is left out. */
export type WrittenFacts = Readonly<Partial<Record<FactName, string>>>;

/** The same fact written in a second place, not yet understood. */
export interface WrittenCopy {
  readonly fact: Copy['fact'];
  readonly source: string;
  readonly text: string;
  /** What was read as the fact, where this is another statement in the same place. */
  readonly beside?: string;
  readonly place: Place;
}

/** A page section or page document. */
export interface WrittenPage {
  readonly facts: WrittenFacts;
  /** True where what describes the page cannot be read or found, which is a problem of its own: its facts are not missed one by one. */
  readonly undescribed?: boolean;
  /** Place in the issue's structMap, 1, 2, 3 ...; null where the layout has none or the page is not in it. */
  readonly structPosition: number | null;
  readonly files: readonly PageFile[];
  readonly copies: readonly WrittenCopy[];
  readonly place: Place;
}

/** One issue document with its pages. */
export interface WrittenIssue {
  readonly facts: WrittenFacts;
  /** As of a page. */
  readonly undescribed?: boolean;
  readonly pages: readonly WrittenPage[];
  readonly copies: readonly WrittenCopy[];
  /** The folder whose issues lie on one reel, relative to the batch; null where the layout shows none. */
  readonly reelFolder: string | null;
  /** Where the batch came in several folders: in which, from 0, its document lies. */
  readonly folder?: number;
  readonly place: Place;
}

/** One reel document: the reel, its targets, its facts by element name. */
export interface WrittenReel {
  readonly facts: WrittenFacts;
  readonly reelFacts: readonly { readonly name: string; readonly text: string }[];
  readonly targets: readonly WrittenPage[];
  /** True when the document lists its targets one by one. */
  readonly targetsListed: boolean;
  readonly copies: readonly WrittenCopy[];
  readonly reelFolder: string | null;
  readonly place: Place;
}

/** A frame delivered outside any issue; what is known of it is its name. */
export interface WrittenLooseFrame {
  readonly frame: string;
  readonly reel: string;
  readonly reelFolder: string | null;
  readonly files: readonly PageFile[];
  readonly place: Place;
}

/** A document that should be an issue's or a reel's and holds no division of either, with the types of the divisions that it holds. */
export interface UndividedDocument {
  readonly document: string;
  readonly types: readonly string[];
}

/** What the vendor sent, as it stands there. */
export interface WrittenReturn {
  readonly layout: LayoutName;
  /** Name of the batch: the manifest's, else the folder's. */
  readonly batch: string;
  readonly issues: readonly WrittenIssue[];
  readonly reels: readonly WrittenReel[];
  readonly loose: readonly WrittenLooseFrame[];
  /** Uses of which every page that is there must name a file. */
  readonly askedUses: readonly string[];
  /** Uses that most pages name: a page that names no file at all lacks these. */
  readonly usualUses: readonly string[];
  readonly fileUses: readonly FileUse[];
  readonly problems: readonly DocumentProblem[];
  readonly unchecked: readonly Unchecked[];
  readonly remarks: readonly string[];
  /** The account of everything that came. */
  readonly received: ReceivedCounts;
  /** All documents, where the library's own profile finds an issue in none: it may look for the wrong divisions. */
  readonly undivided?: readonly UndividedDocument[];
}
