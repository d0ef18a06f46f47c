import type { DeliveryDecision } from './decision.js';
import type { Decision, Finding, Severity } from './findings.js';

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
  /** Days since the last day, on the day of the ledger, where nothing is decided yet; 0 before that, and once it is decided. */
  readonly overdue: number;
}

/** A finding, as far as the ledger needs it. */
export type LedgerFinding = Pick<Finding, 'id' | 'code' | 'severity' | 'reel' | 'at' | 'says'>;

/** A saved result, as far as the ledger needs it. */
export interface LedgerResult {
  readonly batch: string;
  readonly delivery: number;
  readonly vendor: string;
  readonly at: string;
  readonly received: string | null;
  readonly pages: number;
  readonly severities: Readonly<Record<Severity, number>>;
  readonly since: LedgerDelivery['since'];
  readonly faults: readonly LedgerFault[];
  readonly verdict: Decision;
  readonly review: LedgerReview;
  /** SHA-256 of the earlier results that it was held against. */
  readonly earlier: readonly string[];
  /** Ids of all findings, and of the earlier ones of which it cannot be told whether they were corrected. */
  readonly ids: readonly string[];
  /** Those of both that still ask something of someone. */
  readonly open: readonly LedgerFinding[];
  readonly pending: readonly LedgerFinding[];
}

/** The account of an order, as far as the ledger needs it; amounts are decimal text, tax included. */
export interface LedgerAccount {
  readonly vendor: string;
  readonly currency: string;
  readonly minorDigits: number;
  readonly batches: readonly string[];
  readonly billed: string;
  readonly due: string;
  readonly released: string;
  /** Due and not released; negative where the vendor owes it. */
  readonly open: string;
}

/** The accounts of a vendor in one currency, summed up; amounts are decimal text. */
export interface LedgerMoney {
  readonly currency: string;
  readonly accounts: number;
  readonly billed: string;
  readonly due: string;
  readonly released: string;
  /** Due and not released, of the orders where it is the library's to pay. */
  readonly owed: string;
  /** Claimed back, of the orders where the vendor owes it. */
  readonly credit: string;
}

/** Everything that a ledger is made from, read and told apart. */
export interface LedgerInput {
  /** The day on which it is told. */
  readonly on: string;
  readonly results: readonly (LedgerFile & { readonly value: LedgerResult })[];
  readonly samples: readonly (LedgerFile & { readonly value: LedgerSample })[];
  readonly decisions: readonly (LedgerFile & { readonly value: LedgerDecision })[];
  readonly accounts: readonly (LedgerFile & { readonly value: LedgerAccount })[];
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
export interface LedgerItem extends LedgerFinding {
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
  /** By currency; empty where no account was given. */
  readonly money: readonly LedgerMoney[];
}

/** The deliveries of batches and the batches of vendors over time. */
export interface Ledger {
  readonly format: 'reeltally/ledger/2';
  /** The day on which it was told, `YYYY-MM-DD`: what is overdue is overdue then. */
  readonly on: string;
  readonly files: readonly LedgerFile[];
  readonly vendors: readonly LedgerVendor[];
  /** The lots in order, for the switching rules of a series: only where the ledger is of one vendor, because each has a series of its own. */
  readonly lots?: readonly LedgerLot[];
  /** What was left out and why, in sentences. */
  readonly remarks: readonly string[];
}
