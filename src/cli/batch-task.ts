import type { BatchJob } from '../acts/inputs/batch-list.js';
import type { FormatName } from '../report/index.js';

/** What all batches of one call have in common. */
export interface BatchWish {
  readonly formats: readonly FormatName[];
  readonly replace: boolean;
  readonly ifChanged: boolean;
  readonly quiet: boolean;
  readonly at?: string;
}

/** What became of one batch. */
export interface BatchOutcome {
  /** The exit status that it would have by itself. */
  readonly status: number;
  /** Whether a result lies in its folder that is of these files. */
  readonly ran: boolean;
  /** One line for the standard output. */
  readonly line: string;
  /** What a person should know, for the standard error. */
  readonly remarks: readonly string[];
}

/** What is sent to a worker, and comes back. */
export interface BatchTask {
  readonly job: BatchJob;
  readonly wish: BatchWish;
}
