import type { Account, AccountRelease } from './account.js';
import type { Decision, Finding, Findings, Input } from './findings.js';
import type { InvoiceResult } from './invoice.js';

/** What a judged spot check says about a batch. */
export interface SampleSummary {
  /** The batch and the delivery that it was drawn from. */
  readonly batch: string;
  readonly delivery: number;
  /** The plan in words. */
  readonly plan: string;
  readonly seed: string;
  /** SHA-256 of the list of units before the draw, in lower case. */
  readonly listSha256: string;
  readonly unit: 'page' | 'issue';
  readonly lotSize: number;
  readonly drawn: number;
  readonly nonconforming: number;
  readonly accepted: boolean;
  /** Sentences of the result: error rate, interval, what to widen to. */
  readonly says: readonly string[];
}

/** A spot check as a decision rests on it. */
export interface DecidedSample extends SampleSummary {
  /** Names of the lots that it speaks for. */
  readonly lots: readonly string[];
  /** Drawn by the plan of the agreement. */
  readonly agreed: boolean;
  /** Judged again from its draw and worksheet, with the same result. */
  readonly judgedAgain: boolean;
}

/** A saved result with the file that it was read from. */
export interface Sourced<T> {
  readonly value: T;
  /** Name of the file, without the folder it stood in. */
  readonly name: string;
  /** SHA-256 of its bytes, in lower case. */
  readonly sha256: string;
}

/** What a person may decide about a delivery. */
export type DeliveryDecision = 'accept' | 'accept-with-corrections' | 'return-for-rework' | 'put-off';

/** A draw that was not judged, and the lots that it was to speak for. */
export interface OpenDraw {
  /** Where it lies, as sentences call it. */
  readonly place: string;
  readonly name: string;
  readonly sha256: string;
  readonly lots: readonly string[];
}

/** Everything that a decision rests on; nothing here is read from disk, and nothing here tells the time. */
export interface DecisionInput {
  readonly findings: Sourced<Findings>;
  /** Empty where no spot check was made; one for each lot. */
  readonly samples: readonly Sourced<DecidedSample>[];
  /** Draws from lots of this delivery that nobody judged: a sample that was drawn and put aside. */
  readonly openDraws: readonly OpenDraw[];
  /** Names of the lots that are to be looked at: every reel of which pages came. */
  readonly lots: readonly string[];
  /** The account with this delivery taken in, and not decided yet by this decision; null where none is kept. */
  readonly account: Sourced<Account> | null;
  readonly delivery: DeliveryDecision;
  /** Decimal text; null where nothing is to be released. */
  readonly release: string | null;
  /** Lines that the agreement does not know and that are released too, as the person named them. */
  readonly also: readonly string[];
  readonly reason: string;
  /** Who decides. */
  readonly by: string;
  /** Who stands for it too; null for nobody. */
  readonly second: string | null;
  /** On which day, `YYYY-MM-DD`. */
  readonly on: string;
}

/** A finding that the library ruled on. */
export interface RuledFinding extends Pick<Finding, 'id' | 'code' | 'severity' | 'cause' | 'says'> {
  readonly ruling: NonNullable<Finding['ruling']>;
  /** What is paid for the frames that it would dispute without the ruling, before tax, decimal text; null where that is nothing. */
  readonly money: string | null;
}

/** How long the library had for its answer. */
export interface ReviewPeriod {
  /** When the delivery came in, `YYYY-MM-DD`, or null where the result does not say. */
  readonly received: string | null;
  readonly days: number;
  readonly dayKind: 'calendar' | 'working';
  readonly holidays: readonly string[];
  /** The last day for the answer; null where the day of receipt is not known. */
  readonly due: string | null;
  /** Whether the decision came by that day; null where it is not known. */
  readonly inTime: boolean | null;
}

/** What is released, and what of the account it rests on. */
export interface DecidedRelease {
  readonly currency: string;
  /** Decimal text, tax included. */
  readonly amount: string;
  /** What was due and not released before this decision. */
  readonly due: string;
  /** What is due and not released after it; negative where the vendor owes it. */
  readonly left: string;
  readonly parts: AccountRelease['parts'];
  /** Lines that the agreement does not know, released by name. */
  readonly named: readonly { readonly invoice: string; readonly line: string; readonly text: string; readonly amount: string }[];
}

/** An invoice as it stands by this decision. */
export type DecidedInvoice = Pick<InvoiceResult, 'number' | 'billed' | 'due' | 'difference' | 'released' | 'differences'>;

/** What was decided about one delivery, on what grounds, by whom and when. */
export interface DecisionRecord {
  readonly format: 'reeltally/decision/2';
  readonly library: string;
  readonly vendor: string;
  readonly batch: string;
  readonly deliveryNumber: number;
  readonly by: string;
  readonly second: string | null;
  readonly on: string;
  /** The first part: what becomes of the delivery. */
  readonly delivery: DeliveryDecision;
  /** The second part: the money. Null where no account was given. */
  readonly release: DecidedRelease | null;
  readonly reason: string;
  /** What the program advises, by comparison and spot checks. */
  readonly advice: { readonly decision: Decision; readonly reasons: readonly string[] };
  /** Why a reason and a second name were needed, in sentences; empty where they were not. */
  readonly against: readonly string[];
  /** The verdict of the comparison alone. */
  readonly verdict: { readonly decision: Decision; readonly reasons: readonly string[] };
  readonly review: ReviewPeriod;
  /** Findings that were ruled on, in the order of the result. */
  readonly rulings: readonly RuledFinding[];
  /** How many findings have no ruling. */
  readonly unruled: number;
  readonly samples: readonly DecidedSample[];
  /** Lots of which nobody looked at a sample as agreed. */
  readonly notLookedAt: readonly string[];
  /** What the comparison could not look at. */
  readonly notChecked: readonly { readonly what: string; readonly why: string; readonly required: boolean }[];
  readonly invoices: readonly DecidedInvoice[];
  /** The files that the comparison read, then the results that the decision read. */
  readonly inputs: readonly Input[];
}
