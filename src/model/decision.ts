import type { Decision, Finding, Findings, Input } from './findings.js';
import type { InvoiceDifference, InvoiceResult } from './invoice.js';

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

/** A saved result with the file that it was read from. */
export interface Sourced<T> {
  readonly value: T;
  /** Name of the file, without the folder it stood in. */
  readonly name: string;
  /** SHA-256 of its bytes, in lower case. */
  readonly sha256: string;
}

/** Everything that a decision rests on; nothing here is read from disk, and nothing here tells the time. */
export interface DecisionInput {
  readonly findings: Sourced<Findings>;
  /** Empty where no spot check was made; one for each lot. */
  readonly samples: readonly Sourced<SampleSummary>[];
  readonly invoice: Sourced<InvoiceResult> | null;
  /** Who decides. */
  readonly by: string;
  /** On which day, `YYYY-MM-DD`. */
  readonly on: string;
}

/** A finding that the library ruled on. */
export interface RuledFinding extends Pick<Finding, 'id' | 'code' | 'severity' | 'cause' | 'says'> {
  readonly ruling: NonNullable<Finding['ruling']>;
}

/** What comes of the invoice. */
export interface DecidedInvoice extends Pick<InvoiceResult, 'number' | 'currency' | 'rounding' | 'billed' | 'due' | 'difference'> {
  readonly differences: readonly InvoiceDifference[];
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

/** What was decided about one delivery, on what grounds, by whom and when. */
export interface DecisionRecord {
  readonly format: 'reeltally/decision/1';
  readonly library: string;
  readonly vendor: string;
  readonly batch: string;
  readonly delivery: number;
  readonly by: string;
  readonly on: string;
  /** The verdict of the comparison, or return-for-rework where a spot check failed. */
  readonly decision: Decision;
  readonly reasons: readonly string[];
  /** The verdict of the comparison alone. */
  readonly verdict: { readonly decision: Decision; readonly reasons: readonly string[] };
  readonly review: ReviewPeriod;
  /** Findings that were ruled on, in the order of the result. */
  readonly rulings: readonly RuledFinding[];
  /** How many findings have no ruling. */
  readonly unruled: number;
  readonly samples: readonly SampleSummary[];
  readonly invoice: DecidedInvoice | null;
  /** The files that the comparison read, then the results that the decision read. */
  readonly inputs: readonly Input[];
}
