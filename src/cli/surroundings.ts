import { hostname, userInfo } from 'node:os';
import type { Surroundings } from '../acts/surroundings.js';
import { clockTime, runTime } from './run-time.js';
import { progressLine, tell } from './streams.js';

/** The surroundings of an act that is called from a terminal, and how to take the line of its progress away. */
export interface TerminalSurroundings extends Surroundings {
  readonly end: () => void;
}

/** Surroundings on this terminal: progress on one line where a person looks on, remarks line by line; `at` is when the act is said to happen. Throws UserMistake where `at` is no time. */
export function surroundings({ quiet = false, at }: { readonly quiet?: boolean; readonly at?: string }): TerminalSurroundings {
  const line = progressLine(quiet);
  return {
    say: (text, kind) => {
      if (kind === 'progress') line.say(text);
      else if (!quiet) tell(`reeltally: ${text}\n`);
    },
    end: line.end,
    // A signal ends the process itself; nothing of an act is half done then, for its files are renamed in one step.
    signal: new AbortController().signal,
    who: account(),
    host: hostname(),
    now: runTime(at),
    clock: clockTime,
  };
}

/** The name of the account; the system may have none for a number. */
function account(): string {
  try {
    return userInfo().username;
  } catch {
    return '';
  }
}
