import type { ResolvedAgreement } from './agreement.js';
import type { StatedFacts } from './expected.js';
import type { Side } from './film.js';
import type { Findings, Run } from './findings.js';
import type { RecordProblem } from './record-problem.js';
import type { Ruling } from './rulings.js';

/** Everything a verification needs; nothing here is read from disk, and nothing here tells the time. */
export interface VerificationInput {
  readonly record: Side;
  readonly returned: Side;
  /** Open problems of the record: what rests on the facts that they leave in doubt is charged to nobody. None where this is left out. */
  readonly problems?: readonly RecordProblem[];
  /** Whether the return must, may or must not state each fact, by the programme's profile; every fact must be stated where this is left out. */
  readonly stated?: StatedFacts;
  /** Returns of other batches, to find what was delivered twice across batches. */
  readonly others: readonly Findings[];
  readonly agreement: ResolvedAgreement;
  readonly rulings: readonly Ruling[];
  /** Findings about which the library's rulings contradict each other: no earlier ruling is carried over to them. */
  readonly contested?: readonly string[];
  /** The result of a delivery before this one. */
  readonly earlier: Findings | null;
  /** The record as it was sent to the vendor, and what was changed in it since, in sentences; left out where nothing is known of that. */
  readonly sent?: { readonly record: Side; readonly changes: readonly string[] };
  /** Whether the text of the pages was read too; not, when left out. */
  readonly textRead?: boolean;
  readonly run: Run;
  readonly tool: { readonly name: string; readonly version: string };
}
