/** A page as the right return describes it; null for what it must not or need not say. */
export interface DuePage {
  readonly frame: string;
  readonly reel: string;
  readonly section: string | null;
  readonly label: string | null;
  readonly order: number | null;
}

/** A page or issue that the right return names as not on the film. */
export type DuePublished = 'yes' | 'no' | 'unknown';

/** A page that is named as not on the film. */
export interface DueAbsence {
  readonly section: string | null;
  readonly label: string | null;
  readonly order: number | null;
  readonly published: DuePublished;
}

/** An issue of one edition as the right return describes it. */
export interface DueIssue {
  readonly title: string | null;
  readonly titleName: string | null;
  /** As the return gives it: `YYYY-MM-DD`, or what the record has of an uncertain one. */
  readonly date: string | null;
  readonly isCertain: boolean;
  readonly datePrinted: string | null;
  readonly edition: number;
  readonly editionLabel: string | null;
  readonly volume: string | null;
  readonly issueNumber: string | null;
  /** The number of the reel on which it begins, or to which its absence belongs. */
  readonly reel: string;
  /** In the order of the issue. */
  readonly pages: readonly DuePage[];
  readonly absent: readonly DueAbsence[];
  /** Where it is not on the film as a whole. */
  readonly absentAsWhole: DuePublished | null;
}

/** A film as the return numbers it: a carrier, or a reel that was spliced into one. */
export interface DueFilm {
  readonly number: string;
  /** Identifier of the title that its documents are named after. */
  readonly title: string;
  /** Numbers of the targets that the return lists. */
  readonly targets: readonly string[];
  /** Numbers of the frames that lie among the unmatched ones. */
  readonly unmatched: readonly string[];
}

/** The return that would be right, as a list of what is to come. */
export interface ExpectedDelivery {
  readonly issues: readonly DueIssue[];
  readonly films: readonly DueFilm[];
  /** Frames that are to be delivered and for which the layout has no place, by reel and frame. */
  readonly placeless: readonly string[];
}

/** How many times a fact must, may and must not be stated. */
export interface NeedsRow {
  readonly what: string;
  readonly must: number;
  readonly may: number;
  readonly mustNot: number;
  /** The policy that decides, with its value; null where the record or the programme does. */
  readonly policy: string | null;
}

/** What is to come, in numbers. */
export interface ExpectedCounts {
  readonly reels: readonly {
    readonly number: string;
    readonly frames: number;
    readonly deliver: number;
    readonly heldBack: number;
    readonly titles: readonly { readonly title: string; readonly issues: number; readonly pages: number }[];
  }[];
  readonly issues: number;
  readonly absences: { readonly issues: number; readonly pages: number };
}

/** What a price class comes to where everything is accepted. */
export interface ExpectedAmount {
  readonly class: string;
  readonly units: number;
  readonly unitPrice: string | null;
  /** In the currency of the agreement; null without a price. */
  readonly amount: string | null;
}

/** One line of the list of what is to come. */
export interface DueLine {
  readonly folder: string;
  readonly document: string;
  readonly what: 'issue' | 'page' | 'absent page' | 'absent issue' | 'target' | 'unmatched frame';
  readonly reel: string;
  readonly frame: string;
  readonly title: string;
  readonly date: string;
  readonly edition: string;
  readonly section: string;
  readonly page: string;
  readonly order: string;
}

/** The return that would be right, for people. */
export interface ExpectedReport {
  readonly library: string;
  readonly vendor: string;
  /** Name of the profile; null where none was named. */
  readonly profile: string | null;
  readonly counts: ExpectedCounts;
  readonly amounts: readonly ExpectedAmount[];
  readonly sum: string | null;
  readonly currency: string;
  readonly needs: readonly NeedsRow[];
  readonly placeless: readonly string[];
  readonly lines: readonly DueLine[];
}
