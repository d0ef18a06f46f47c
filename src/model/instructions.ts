/** One fact about a reel, such as `Polarity` and `negative`. */
export interface ReelFact {
  readonly name: string;
  readonly text: string;
}

/** What an instruction is about. */
export type InstructionKind =
  | 'held back'
  | 'take'
  | 'kept both'
  | 'misdated'
  | 'two days'
  | 'title'
  | 'mispaged'
  | 'order'
  | 'not on the film'
  | 'split'
  | 'frame numbers'
  | 'edition'
  | 'numbering'
  | 'supplement'
  | 'section'
  | 'two reels'
  | 'targets'
  | 'condition'
  | 'own column';

/** One thing that differs from "scan all, deliver the pages in order". */
export interface Instruction {
  readonly kind: InstructionKind;
  /** `frame 12`, `frames 12 to 15 and 18`; null for what is not on the film. */
  readonly frames: string | null;
  readonly title: string | null;
  readonly date: string | null;
  readonly edition: number | null;
  /** One sentence without the frames in front. */
  readonly says: string;
  /** It rests on what the check of the record doubts, so the library is still to settle it. */
  readonly open: boolean;
}

/** A reel as the vendor is told of it. */
export interface InstructedReel {
  readonly number: string;
  readonly facts: readonly ReelFact[];
  /** In film order; what concerns the reel as a whole comes first. */
  readonly instructions: readonly Instruction[];
}

/** The sheet that goes with the film. */
export interface Instructions {
  readonly library: string;
  readonly vendor: string;
  readonly titles: readonly { readonly id: string; readonly name: string }[];
  readonly reels: readonly InstructedReel[];
  /** SHA-256 of the record that goes with the sheet, in hexadecimal. */
  readonly record: string;
}
