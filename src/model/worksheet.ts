import type { CurvePoint, LotName, SampleQuestion, SampleUnit } from './sample.js';

/** A page as the person who looks should find it: what the record says of it, else what the vendor sent. */
export interface ExpectedPage {
  readonly reel: string;
  /** The record's frame number, or null. */
  readonly frame: string | null;
  /** The return's frame number, or null. */
  readonly returned: string | null;
  /** Id and name of the title; empty where none is known. */
  readonly title: string;
  readonly titleName: string;
  readonly date: string | null;
  readonly edition: number | null;
  readonly section: string | null;
  readonly page: string | null;
  readonly order: number | null;
  readonly condition: readonly string[];
  readonly files: readonly { readonly use: string; readonly path: string }[];
}

/** A unit to look at, with its number in the list of the draw. */
export interface WorksheetUnit {
  readonly number: number;
  readonly id: string;
  /** Drawn at random; or looked at for the reasons. */
  readonly random: boolean;
  readonly reasons: readonly string[];
  readonly pages: readonly ExpectedPage[];
}

/** The units of one lot to look at, and the draw that named them. */
export interface WorksheetLot {
  /** What tells this draw from others: 16 hexadecimal digits from seed and list. */
  readonly code: string;
  readonly seed: string;
  readonly listSha256: string;
  readonly lot: LotName;
  /** The plan in a sentence. */
  readonly plan: string;
  /** What the plan protects against. */
  readonly curve: readonly CurvePoint[];
  /** The random ones in the order of the list, then the others. */
  readonly units: readonly WorksheetUnit[];
}

/** Everything that a worksheet shows, whatever the form it is written in: the lots of one throw, one after the other. */
export interface Worksheet {
  readonly batch: string;
  readonly delivery: number;
  readonly unit: SampleUnit;
  readonly questions: readonly SampleQuestion[];
  readonly lots: readonly WorksheetLot[];
}
