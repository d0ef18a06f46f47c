/** must: not there is a difference. may: either is right. must-not: there is a difference. */
export type Needs = 'must' | 'may' | 'must-not';

/** One reading of a fact: the form in which it is compared, and the words of whoever wrote it. */
export interface Reading {
  readonly key: string;
  readonly text: string;
}

/** One fact of the right return. `right` holds every reading that is right; empty where the record makes no statement. */
export interface ExpectedFact {
  readonly needs: Needs;
  readonly right: readonly Reading[];
}

/** Facts of one frame that the return can state. */
export type FrameFact = 'number' | 'reel' | 'page' | 'order' | 'section';

/** Facts of an issue as a whole. */
export type IssueFact = 'title' | 'date' | 'datePrinted' | 'edition' | 'editionLabel' | 'volume' | 'issueNumber';

/** Whether the return must, may or must not state each fact, by the programme's profile; what is not named must be stated. */
export type StatedFacts = Readonly<Partial<Record<FrameFact | IssueFact, Needs>>>;

/** One frame of the record as the right return shows it. */
export interface ExpectedFrame {
  /** Whether it comes as a page of an issue. */
  readonly delivered: Needs;
  /** Whether it is listed as a target; `with-others`: where the return lists any target of the reel. */
  readonly listed: Needs | 'with-others';
  readonly facts: Readonly<Record<FrameFact, ExpectedFact>>;
}

/** A reel of the record as the right return shows it; `facts` about it as a whole are compared where both sides give them. */
export interface ExpectedReel {
  readonly frames: readonly ExpectedFrame[];
  readonly facts: Readonly<Record<string, ExpectedFact>>;
}

/** An absence of the record: whether the return states it, and what it may say of publication. */
export interface ExpectedAbsence {
  readonly stated: Needs;
  readonly published: ExpectedFact;
}

/** The return that would be right. Reels, issues, frames and absences stand in the order of the record's own. */
export interface ExpectedReturn {
  readonly reels: readonly ExpectedReel[];
  readonly issues: readonly Readonly<Record<IssueFact, ExpectedFact>>[];
  readonly absences: readonly ExpectedAbsence[];
}
