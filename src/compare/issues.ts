import { countReading, plainReading } from '../expect/fact.js';
import { dateReading } from '../expect/issues.js';
import type { Alignment } from '../model/alignment.js';
import type { PairRef } from '../model/difference.js';
import type { ExpectedReturn, IssueFact, Reading } from '../model/expected.js';
import type { Issue, Side } from '../model/film.js';
import type { Draft } from './draft.js';
import { formOf } from './fact.js';

/** The pages that one issue of the record and one document of the return have in common. */
export interface Meeting {
  readonly recordIssue: number;
  readonly returnIssue: number;
  readonly pairs: readonly PairRef[];
}

/** Which issues of the record meet which documents of the return, through paired pages, in film order. */
export function meetings(alignments: readonly Alignment[], record: Side, returned: Side): Meeting[] {
  const found = new Map<string, { recordIssue: number; returnIssue: number; pairs: PairRef[] }>();
  alignments.forEach((alignment, at) => {
    const reel = alignment.recordReel === null ? undefined : record.reels[alignment.recordReel];
    alignment.pairs.forEach((pair, index) => {
      const mine = pair.record === null ? undefined : reel?.frames[pair.record];
      const theirs = pair.returned === null ? undefined : returned.reels[pair.returned.reel]?.frames[pair.returned.frame];
      if (mine?.issue == null || theirs?.issue == null) return;
      const key = `${String(mine.issue)} ${String(theirs.issue)}`;
      const meeting = found.get(key);
      const ref = { alignment: at, pair: index };
      if (meeting === undefined) found.set(key, { recordIssue: mine.issue, returnIssue: theirs.issue, pairs: [ref] });
      else meeting.pairs.push(ref);
    });
  });
  return [...found.values()];
}

/** Differences of what is said of whole issues, one per fact and meeting. */
export function compareIssues(list: readonly Meeting[], expected: ExpectedReturn['issues'], returned: Side): Draft[] {
  return list.flatMap((meeting) => {
    const right = expected[meeting.recordIssue];
    const theirs = returned.issues[meeting.returnIssue];
    if (right === undefined || theirs === undefined) return [];
    const base = { pairs: meeting.pairs, recordIssue: meeting.recordIssue, returnIssue: meeting.returnIssue };
    const given = issueReadings(theirs);
    return ISSUE_FACTS.flatMap((field): Draft[] => {
      const form = formOf(right[field], given[field]);
      // a printed date that repeats the document's own date says nothing of its own, even where that date is wrong
      if (
        form === null ||
        (form === 'missing' && theirs.undescribed === true) ||
        (form === 'other' && theirs.inferred?.includes(field) === true) ||
        (field === 'datePrinted' && form === 'other' && right.datePrinted.needs === 'may' && given.datePrinted?.key === given.date?.key)
      )
        return [];
      return [{ ...base, field, form, expected: right[field].right, given: given[field] }];
    });
  });
}

const ISSUE_FACTS: readonly IssueFact[] = ['title', 'date', 'edition', 'datePrinted', 'editionLabel', 'volume', 'issueNumber'];

function issueReadings(issue: Issue): Readonly<Record<IssueFact, Reading | null>> {
  return {
    title: issue.title === null ? null : { key: issue.title, text: issue.title },
    date: dateReading(issue.date),
    datePrinted: dateReading(issue.datePrinted),
    edition: countReading(issue.edition),
    editionLabel: plainReading(issue.editionLabel),
    volume: plainReading(issue.volume),
    issueNumber: plainReading(issue.issueNumber),
  };
}
