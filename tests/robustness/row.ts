import type { Ending } from './limits.js';

/** A row of the table: what comes, and how the command ends. */
export interface Row {
  /** The group of the attack. */
  readonly code: string;
  /** What comes, in words: the name of the test. */
  readonly name: string;
  readonly status: number;
  /** A sentence, or the piece of it that tells, that the command must say. */
  readonly says: string;
  readonly run: () => Promise<Ending>;
  /** The system ends it: what it used is not known. */
  readonly killed?: true;
  /** Runs apart from the tests of every day. */
  readonly slow?: true;
  /** What else must be so. */
  readonly holds?: (ending: Ending) => void | Promise<void>;
}
