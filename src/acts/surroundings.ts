/** What an act is told of the world around it, so that it needs no terminal, no clock and no account of its own. */
export interface Surroundings {
  /** Hears how far the work has got (`progress`, of no account later) and what a person should know beside the outcome (`remark`, a whole sentence). */
  readonly say: (text: string, kind: 'progress' | 'remark') => void;
  /** Asks the act to stop; heeded between its steps and before anything is written. */
  readonly signal: AbortSignal;
  /** Who works here, as journal and lock name them. */
  readonly who: string;
  /** The machine, as a lock names it. */
  readonly host: string;
  /** When the act is said to happen: a day or an instant of RFC 3339. */
  readonly now: string;
  /** What the clock really says, to the second in UTC: only for telling whether somebody may still be writing. */
  readonly clock: () => string;
}

/** Surroundings in which nobody listens and nobody stops the work: for tests and scripts. */
export function quietly(now: string): Surroundings {
  return {
    say: () => undefined,
    signal: new AbortController().signal,
    who: '',
    host: '',
    now,
    clock: () => `${now.slice(0, 10)}T00:00:00Z`,
  };
}
