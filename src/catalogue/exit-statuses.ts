/** One exit status of the command and what it says to a script. It never depends on the format and is never a count. */
export interface ExitStatus {
  readonly status: number;
  readonly means: string;
}

/** Every exit status, in the words of the documentation. */
export const EXIT_STATUSES: readonly ExitStatus[] = [
  { status: 0, means: 'the return is accepted; for other commands: done, nothing to mend' },
  {
    status: 1,
    means: 'the return is not accepted: it needs corrections or goes back for rework; for other commands: there is something to mend',
  },
  { status: 2, means: 'no decision is possible: a required check could not be made, or a finding against the record awaits a ruling' },
  { status: 3, means: 'the command could not run, and you can mend it: an option, an input file or the place for the output' },
  { status: 4, means: 'a fault of the program itself' },
  { status: 130, means: 'stopped by Ctrl-C' },
  { status: 143, means: 'stopped by a signal to end' },
];
