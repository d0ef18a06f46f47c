import type { Severity } from './findings.js';
import type { FrameKind } from './collation-record.js';

/** What the library ordered and on what terms, as written; every part may be left out. */
export interface Agreement {
  readonly format: 'reeltally/agreement/1';
  readonly library?: string;
  readonly vendor?: string;
  readonly policies?: Partial<Policies>;
  readonly tolerances?: Partial<Tolerances>;
  /** Severity by finding code, where the library wants another than the usual one. */
  readonly severities?: Readonly<Record<string, Severity>>;
  readonly required?: readonly Check[];
  readonly terms?: Partial<Terms>;
  readonly sampling?: Partial<Sampling>;
  /** Header dictionary: the library's own column head -> ours. */
  readonly columns?: Readonly<Record<string, string>>;
}

/** The same with every default filled in. */
export interface ResolvedAgreement {
  readonly format: 'reeltally/agreement/1';
  readonly library: string;
  readonly vendor: string;
  readonly policies: Policies;
  readonly tolerances: Tolerances;
  readonly severities: Readonly<Record<string, Severity>>;
  readonly required: readonly Check[];
  readonly terms: Terms;
  readonly sampling: Sampling;
  readonly columns: Readonly<Record<string, string>>;
}

export type Check = 'pairing' | 'deliver' | 'title' | 'date' | 'edition' | 'page' | 'order';

export interface Policies {
  readonly pageNumber: 'intended' | 'printed' | 'either';
  readonly unnumberedPage: 'either' | 'omit' | 'supply';
  readonly printedDate: 'required' | 'optional' | 'never';
  readonly absentPages: 'stated' | 'omitted' | 'either';
  readonly absentIssues: 'either' | 'stated' | 'omitted';
  readonly frameNumbers: 'gaps-allowed' | 'unbroken';
  readonly targets: 'either' | 'listed' | 'not-listed';
  readonly editionOrder: 'intended' | 'filmed';
  readonly splitExposures: 'lettered' | 'separate';
  readonly reelNumber: 'carrier' | 'source';
  readonly files: 'if-present' | 'required';
  readonly redelivery: 'whole' | 'named-items';
}

export interface Tolerances {
  /** Share of delivered pages under a major finding above which the batch goes back. */
  readonly majorShare: number;
  /** Share of delivered pages under a minor finding above which corrections are asked for. */
  readonly minorShare: number;
}

export interface Terms {
  readonly reviewDays: number;
  readonly reviewDayKind: 'calendar' | 'working';
  readonly holidays: readonly string[];
  /** ISO 4217 code, or empty. */
  readonly currency: string;
  readonly rounding: 'half-up';
  readonly classes: readonly PriceClass[];
}

export interface PriceClass {
  readonly class: string;
  readonly kind: readonly FrameKind[];
  readonly deliver: boolean;
  readonly includes?: 'duplicates' | 'rescans' | 'per-reel';
  /** Decimal text, such as `0.32`. */
  readonly unitPrice?: string;
}

export interface Sampling {
  readonly plan: 'limiting-quality' | 'acceptance-quality-limit' | 'share';
  readonly level: string;
  readonly aql: string;
  readonly limitingQuality: string;
  readonly risk: string;
  readonly unit: 'page' | 'issue';
}
