import type { ResolvedAgreement } from './agreement.js';
import type { PublicationPattern } from './collation-record.js';

export type Severity = 'critical' | 'major' | 'minor' | 'note';
export type Cause = 'vendor-metadata' | 'vendor-image' | 'film' | 'collation' | 'unclear';
export type Decision = 'accept' | 'accept-with-corrections' | 'return-for-rework' | 'cannot-decide';

/** A saved result. Self-contained: every report renders from it alone. */
export interface Findings {
  readonly format: 'reeltally/findings/1';
  readonly tool: { readonly name: string; readonly version: string };
  readonly run: Run;
  readonly agreement: ResolvedAgreement;
  readonly verdict: { readonly decision: Decision; readonly reasons: readonly string[] };
  readonly counts: Counts;
  readonly titles: readonly ResultTitle[];
  readonly reels: readonly ResultReel[];
  readonly findings: readonly Finding[];
  readonly corrected: readonly Finding[];
  readonly unchecked: readonly Unchecked[];
  readonly catalogue: readonly CatalogueEntry[];
}

export interface Run {
  readonly at: string;
  readonly received: string | null;
  readonly batch: string;
  readonly delivery: number;
  readonly profile: string;
  readonly inputs: readonly Input[];
  /** Choices made while reading, in sentences. */
  readonly remarks: readonly string[];
}

export interface Input {
  readonly role: string;
  readonly name: string;
  readonly sha256: string;
}

export interface Counts {
  readonly reels: readonly ReelCounts[];
  readonly pagesReturned: number;
  readonly pagesMatched: number;
  readonly pagesUnmatched: number;
  readonly differences: number;
  readonly findings: number;
  readonly classes: readonly ClassCount[];
}

export interface ReelCounts {
  readonly reel: string;
  readonly frames: number;
  /** How many frames of each kind and whether they are delivered. */
  readonly kinds: readonly { readonly kind: string; readonly deliver: boolean; readonly count: number }[];
  readonly absent: number;
  readonly returned: number;
  readonly matched: number;
  readonly unmatched: number;
}

export interface ClassCount {
  readonly class: string;
  readonly record: number;
  readonly returned: number;
  readonly accepted: number;
  readonly disputed: number;
}

export interface ResultTitle {
  readonly id: string;
  readonly name: string;
  readonly patterns: readonly PublicationPattern[];
}

export interface ResultReel {
  readonly number: string;
  readonly absent: readonly ResultAbsence[];
  readonly frames: readonly ResultFrame[];
}

export interface ResultAbsence {
  readonly title: string | null;
  readonly date: string | null;
  readonly edition: number | null;
  readonly page: string | null;
  readonly published: 'yes' | 'no' | 'unknown';
}

export interface ResultFrame {
  readonly frame: string | null;
  readonly returned: string | null;
  readonly state: 'agrees' | 'differs' | 'record-only' | 'return-only' | 'not-compared';
  readonly kind: string;
  readonly deliver: boolean;
  readonly title: string | null;
  readonly date: string | null;
  readonly edition: number | null;
  readonly section: string | null;
  readonly page: string | null;
  readonly order: number | null;
  readonly condition: readonly string[];
  readonly sourceReel: string | null;
  readonly duplicateOf: string | null;
  readonly files: readonly { readonly use: string; readonly path: string }[];
  readonly findings: readonly string[];
}

export interface Finding {
  readonly id: string;
  readonly code: string;
  readonly severity: Severity;
  readonly cause: Cause;
  readonly reel: string | null;
  readonly at: string | null;
  readonly frames: FrameRange | null;
  readonly count: number;
  readonly title: string | null;
  readonly date: string | null;
  readonly edition: number | null;
  readonly page: string | null;
  readonly field: string | null;
  readonly collation: string | null;
  readonly return: string | null;
  readonly says: string;
  readonly instruction: string | null;
  readonly evidence: readonly string[];
  readonly alternatives: readonly Alternative[];
  readonly corrections: readonly Correction[];
  readonly places: readonly ResultPlace[];
  readonly rescan: 'yes' | 'no';
  readonly billable: readonly { readonly class: string; readonly change: number }[];
  readonly status?: 'new' | 'open';
  readonly ruling: { readonly decision: string; readonly note: string; readonly by: string; readonly on: string } | null;
  readonly answer: { readonly text: string; readonly on: string } | null;
}

export interface FrameRange {
  readonly from: string;
  readonly to: string;
  /** Given when the frames are not one unbroken run, or lie on two reels (`reel:frame`). */
  readonly list?: readonly string[];
}

export interface Alternative {
  readonly says: string;
  readonly cause: Cause;
  readonly instruction: string | null;
}

export interface Correction {
  readonly reel: string;
  readonly frame: string;
  readonly action: 'set' | 'insert-after' | 'remove' | 'renumber';
  readonly field: string;
  readonly from: string;
  readonly to: string;
}

export interface ResultPlace {
  readonly document?: string;
  readonly element?: string;
  readonly line?: number;
  readonly sheet?: string;
  readonly row?: number;
}

export interface Unchecked {
  readonly what: string;
  readonly why: string;
  readonly frames: FrameRange | null;
  readonly required: boolean;
}

export interface CatalogueEntry {
  readonly code: string;
  readonly group: string;
  readonly title: string;
  readonly why: string;
  readonly severity: Severity;
}
