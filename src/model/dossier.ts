import type { Decision } from './findings.js';
import type { SourceFile } from './sample.js';

/** `dossier.json`: what makes a folder the dossier of one order. */
export interface DossierFile {
  readonly format: 'reeltally/dossier/1';
  /** What the library calls the order. */
  readonly order: string;
  /** When it was made: a day or an instant of RFC 3339. */
  readonly at: string;
  /** Name of a built-in profile; left out where the layout is recognised, or where `profile.json` lies in the dossier. */
  readonly profile?: string;
}

/** `delivery.json` beside a saved result: where the delivery lay when it was verified, and when it came in. */
export interface DeliveryFile {
  readonly format: 'reeltally/delivery/1';
  readonly delivery: number;
  /** When it came in, `YYYY-MM-DD`. */
  readonly received: string;
  /** The folders of the batch, as paths of the machine on which it was verified. */
  readonly batch: readonly string[];
  /** The address of the batch as the reports in this folder link to it; left out where several folders make the batch, or no way leads there. */
  readonly link?: string;
  /** Whether the page text was read, and whether files were held against their digests. */
  readonly readText: boolean;
  readonly fixity: boolean;
}

/** One line of `journal.jsonl`: a file that was written here or taken in. */
export interface JournalLine {
  readonly format: 'reeltally/journal/1';
  /** The file: its path from the folder of the dossier, with `/`. */
  readonly name: string;
  /** SHA-256 of its bytes, in lower case. */
  readonly sha256: string;
  /** Written by the program, or brought by a person and taken in. */
  readonly did: 'written' | 'taken in';
  readonly at: string;
  /** The account that ran the program. */
  readonly by: string;
  /** Version of the program. */
  readonly version: string;
  /** What it was made from; empty for what was taken in. Names are paths as `name`, or names of things that lie elsewhere. */
  readonly from: readonly SourceFile[];
  /** SHA-256 of the line before, in lower case; empty for the first. */
  readonly before: string;
  /** SHA-256 of this line as it would be without this field: an end that was changed by mistake shows even where no line follows. */
  readonly own: string;
}

/** `lock.json`: who writes in the dossier at the moment. */
export interface LockFile {
  readonly format: 'reeltally/lock/1';
  /** The account. */
  readonly who: string;
  /** The machine. */
  readonly host: string;
  /** Number of the process on that machine. */
  readonly pid: number;
  /** Since when, an instant of RFC 3339. */
  readonly since: string;
}

/** How a spot check of a delivery stands: lots that must be looked at, and how far that is. */
export interface SpotState {
  readonly lots: number;
  /** List and plan are fixed, and the seed is still to be thrown. */
  readonly fixed: boolean;
  readonly drawn: number;
  readonly judged: number;
  readonly rejected: number;
}

/** A delivery as far as its next step depends on it. */
export interface DeliveryState {
  readonly delivery: number;
  readonly batch: string;
  /** `YYYY-MM-DD`. */
  readonly received: string;
  /** The last day for the library's answer. */
  readonly due: string;
  readonly days: number;
  readonly dayKind: 'calendar' | 'working';
  /** What the comparison advises. */
  readonly advice: Decision;
  /** The folder of its newest result. */
  readonly folder: string;
  /** Findings that still count, and those of them that need the library's ruling before anything can be decided. */
  readonly open: number;
  readonly toRule: number;
  /** Required checks that were not made. */
  readonly unmade: number;
  readonly spot: SpotState;
  /** Files that people brought or changed since it was verified. */
  readonly unread: readonly string[];
  readonly decision: DecidedState | null;
}

/** What was decided about a delivery. */
export interface DecidedState {
  readonly decision: Decision | 'put-off';
  readonly by: string;
  readonly on: string;
}

/** What an order has cost so far; decimal texts. */
export interface MoneyState {
  readonly currency: string;
  readonly billed: string;
  readonly released: string;
  /** Due by what is decided and not released yet. */
  readonly owed: string;
  /** Claimed back from the vendor; empty where nothing is. */
  readonly credit: string;
}

/** Everything that says how an order stands. */
export interface DossierState {
  readonly order: string;
  readonly library: string;
  readonly vendor: string;
  /** The day on which it is asked, `YYYY-MM-DD`. */
  readonly today: string;
  /** Whether a record lies there, and whether it can be read as it is. */
  readonly record: 'none' | 'not understood' | 'understood';
  /** Whether something went out with the film. */
  readonly sent: boolean;
  readonly deliveries: readonly DeliveryState[];
  /** Null before the first invoice. */
  readonly money: MoneyState | null;
}

/** Whose move it is, by which day, and what that move is. */
export interface NextMove {
  readonly move: 'library' | 'vendor' | 'nobody';
  /** The last day for it, or null where the agreement sets none. */
  readonly by: string | null;
  /** Days that have gone by since then; 0 while there is time. */
  readonly overdue: number;
  /** What is to be done first by hand; empty where the command is all. */
  readonly first: string;
  /** The command to type next, as it is typed in the dossier. */
  readonly command: string;
}
