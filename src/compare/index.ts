import type { Policies } from '../model/agreement.js';
import type { Alignment } from '../model/alignment.js';
import type { Difference } from '../model/difference.js';
import type { Side } from '../model/film.js';
import { compareAbsences } from './absences.js';
import { compareDocuments, compareReels } from './documents.js';
import { numbered } from './draft.js';
import { compareFrames } from './frames.js';
import { compareIssues, type Meeting, meetings } from './issues.js';

export type { Meeting } from './issues.js';

/** All differences between the two sides as aligned, each once; and which issues met which documents. */
export function compare(
  alignments: readonly Alignment[],
  record: Side,
  returned: Side,
  policies: Policies,
): { readonly differences: readonly Difference[]; readonly meetings: readonly Meeting[] } {
  const met = meetings(alignments, record, returned);
  const main = mainIssues(met);
  const drafts = [
    ...alignments.flatMap((alignment, at) => compareFrames(at, alignment, record, returned, policies)),
    ...compareIssues(met, record, returned, policies),
    ...compareAbsences(record, returned, policies, (returnIssue) => main.get(returnIssue) ?? null),
    ...compareReels(alignments, record, returned, policies),
    ...compareDocuments(returned, policies),
  ];
  return { differences: numbered(drafts), meetings: met };
}

/** The issue of the record that a document of the return mostly consists of. */
function mainIssues(met: readonly Meeting[]): Map<number, number> {
  const best = new Map<number, Meeting>();
  for (const meeting of met) {
    const other = best.get(meeting.returnIssue);
    if (other === undefined || other.pairs.length < meeting.pairs.length) best.set(meeting.returnIssue, meeting);
  }
  return new Map([...best].map(([returnIssue, meeting]) => [returnIssue, meeting.recordIssue]));
}
