import type { Policies } from '../model/agreement.js';
import type { Alignment } from '../model/alignment.js';
import type { PairRef } from '../model/difference.js';
import type { Issue, Side } from '../model/film.js';
import type { Draft } from './draft.js';

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
export function compareIssues(list: readonly Meeting[], record: Side, returned: Side, policies: Policies): Draft[] {
  return list.flatMap((meeting) => {
    const mine = record.issues[meeting.recordIssue];
    const theirs = returned.issues[meeting.returnIssue];
    if (mine === undefined || theirs === undefined) return [];
    const edition = policies.editionOrder === 'filmed' ? filmedEdition(meeting.recordIssue, record) : (mine.edition ?? 1);
    return issueFacts(meeting, mine, theirs, edition, policies);
  });
}

/** The edition's place in film order among the editions of its title and day. */
function filmedEdition(issue: number, record: Side): number {
  const mine = record.issues[issue];
  let place = 1;
  const seen = new Set<number>();
  for (const reel of record.reels) {
    for (const frame of reel.frames) {
      if (frame.issue === issue) return place;
      if (frame.issue === null || seen.has(frame.issue)) continue;
      seen.add(frame.issue);
      const other = record.issues[frame.issue];
      if (other?.title === mine?.title && other?.date?.text === mine?.date?.text) place++;
    }
  }
  return mine?.edition ?? 1;
}

function issueFacts(meeting: Meeting, mine: Issue, theirs: Issue, edition: number, policies: Policies): Draft[] {
  const base = { pairs: meeting.pairs, recordIssue: meeting.recordIssue, returnIssue: meeting.returnIssue };
  const drafts: Draft[] = [];
  const differs = (field: Draft['field'], collation: string | null, given: string | null): void => {
    drafts.push({ ...base, field, collation, returned: given });
  };
  if (mine.title !== null && theirs.title !== null && mine.title !== theirs.title) differs('title', mine.title, theirs.title);
  // a date that the record itself calls uncertain is never compared as if it were certain
  if (mine.date !== null && !mine.date.uncertain && theirs.date !== null && !sameDate(mine.date, theirs.date))
    differs('date', mine.date.text, theirs.date.text);
  if (mine.date !== null && theirs.date === null) differs('date', mine.date.text, 'no date');
  if (edition !== (theirs.edition ?? 1)) differs('edition', String(edition), String(theirs.edition ?? 1));
  comparePrinted(mine, theirs, policies, differs);
  if (mine.editionLabel !== null && plain(mine.editionLabel) !== plain(theirs.editionLabel)) {
    differs('editionLabel', mine.editionLabel, theirs.editionLabel ?? 'no label');
  }
  if (mine.volume !== null && plain(mine.volume) !== plain(theirs.volume)) differs('volume', mine.volume, theirs.volume ?? 'no volume');
  if (mine.issueNumber !== null && plain(mine.issueNumber) !== plain(theirs.issueNumber)) {
    differs('issueNumber', mine.issueNumber, theirs.issueNumber ?? 'no number');
  }
  return drafts;
}

function comparePrinted(
  mine: Issue,
  theirs: Issue,
  policies: Policies,
  differs: (f: Draft['field'], c: string | null, r: string | null) => void,
): void {
  if (policies.printedDate === 'never') {
    if (theirs.datePrinted !== null) differs('datePrinted', 'not to be given', theirs.datePrinted.text);
    return;
  }
  if (mine.datePrinted === null || sameDate(mine.datePrinted, mine.date)) {
    // a printed date that only repeats the real one says nothing new
    if (theirs.datePrinted !== null && !sameDate(theirs.datePrinted, mine.date) && !sameDate(theirs.datePrinted, theirs.date)) {
      differs('datePrinted', 'as the date', theirs.datePrinted.text);
    }
    return;
  }
  if (theirs.datePrinted === null) {
    if (policies.printedDate === 'required') differs('datePrinted', mine.datePrinted.text, null);
    return;
  }
  if (!sameDate(mine.datePrinted, theirs.datePrinted)) differs('datePrinted', mine.datePrinted.text, theirs.datePrinted.text);
}

function sameDate(a: Issue['date'], b: Issue['date']): boolean {
  if (a === null || b === null) return a === b;
  return a.day !== null && b.day !== null ? a.day === b.day : plain(a.text) === plain(b.text);
}

/** Case, padding zeros and white space are no difference. */
function plain(text: string | null): string {
  return (text ?? '')
    .replace(/\s+/g, ' ')
    .trim()
    .replace(/^0+(?=\d)/, '')
    .toLowerCase();
}
