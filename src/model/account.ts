import type { PriceClass, Terms } from './agreement.js';
import type { Decision } from './findings.js';
import type { WrittenInvoice } from './invoice.js';

/** A file by its name, without the folder it stood in, and the SHA-256 of its bytes in lower case. */
export interface NamedFile {
  readonly name: string;
  readonly sha256: string;
}

/** How a unit stands in one delivery: it came and is accepted; it came and a finding disputes it; it was to come and did not. */
export type UnitState = 'accepted' | 'disputed' | 'wanting';

/** Units of one class, reel and state that the same findings name. */
export interface AccountUnits {
  readonly class: string;
  /** Number of the reel; empty where the unit is the batch. */
  readonly reel: string;
  readonly state: UnitState;
  /** Whether the record has them in this class. */
  readonly ordered: boolean;
  /** Ids of the findings that dispute them or tell why they are wanting. */
  readonly findings: readonly string[];
  /** Frame numbers in film order; `reel` or `batch` where that is the unit. One that stands for a surplus page begins with `+`. */
  readonly frames: readonly string[];
}

/** Frames that were scanned again and are mended in this delivery. */
export interface AccountRescan {
  readonly finding: string;
  readonly says: string;
  readonly reel: string;
  readonly frames: readonly string[];
  /** Who pays: the library where film or record were the cause, else the vendor. */
  readonly cost: 'library' | 'vendor';
}

/** What a person decided about a delivery. */
export interface AccountDecision {
  readonly is: 'accept' | 'accept-with-corrections' | 'return-for-rework';
  readonly by: string;
  readonly second: string | null;
  readonly on: string;
}

/** One delivery of a batch, as a result tells of it. */
export interface AccountDelivery {
  readonly batch: string;
  readonly delivery: number;
  readonly received: string | null;
  readonly reviewDay: string | null;
  readonly verifiedAt: string;
  readonly result: NamedFile;
  /** What the program advised. */
  readonly verdict: Decision;
  /** Null until a person has decided. */
  readonly decision: AccountDecision | null;
  /** Numbers of the reels that were compared. */
  readonly reels: readonly string[];
  readonly units: readonly AccountUnits[];
  readonly rescans: readonly AccountRescan[];
  /** Groups of frames that are held back, which vendors sometimes count as pages. */
  readonly heldBack: readonly { readonly words: string; readonly count: number }[];
  /** What the findings named here say. */
  readonly findings: readonly { readonly id: string; readonly says: string }[];
}

/** An invoice that was taken into the account. */
export interface AccountInvoice extends WrittenInvoice {
  readonly file: NamedFile;
}

/** Frames of one line that a release paid in full. */
export interface ReleasedFrames {
  readonly invoice: string;
  readonly line: string;
  readonly class: string;
  readonly reel: string;
  /** As in the units; `again:N:` before a frame that was scanned again for delivery N. */
  readonly frames: readonly string[];
}

/** Money that a person released. */
export interface AccountRelease {
  readonly on: string;
  readonly by: string;
  readonly second: string | null;
  readonly reason: string;
  readonly batch: string;
  readonly delivery: number;
  /** Decimal text, tax included. */
  readonly amount: string;
  /** What of it went to which invoice; `invoice` is null for what was released beyond all that was due. */
  readonly parts: readonly { readonly invoice: string | null; readonly amount: string }[];
  /** Lines that the agreement does not know, released by name. */
  readonly named: readonly { readonly invoice: string; readonly line: string }[];
  readonly frames: readonly ReleasedFrames[];
  /** Frames that an earlier release paid, that are accepted no longer, and whose money this release takes back. */
  readonly takenBack: readonly ReleasedFrames[];
}

/** What is true of some frames of one class together. */
export interface AccountFrames {
  readonly reel: string;
  readonly frames: readonly string[];
  readonly ordered: boolean;
  /** Numbers of the deliveries in which they came, were accepted and were disputed, and by what. */
  readonly came: readonly number[];
  readonly accepted: readonly number[];
  readonly disputed: readonly { readonly delivery: number; readonly findings: readonly string[] }[];
  /** The delivery since which they are due; null while they are not. */
  readonly dueSince: number | null;
  readonly billed: readonly { readonly invoice: string; readonly line: string }[];
  readonly released: readonly { readonly invoice: string; readonly line: string }[];
}

/** One price class in the account. */
export interface AccountClass {
  readonly class: string;
  readonly charge: string;
  readonly ordered: number;
  readonly came: number;
  readonly accepted: number;
  readonly disputed: number;
  /** Billed less credited. */
  readonly billed: number;
  readonly due: number;
  /** Due and on no invoice yet. */
  readonly notBilled: number;
  readonly released: number;
  /** Released and no longer accepted, less what was credited. */
  readonly creditClaimed: number;
  readonly units: readonly AccountFrames[];
}

/** The money of the whole account, decimal text, tax included. */
export interface AccountSums {
  readonly billed: string;
  readonly due: string;
  readonly released: string;
  /** Due and not released; negative where the vendor owes it. */
  readonly open: string;
  /** Lines that the agreement does not know and nobody released. */
  readonly notAgreed: string;
}

/** What was ordered, came, is accepted, billed and released, over all deliveries and invoices of an order. */
export interface Account {
  readonly format: 'reeltally/account/1';
  readonly library: string;
  readonly vendor: string;
  readonly currency: string;
  readonly minorDigits: number;
  readonly payOn: Terms['payOn'];
  readonly prices: readonly PriceClass[];
  readonly deliveries: readonly AccountDelivery[];
  readonly invoices: readonly AccountInvoice[];
  readonly releases: readonly AccountRelease[];
  /** Made from the rest, for readers and other programs. */
  readonly classes: readonly AccountClass[];
  readonly sums: AccountSums;
}
