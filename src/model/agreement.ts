// Generated from schemas/agreement.schema.json by `npm run generate`: change the schema, not this file.
import type { FrameKind } from './collation-record.js';
import type { Severity } from './findings.js';

/** What the library ordered and on what terms; every part may be left out and then has its stated default. */
export interface Agreement {
  /** Name and version of this format. */
  readonly format: 'reeltally/agreement/2';
  /** Name of the library. */
  readonly library?: string;
  /** Name of the vendor. */
  readonly vendor?: string;
  /** How the facts are to be given; what is left out has the default of the profile, else the stated one. */
  readonly policies?: Partial<Policies>;
  /** How much may be wrong before the batch goes back. */
  readonly tolerances?: Partial<Tolerances>;
  /** Severity by finding code, where the library wants another than the usual one. */
  readonly severities?: {
    readonly [k: string]: Severity;
  };
  /** Checks that must have been made before a batch can be accepted. */
  readonly required?: readonly Check[];
  /** Review time and prices. */
  readonly terms?: Partial<Terms>;
  /** How spot checks are drawn. */
  readonly sampling?: Partial<Sampling>;
}

/** An agreement with every default filled in. */
export interface ResolvedAgreement {
  /** Name and version of this format. */
  readonly format: 'reeltally/agreement/2';
  /** Name of the library. */
  readonly library: string;
  /** Name of the vendor. */
  readonly vendor: string;
  /** Every policy with the value that holds. */
  readonly policies: Policies;
  /** The tolerances that hold. */
  readonly tolerances: Tolerances;
  /** Severity by finding code, where the library wants another than the usual one. */
  readonly severities: {
    readonly [k: string]: Severity;
  };
  /** Checks that must have been made before a batch can be accepted. */
  readonly required: readonly Check[];
  /** The terms that hold. */
  readonly terms: Terms;
  /** The sampling that holds. */
  readonly sampling: Sampling;
}

/** A check that can be required. */
export type Check = 'pairing' | 'deliver' | 'title' | 'date' | 'edition' | 'page' | 'order';

/** Every policy: how the facts are to be given in the return. */
export interface Policies {
  /** Which page label the return must give: the one the library wants (`intended`), the one on the paper (`printed`), or either. */
  readonly pageNumber: 'intended' | 'printed' | 'either';
  /** What the return gives where nothing is printed: no label (`omit`), the label the library wants (`supply`), or either. */
  readonly unnumberedPage: 'either' | 'omit' | 'supply';
  /** Whether the return must give the date on the paper beside the real one where they differ. */
  readonly printedDate: 'required' | 'optional' | 'never';
  /** Whether the return must state pages known to be absent. */
  readonly absentPages: 'stated' | 'omitted' | 'either';
  /** Whether the return must state whole issues known to be absent. */
  readonly absentIssues: 'either' | 'stated' | 'omitted';
  /** Whether the numbers of delivered frames may skip those that are held back (`gaps-allowed`) or run on without a hole (`unbroken`). */
  readonly frameNumbers: 'gaps-allowed' | 'unbroken';
  /** Whether the return lists the targets on the reel. */
  readonly targets: 'either' | 'listed' | 'not-listed';
  /** Editions numbered as published (`intended`) or in the order in which they stand on the film (`filmed`). */
  readonly editionOrder: 'intended' | 'filmed';
  /** The two halves of one exposure share a number with letters (`lettered`) or have a number each (`separate`). */
  readonly splitExposures: 'lettered' | 'separate';
  /** Which reel number the return carries where reels were spliced: that of the carrier or that of the source reel. */
  readonly reelNumber: 'carrier' | 'source';
  /** Whether files that are not in this copy of the batch may be left unlooked-at (`if-present`) or must be there (`required`). */
  readonly files: 'if-present' | 'required';
  /** Whether the vendor sends a batch again as a whole or only the named items. */
  readonly redelivery: 'whole' | 'named-items';
}

/** Every tolerance. */
export interface Tolerances {
  /** Share of delivered pages with a major finding above which the batch goes back: 0.01 is 1 %. */
  readonly majorShare: number;
  /** Share of delivered pages with a minor finding above which corrections are asked for. */
  readonly minorShare: number;
}

/** Every term. */
export interface Terms {
  /** Days the library has for its answer after a delivery is received. */
  readonly reviewDays: number;
  /** Whether review days are calendar days or working days (Monday to Friday without holidays). */
  readonly reviewDayKind: 'calendar' | 'working';
  /** Days that are not working days, `YYYY-MM-DD`. */
  readonly holidays: readonly string[];
  /** ISO 4217 code, or empty. */
  readonly currency: string;
  /** What is paid when: `accepted`, only on deliveries that are accepted or accepted with corrections; `accepted-pages`, also the accepted frames of a delivery that goes back for rework. */
  readonly payOn: 'accepted' | 'accepted-pages';
  /** Each line of an invoice is rounded to the minor unit of the currency, halves away from zero. */
  readonly rounding: 'half-up';
  /** What is billed, class by class. */
  readonly classes: readonly PriceClass[];
}

/** One line of the price list and the frames that it is billed for. */
export interface PriceClass {
  /** Name of the class as it stands on the invoice. */
  readonly class: string;
  /** Kinds of frame that it covers. */
  readonly kind: readonly FrameKind[];
  /** true: delivered frames; false: frames that are held back. */
  readonly deliver: boolean;
  /** What else is billed in this class: duplicates that are held back, or frames that were scanned again at the library's cost. */
  readonly includes?: 'duplicates' | 'rescans';
  /** What is paid for, such as `scan` (the default) or `text`. A frame is paid once for each charge. */
  readonly charge?: string;
  /** What is counted: `frame` (the default), or once for the order each `reel` or the `batch`, when its first frame is accepted. */
  readonly per?: 'frame' | 'reel' | 'batch';
  /** true (the default): the unit price is without tax; false: tax is in it. */
  readonly net?: boolean;
  /** Price of one, decimal text such as `0.32`. */
  readonly unitPrice?: string;
}

/** Every choice about spot checks. */
export interface Sampling {
  /** How the sample is sized: `limiting-quality` for one delivery by itself, `acceptance-quality-limit` by the published tables for a series, `share` for a fixed share of the lot. */
  readonly plan: 'limiting-quality' | 'acceptance-quality-limit' | 'share';
  /** Inspection level of the published tables. */
  readonly level: 'I' | 'II' | 'III' | 'S-1' | 'S-2' | 'S-3' | 'S-4';
  /** Acceptance quality limit in percent, as the tables head their columns. */
  readonly aql: string;
  /** Share of wrong units, in percent, that the sample must be unlikely to let through. */
  readonly limitingQuality: string;
  /** Highest chance of accepting a lot at the limiting quality: `0.05` is 5 %. */
  readonly risk: string;
  /** What is drawn and judged: `page` for facts of a page, `issue` for facts that a whole issue shares. */
  readonly unit: 'page' | 'issue';
}
