import type { Policies } from '../model/agreement.js';
import type { Alignment } from '../model/alignment.js';
import type { Difference } from '../model/difference.js';
import type { ExpectedReturn } from '../model/expected.js';
import type { Side, Unfound } from '../model/film.js';
import { compareAbsences } from './absences.js';
import { compareDocuments, compareReels } from './documents.js';
import { type Draft, numbered } from './draft.js';
import { emptyDocuments } from './empty-documents.js';
import { extraDocuments } from './extra-documents.js';
import { compareFrames } from './frames.js';
import { compareIssues, type Meeting, meetings } from './issues.js';

export type { Meeting } from './issues.js';

/**
 * All differences of the return from the expected one, as aligned, each once; which issues met which documents; and the facts that were found
 * nowhere and would have had to be there: that each of them is missing is no difference.
 */
export function compare(
  alignments: readonly Alignment[],
  record: Side,
  expected: ExpectedReturn,
  returned: Side,
  policies: Policies,
): { readonly differences: readonly Difference[]; readonly meetings: readonly Meeting[]; readonly unfound: readonly Unfound[] } {
  const met = meetings(alignments, record, returned);
  const byDocument = issuesByDocument(met);
  const drafts = [
    ...alignments.flatMap((alignment, at) => compareFrames(at, alignment, record, expected.reels, returned, policies)),
    ...compareIssues(met, expected.issues, returned),
    ...extraDocuments(met, alignments, record, returned),
    ...emptyDocuments(record, returned),
    ...compareAbsences(record, expected.absences, returned, (returnIssue) => byDocument.get(returnIssue) ?? []),
    ...compareReels(alignments, record, expected.reels, returned),
    ...compareDocuments(returned, policies, (returnIssue, fact) => {
      const [most] = byDocument.get(returnIssue) ?? [];
      return most === undefined ? [] : (expected.issues[most]?.[fact].right ?? []);
    }),
  ];
  const unfound = returned.unfound ?? [];
  return {
    differences: numbered(drafts.filter((draft) => !unfound.some((one) => isUnfound(draft, one) || hidesAbsence(draft, one)))),
    meetings: met,
    unfound: unfound.filter((one) => !one.whereRecorded || drafts.some((draft) => isUnfound(draft, one))),
  };
}

function isUnfound({ field, form }: Draft, unfound: Unfound): boolean {
  return form === 'missing' && field === unfound.field;
}

/** What is not on the film is known by title, day and edition alone: without them nobody can tell which issue a statement means. */
function hidesAbsence({ field }: Draft, unfound: Unfound): boolean {
  const known: readonly Unfound['field'][] = ['title', 'date', 'edition'];
  return (field === 'absence-missing' || field === 'absence-extra') && known.includes(unfound.field);
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
