// Generated from schemas/record-check.schema.json by `npm run generate`: change the schema, not this file.

/** What `collation check` finds in a collation record by its own regularity, before the film goes out. */
export interface RecordCheck {
  /** Name and version of this format. */
  readonly format: 'reeltally/record-check/1';
  /** The program that checked. */
  readonly tool: {
    /** Its name. */
    readonly name: string;
    /** Its version. */
    readonly version: string;
  };
  /** The files that were read. */
  readonly inputs: readonly {
    /** What the file was read for. */
    readonly role: string;
    /** Its name without its folder. */
    readonly name: string;
    /** SHA-256 of its bytes. */
    readonly sha256: string;
  }[];
  /** What the record amounts to. */
  readonly totals: string;
  /** The titles of the record and the days on which they came out. */
  readonly titles: readonly CheckedTitle[];
  /** What does not fit, the most telling first. */
  readonly items: readonly RecordItem[];
  /** The codes of the items, so that the result explains itself. */
  readonly catalogue: readonly {
    /** The code. */
    readonly code: string;
    /** What it says. */
    readonly title: string;
    /** Why it matters. */
    readonly why: string;
    /** How much it matters. */
    readonly severity: 'critical' | 'major' | 'minor' | 'note';
  }[];
}

/** One title with its run. */
export interface CheckedTitle {
  /** Its identifier. */
  readonly id: string;
  /** Its name, or its identifier where no name is recorded. */
  readonly name: string;
  /** Number of its issues on the film. */
  readonly issues: number;
  /** The first certain day; null where there is none. */
  readonly from: string | null;
  /** The last certain day; null where there is none. */
  readonly to: string | null;
  /** Weekdays on which it came out; empty where nothing is known. */
  readonly days: readonly string[];
  /** true where the record gives no pattern and the days were learned from its issues. */
  readonly learned: boolean;
}

/** One thing that does not fit. */
export interface RecordItem {
  /** Stays the same while the place does. */
  readonly id: string;
  /** Which sort it is. */
  readonly code: string;
  /** How much it matters. */
  readonly severity: 'critical' | 'major' | 'minor' | 'note';
  /** What is so, in one sentence. */
  readonly says: string;
  /** The likely reading, in one sentence; null where none is likelier. */
  readonly likely: string | null;
  /** Number of the reel; null for what is on none. */
  readonly reel: string | null;
  /** First and last frame; null for what is on no frame. */
  readonly frames: {
    /** First frame. */
    readonly from: string;
    /** Last frame. */
    readonly to: string;
  } | null;
  /** Number of frames, or of days where there is no frame. */
  readonly count: number;
  /** Identifier of the title. */
  readonly title: string | null;
  /** Day of the issue. */
  readonly date: string | null;
  /** Edition of the issue. */
  readonly edition: number | null;
  /** What speaks for it, in sentences. */
  readonly evidence: readonly string[];
  /** Where it stands in the sheets of the record. */
  readonly places: readonly {
    /** The sheet. */
    readonly sheet: string;
    /** Its row. */
    readonly row: number;
  }[];
  /** What the library says of it in NAME.explained.csv; null where it is open. */
  readonly explained: {
    /** Why it is so. */
    readonly note: string;
    /** Who says so. */
    readonly by: string;
    /** On which day, YYYY-MM-DD. */
    readonly on: string;
  } | null;
}
