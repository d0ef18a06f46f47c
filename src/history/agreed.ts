import type { Policies } from '../model/agreement.js';
import type { Finding, Findings } from '../model/findings.js';

/** The facts that each policy governs, by the field that findings give; a change of the policy may end a finding without any correction. */
const GOVERNS: Readonly<Record<keyof Policies, readonly string[]>> = {
  pageNumber: ['page'],
  unnumberedPage: ['page'],
  printedDate: ['datePrinted', 'date'],
  absentPages: ['absence'],
  absentIssues: ['absence'],
  frameNumbers: ['frame', 'number'],
  targets: ['target'],
  editionOrder: ['edition'],
  splitExposures: ['frame', 'number'],
  reelNumber: ['reel'],
  files: ['file'],
  redelivery: [],
};

/** A policy that was changed between two deliveries. */
export interface ChangedPolicy {
  readonly policy: string;
  readonly was: string;
  readonly is: string;
  readonly fields: readonly string[];
}

/** The policies that were changed since the earlier result, in the order of their names. */
export function changedPolicies(was: Policies, is: Policies): readonly ChangedPolicy[] {
  const names = Object.keys(GOVERNS) as (keyof Policies)[];
  return names
    .filter((policy) => was[policy] !== is[policy])
    .map((policy) => ({ policy, was: was[policy], is: is[policy], fields: GOVERNS[policy] }));
}

/** Why a finding may be gone without anyone having corrected it: what it rests on is no longer asked or was not looked at this time. Null where that is not so. */
export function notAsked(
  finding: Finding,
  earlier: Findings,
  now: Pick<Findings, 'run' | 'agreement' | 'unchecked'>,
  textRead: boolean,
): { readonly why: string; readonly required: boolean } | null {
  const changed = changedPolicies(earlier.agreement.policies, now.agreement.policies).find(({ fields }) =>
    fields.includes(finding.field ?? ''),
  );
  if (changed !== undefined) {
    const why = `The agreement asks otherwise now: its policy "${changed.policy}" was ${changed.was} and is ${changed.is}.`;
    return { why, required: false };
  }
  const group = earlier.catalogue.find((entry) => entry.code === finding.code)?.group;
  if (!textRead && (group === 'text' || (group === 'documents' && restsOnText(finding, earlier))))
    return { why: 'It rests on the text of the pages, which was not read this time.', required: true };
  const files = now.unchecked.find((gap) => gap.what.startsWith('page files'));
  if (files !== undefined && finding.field === 'file') return { why: files.why, required: true };
  if (group === 'documents' && earlier.run.profile !== now.run.profile) {
    const why = `The documents are laid out otherwise now (${now.run.profile}, before ${earlier.run.profile}).`;
    return { why, required: false };
  }
  return null;
}

/** Whether a finding about documents is about the text of a page: it stands in a file of a page, or says so itself. */
function restsOnText(finding: Finding, { reels }: Findings): boolean {
  // The sentence of src/explain/documents.ts names the source of the other reading; no field does.
  if (finding.code === 'documents-disagree') return finding.says.includes('page text');
  const documents = new Set(finding.places.flatMap(({ document }) => document ?? []));
  return (
    finding.code !== 'file-missing' && reels.some(({ frames }) => frames.some(({ files }) => files.some(({ path }) => documents.has(path))))
  );
}
