/** Something that an audit has to say, and the files that it is about. */
export interface Said {
  readonly about: readonly string[];
  readonly says: string;
}

/** What one part of an audit found. */
export interface Looked {
  /** What does not hold. */
  readonly broken: readonly Said[];
  /** What is to be known and breaks nothing. */
  readonly remarks: readonly Said[];
  /** Files that were made again and came out the same. */
  readonly held: readonly string[];
}

/** Nothing looked at yet. */
export const NOTHING: Looked = { broken: [], remarks: [], held: [] };

/** Several parts as one. */
export function together(parts: readonly Looked[]): Looked {
  return {
    broken: parts.flatMap(({ broken }) => broken),
    remarks: parts.flatMap(({ remarks }) => remarks),
    held: parts.flatMap(({ held }) => held),
  };
}

/** A part that says only that something does not hold. */
export const broken = (about: readonly string[], says: string): Looked => ({ ...NOTHING, broken: [{ about, says }] });

/** A part that only makes a remark. */
export const remark = (about: readonly string[], says: string): Looked => ({ ...NOTHING, remarks: [{ about, says }] });
