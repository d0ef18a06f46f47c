/** What is drawn and judged: a page for facts of a page, an issue for facts that all its pages share. */
export type SampleUnit = 'page' | 'issue';

/** Inspection levels of the published tables. */
export type InspectionLevel = 'I' | 'II' | 'III' | 'S-1' | 'S-2' | 'S-3' | 'S-4';

/** How strict a series of lots is inspected at present. */
export type Severity = 'normal' | 'tightened' | 'reduced';

/** What every plan says: how many units to draw from a lot of `lot`, and what number of wrong ones decides. */
export interface PlanNumbers {
  readonly lot: number;
  /** Units to draw; equal to `lot` where every unit is looked at. */
  readonly size: number;
  /** The lot passes with at most this many wrong units. */
  readonly accept: number;
  /** The lot fails with at least this many; more than `accept + 1` in reduced inspection alone. */
  readonly reject: number;
}

/** A plan for one lot by itself: a lot at the limit passes with no more than `risk`. */
export interface LimitingQualityPlan extends PlanNumbers {
  readonly kind: 'limiting-quality';
  /** The limit in percent, as agreed. */
  readonly limit: string;
  /** The least count of wrong units that is at least the limit of this lot. */
  readonly limitCount: number;
  /** The highest chance of passing that was asked for: `0.05` is 5 %. */
  readonly risk: string;
  /** The chance that a lot with `limitCount` wrong units passes under this plan. */
  readonly passes: number;
}

/** A plan looked up in the tables of MIL-STD-105E. */
export interface TablePlan extends PlanNumbers {
  readonly kind: 'acceptance-quality-limit';
  readonly level: InspectionLevel;
  readonly severity: Severity;
  /** Acceptance quality limit in percent, as the tables head their columns. */
  readonly aql: string;
  /** Code letter of the lot's size, and the letter whose row the arrows lead to. */
  readonly letter: string;
  readonly usedLetter: string;
  /** Size printed in that row, which may be more than the lot holds. */
  readonly printedSize: number;
  /** On what the cell rests: two or more independent transcriptions, one alone, or memory. */
  readonly rests: 'several-sources' | 'one-source' | 'memory';
}

/** A fixed share of the lot, but at least so many; with the chance that it lets a stated error rate pass. */
export interface SharePlan extends PlanNumbers {
  readonly kind: 'share';
  readonly percent: string;
  readonly atLeast: number;
  /** The stated error rate in percent, the least count that is at least that rate, and the chance that such a lot passes. */
  readonly stated: string;
  readonly statedCount: number;
  readonly passes: number;
}

export type SamplePlan = LimitingQualityPlan | TablePlan | SharePlan;

/** Why something cannot be done, in sentences: what stands there and what to do. */
export interface Refused {
  readonly refused: readonly string[];
}

/** One point of an operating curve: the chance that a lot with so many wrong units passes. */
export interface CurvePoint {
  readonly wrong: number;
  readonly share: number;
  readonly passes: number;
}

/** A unit that can be drawn. */
export interface ListedUnit {
  /** Name of the unit, one of its kind in the lot, on one line. */
  readonly id: string;
  /** The issue that it belongs to; the unit's own id where the unit is the issue. */
  readonly issue: string;
  /** How many pages of that issue lie in the lot. */
  readonly pages: number;
}

/** So many issues of a lot have so many pages in it. */
export interface IssueSize {
  readonly pages: number;
  readonly issues: number;
}

/** A drawn unit: its number in the list, from 1, and the counter that drew it (null where all are taken). */
export interface DrawnUnit extends ListedUnit {
  readonly number: number;
  readonly counter: number | null;
}

/** A unit to look at for a reason, beside the random ones and outside their arithmetic. */
export interface ExtraUnit extends ListedUnit {
  readonly number: number;
  readonly reasons: readonly string[];
}

/** A draw that anyone can make again from the seed and the list. */
export interface Draw {
  readonly unit: SampleUnit;
  readonly plan: SamplePlan;
  readonly seed: string;
  /** SHA-256 of the list of ids, each followed by a line feed, in lower case. */
  readonly listSha256: string;
  /** How large the issues of the lot are, by rising size: what carries a count of pages over to issues. */
  readonly issues: readonly IssueSize[];
  readonly drawn: readonly DrawnUnit[];
  /** Where the counter stopped; 0 where all are taken. */
  readonly lastCounter: number;
  readonly extras: readonly ExtraUnit[];
}

/** What a person is asked about a unit; each is answered yes when all is well. */
export type SampleQuestion = 'right-date' | 'right-issue' | 'right-page' | 'right-order' | 'complete' | 'legible';

/** One row of a worksheet as it came back. */
export interface AnsweredUnit {
  /** The code of the draw that it belongs to; a worksheet may hold those of several lots. */
  readonly draw: string;
  readonly number: number;
  readonly id: string;
  readonly answers: readonly { readonly question: SampleQuestion; readonly answer: 'yes' | 'no' | null }[];
}

/** Counts of wrong units in the lot that the sample does not contradict, both ends included. */
export interface CountInterval {
  readonly low: number;
  readonly high: number;
}

/** Error rates between 0 and 1. */
export interface RateInterval {
  readonly low: number;
  readonly high: number;
}

/** What became of a lot's sample. */
export interface JudgedSample {
  readonly draw: Pick<Draw, 'unit' | 'plan' | 'seed' | 'listSha256'>;
  readonly drawn: number;
  readonly wrong: number;
  readonly outcome: 'accepted' | 'accepted-back-to-normal' | 'rejected';
  readonly byQuestion: readonly { readonly question: SampleQuestion; readonly wrong: number }[];
  /** Issues that the drawn units belong to, and how many of them hold a wrong unit. */
  readonly issues: { readonly seen: number; readonly wrong: number };
  readonly rate: number;
  /** 95 %, exact for the finite lot. */
  readonly interval: CountInterval;
  /** 95 %, one-sided: no more wrong units than this. */
  readonly atMost: number;
  /** 95 %, Clopper-Pearson: as if the lot had no end. */
  readonly endless: RateInterval;
  /** Wrong ones among the extras, outside the arithmetic. */
  readonly extras: { readonly seen: number; readonly wrong: number };
  readonly wrongUnits: readonly string[];
  readonly says: readonly string[];
}

/** What happened to one lot of a series, in order. Lots sent in again after rework do not count and are not listed. */
export interface SeriesLot {
  readonly accepted: boolean;
  /** Accepted in reduced inspection with more wrong units than the acceptance number. */
  readonly betweenNumbers?: boolean;
  /** Work became irregular or was delayed before this lot. */
  readonly irregular?: boolean;
  /** The vendor mended what was wrong and inspection was taken up again before this lot. */
  readonly resumed?: boolean;
}

/** The lots before this one, and whether reduced inspection is open to the series. */
export interface Series {
  readonly lots: readonly SeriesLot[];
  /** Reduced inspection is wanted, work is steady, and the parties dropped the limit numbers. */
  readonly reducedAgreed: boolean;
}

/** How the next lot is inspected, and why. */
export interface Standing {
  readonly severity: Severity | 'discontinued';
  readonly because: string;
}

/** What a lot is: one reel, or the batch as one. */
export interface LotName {
  readonly by: 'reel' | 'batch';
  /** Number of the reel, or name of the batch. */
  readonly name: string;
}

/** A file that something was made from. */
export interface SourceFile {
  /** Its name, without the folder it stood in. */
  readonly name: string;
  /** SHA-256 of its bytes, in lower case. */
  readonly sha256: string;
}

/** When something was done, and by whom (empty where nobody said). */
export interface Done {
  readonly at: string;
  readonly by: string;
}

/** From which list and by which plan a sample will be drawn: fixed before the seed is thrown. */
export interface FixedPlan {
  readonly format: 'reeltally/plan/1';
  readonly batch: string;
  readonly delivery: number;
  readonly lot: LotName;
  /** The saved result that the list was made from. */
  readonly findings: SourceFile;
  readonly unit: SampleUnit;
  readonly plan: SamplePlan;
  /** The lots before, where a table plan followed the switching rules; else null. */
  readonly series: Series | null;
  /** The plan is the one that the agreement names. */
  readonly agreed: boolean;
  /** How many draws from the same list there were before. */
  readonly before: number;
  /** Why another plan than the agreed one, or why the list is drawn from again; empty where neither is so. */
  readonly reason: string;
  readonly listSha256: string;
  /** Units to look at beside the sample, with the reasons. */
  readonly beside: readonly { readonly id: string; readonly reason: string }[];
  readonly fixed: Done;
}

/** A draw as it is kept in a file: with what it was drawn from. */
export interface SavedDraw extends Draw {
  readonly format: 'reeltally/draw/2';
  readonly batch: string;
  readonly delivery: number;
  readonly lot: LotName;
  /** The saved result that the list was made from. */
  readonly findings: SourceFile;
  /** The lots before, where a table plan followed the switching rules; else null. */
  readonly series: Series | null;
  readonly agreed: boolean;
  readonly before: number;
  readonly reason: string;
  /** When list and plan were fixed; null where nothing shows that it was before the seed was thrown. */
  readonly fixed: Done | null;
  /** When the seed was given. */
  readonly thrown: Done;
}

/** One row of a saved worksheet. */
export interface SavedAnswers extends AnsweredUnit {
  /** What the person wrote about the unit; may be empty. */
  readonly note: string;
}

/** A worksheet filled in, as the page saves it. */
export interface SavedWorksheet {
  readonly format: 'reeltally/worksheet/2';
  /** Who looked; may be empty. */
  readonly by: string;
  readonly rows: readonly SavedAnswers[];
}

/** What one person answered in one worksheet. */
export interface Reading {
  /** Who looked; empty where nobody said. */
  readonly by: string;
  /** The worksheet, as sentences call it. */
  readonly file: string;
  readonly rows: readonly SavedAnswers[];
}

/** Who looked at how many units. */
export interface Reader {
  readonly by: string;
  readonly units: number;
}

/** A question that readers of one unit answer differently; it counts as answered no until they agree. */
export interface ReadersDisagree {
  readonly id: string;
  readonly question: SampleQuestion;
  readonly yes: readonly string[];
  readonly no: readonly string[];
}

/** The answers of all who looked, as one. */
export interface MergedReadings {
  /** A row for each unit of the draw, every question answered. */
  readonly rows: readonly SavedAnswers[];
  readonly readers: readonly Reader[];
  /** Units at which more than one person looked. */
  readonly twice: number;
  readonly disagree: readonly ReadersDisagree[];
}

/** A unit that is not as ordered, and in what. */
export interface WrongUnit {
  readonly id: string;
  readonly issue: string;
  /** Drawn at random, and so counted; or looked at for a reason. */
  readonly random: boolean;
  readonly questions: readonly SampleQuestion[];
  /** Codes of what is wrong, as the vendor's list names it. */
  readonly codes: readonly string[];
  readonly note: string;
}

/** What a sample saw of a count of the lot, and what the lot may hold. */
export interface CountedWrong {
  readonly lot: number;
  readonly seen: number;
  readonly wrong: number;
  /** 95 %, both ends included. */
  readonly interval: CountInterval;
}

/** Facts that all pages of an issue share, counted in pages and in issues: exact for what was drawn, carried over to the other by the sizes of the issues. */
export interface SharedFacts {
  readonly questions: readonly SampleQuestion[];
  readonly drawn: SampleUnit;
  /** A page is wrong here where any drawn page of its issue is. */
  readonly pages: CountedWrong;
  readonly issues: CountedWrong;
}

/** A judged sample as it is kept in a file. */
export interface SavedSample extends JudgedSample {
  readonly format: 'reeltally/sample/2';
  readonly batch: string;
  readonly delivery: number;
  readonly lot: LotName;
  /** Who looked where a worksheet names nobody; may be empty. */
  readonly by: string;
  /** When list and plan were fixed and the seed was given; the reason for another plan or another draw. */
  readonly agreed: boolean;
  readonly before: number;
  readonly reason: string;
  readonly fixed: Done | null;
  readonly thrown: Done;
  readonly readers: readonly Reader[];
  readonly twice: number;
  readonly disagree: readonly ReadersDisagree[];
  readonly wrongOnes: readonly WrongUnit[];
  readonly shared: SharedFacts;
  /** Issues to look at whole when the lot is rejected, in the order of the list; empty where it passes. */
  readonly widenTo: readonly string[];
  /** How the next lot is inspected by the switching rules; null for other plans or without a history. */
  readonly next: Standing | null;
  /** The draw and the worksheets. */
  readonly inputs: readonly (SourceFile & { readonly role: string })[];
}
