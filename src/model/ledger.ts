import type { DeliveryDecision } from './decision.js';
import type { Decision, Finding, Findings, Severity } from './findings.js';

/** A file that the ledger was made from. */
export interface LedgerFile {
  /** Its name, without the folder it stood in. */
  readonly name: string;
  /** SHA-256 of its bytes, in lower case. */
  readonly sha256: string;
  readonly format: string;
}

/** A judged spot check, as far as the ledger needs it. */
export interface LedgerSample {
  readonly batch: string;
  readonly delivery: number;
  /** Name of the lot; empty where the file does not say. */
  readonly lot: string;
  readonly drawn: number;
  readonly wrong: number;
  readonly accepted: boolean;
  /** Accepted in reduced inspection with more wrong units than the acceptance number. */
  readonly betweenNumbers: boolean;
  /** Seed and list of the draw: the same draw is the same sample, in whatever file it stands. */
  readonly draw: string;
}

/** A decision, as far as the ledger needs it. */
export interface LedgerDecision {
  readonly batch: string;
  readonly delivery: number;
  readonly decision: DeliveryDecision;
  readonly by: string;
  /** `YYYY-MM-DD`. */
  readonly on: string;
  readonly review: LedgerReview;
  readonly samples: readonly LedgerSample[];
}

/** How long the library had for its answer, and how much of it was used. */
export interface LedgerReview {
  /** The last day, `YYYY-MM-DD`; null where the day of receipt is not known. */
  readonly due: string | null;
  readonly days: number;
  readonly dayKind: 'calendar' | 'working';
  /** Days used when it was decided; null before that, or where the day of receipt is not known. */
  readonly used: number | null;
  readonly inTime: boolean | null;
}

/** Everything that a ledger is made from, read and told apart. */
export interface LedgerInput {
  readonly results: readonly (LedgerFile & { readonly value: Findings; readonly review: LedgerReview })[];
  readonly samples: readonly (LedgerFile & { readonly value: LedgerSample })[];
  readonly decisions: readonly (LedgerFile & { readonly value: LedgerDecision })[];
}

/** Faults of one code: findings whose cause is not the film or the record, that count and are more than a note. */
export interface LedgerFault {
  readonly group: string;
  readonly code: string;
  readonly findings: number;
  /** Frames that they affect. */
  readonly frames: number;
  /** Findings for each 1,000 pages that came, to two decimals; null where none came. */
  readonly perThousand: number | null;
}

/** One delivery of a batch. */
export interface LedgerDelivery {
  /** Name of the batch in this delivery. */
  readonly batch: string;
  readonly delivery: number;
  readonly file: string;
  readonly verifiedAt: string;
  readonly received: string | null;
  readonly pages: number;
  /** Findings by severity, ruled or not. */
  readonly severities: Readonly<Record<Severity, number>>;
  /** How the findings stand to the delivery before; null where the result was not held against one. */
  readonly since: { readonly corrected: number; readonly open: number; readonly new: number; readonly pending: number } | null;
  readonly faults: readonly LedgerFault[];
  /** What the comparison advised. */
  readonly verdict: Decision;
  readonly decision: { readonly decision: DeliveryDecision; readonly by: string; readonly on: string } | null;
  readonly review: LedgerReview;
  readonly samples: readonly LedgerSample[];
}

/** Something that is not settled after the last delivery. */
export interface LedgerItem extends Pick<Finding, 'id' | 'code' | 'severity' | 'reel' | 'at' | 'says'> {
  /** The delivery since which it is known, as far as the results given tell. */
  readonly since: number;
  /** `pending` is an earlier finding of which it cannot be told whether it was corrected. */
  readonly state: 'open' | 'pending';
}

/** A batch with its deliveries in order. */
export interface LedgerBatch {
  readonly batch: string;
  readonly deliveries: readonly LedgerDelivery[];
  readonly items: readonly LedgerItem[];
}

/** One lot of a vendor's series: the spot check of a first delivery. */
export interface LedgerLot {
  readonly batch: string;
  readonly lot: string;
  readonly accepted: boolean;
  readonly betweenNumbers: boolean;
}

/** A vendor with its batches in the order in which they came. */
export interface LedgerVendor {
  readonly vendor: string;
  readonly batches: readonly LedgerBatch[];
  /** Pages and faults of all first deliveries together: what came before anybody asked for corrections. */
  readonly pages: number;
  readonly faults: readonly LedgerFault[];
  readonly lots: readonly LedgerLot[];
}

/** The deliveries of batches and the batches of vendors over time. */
export interface Ledger {
  readonly format: 'reeltally/ledger/1';
  readonly files: readonly LedgerFile[];
  readonly vendors: readonly LedgerVendor[];
  /** The lots in order, for the switching rules of a series: only where the ledger is of one vendor, because each has a series of its own. */
  readonly lots?: readonly LedgerLot[];
  /** What was left out and why, in sentences. */
  readonly remarks: readonly string[];
}
