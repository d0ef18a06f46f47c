import type { Policies } from '../model/agreement.js';
import type { Alignment } from '../model/alignment.js';
import type { Difference } from '../model/difference.js';
import type { ExpectedReturn } from '../model/expected.js';
import type { Side } from '../model/film.js';
import { compareAbsences } from './absences.js';
import { compareDocuments, compareReels } from './documents.js';
import { numbered } from './draft.js';
import { emptyDocuments } from './empty-documents.js';
import { extraDocuments } from './extra-documents.js';
import { compareFrames } from './frames.js';
import { compareIssues, type Meeting, meetings } from './issues.js';

export type { Meeting } from './issues.js';

/** All differences of the return from the expected one, as aligned, each once; and which issues met which documents. */
export function compare(
  alignments: readonly Alignment[],
  record: Side,
  expected: ExpectedReturn,
  returned: Side,
  policies: Policies,
): { readonly differences: readonly Difference[]; readonly meetings: readonly Meeting[] } {
  const met = meetings(alignments, record, returned);
  const byDocument = issuesByDocument(met);
  const drafts = [
    ...alignments.flatMap((alignment, at) => compareFrames(at, alignment, record, expected.reels, returned, policies)),
    ...compareIssues(met, expected.issues, returned),
    ...extraDocuments(met, alignments, record, returned),
    ...emptyDocuments(record, returned),
    ...compareAbsences(record, expected.absences, returned, (returnIssue) => byDocument.get(returnIssue) ?? []),
    ...compareReels(alignments, record, expected.reels, returned),
    ...compareDocuments(returned, policies),
  ];
  return { differences: numbered(drafts), meetings: met };
}

/** The issues of the record that a document of the return holds pages of, most pages first. */
function issuesByDocument(met: readonly Meeting[]): Map<number, readonly number[]> {
  const lists = new Map<number, Meeting[]>();
  for (const meeting of met) {
    const list = lists.get(meeting.returnIssue);
    if (list === undefined) lists.set(meeting.returnIssue, [meeting]);
    else list.push(meeting);
  }
  return new Map(
    [...lists].map(([document, list]) => [
      document,
      [...list].sort((a, b) => b.pairs.length - a.pairs.length).map((one) => one.recordIssue),
    ]),
  );
}
