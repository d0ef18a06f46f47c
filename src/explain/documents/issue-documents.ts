import type { PairRef } from '../../model/difference.js';
import { type Candidate, candidate } from '../choose.js';
import { counted, draft, framesInWords, issueName, rangeOf } from '../draft.js';
import { sidedBy } from '../facts/sided.js';
import { idsOf } from '../runs.js';
import { differencesAt, factsOf, fieldOf, recordFrame, recordIssueOf, type Scene } from '../scene.js';
import { homesTestimony } from './homes.js';
import { copiesOf } from './issue-copies.js';
import { mainDocument } from './meetings.js';

/** An issue of the record and a document of the return that share pages. */
export interface Meeting {
  readonly recordIssue: number;
  readonly returnIssue: number;
  readonly pairs: readonly PairRef[];
}

/** Meetings through pages that are to be delivered. */
export function deliveredMeetings(scene: Scene): Meeting[] {
  return scene.meetings.flatMap((meeting) => {
    const pairs = meeting.pairs.filter((ref) => recordFrame(scene, ref)?.deliver === true);
    return pairs.length === 0 ? [] : [{ ...meeting, pairs }];
  });
}

/** What follows from pages lying in the wrong document: its facts, and their order and labels there. */
export function consequences(scene: Scene, meeting: Meeting): number[] {
  return [
    ...idsOf(factsOf(scene, meeting.recordIssue, meeting.returnIssue)),
    ...idsOf(meeting.pairs.flatMap((ref) => differencesAt(scene, ref, 'order', 'section'))),
  ];
}

/** Two issues of the record in one document: the second has no document of its own. */
export function merged(scene: Scene): Candidate[] {
  const met = deliveredMeetings(scene);
  return met.flatMap((meeting) => {
    const main = namesake(scene, met, meeting.returnIssue);
    if (main === meeting.recordIssue || mainDocument(scene, meeting.recordIssue) !== meeting.returnIssue) return [];
    const elsewhere = met.some((other) => other.recordIssue === meeting.recordIssue && other.returnIssue !== meeting.returnIssue);
    if (elsewhere) return [];
    const first = recordIssueOf(scene, main);
    const second = recordIssueOf(scene, meeting.recordIssue);
    const sameDay = first?.title === second?.title && first?.date?.text === second?.date?.text;
    const words = framesInWords(rangeOf(scene, meeting.pairs).frames);
    const begins = `frame ${rangeOf(scene, meeting.pairs).frames?.from ?? '?'}`;
    const mainMeeting = met.find((other) => other.recordIssue === main && other.returnIssue === meeting.returnIssue);
    const { cause, evidence } = homesTestimony(scene, [main, meeting.recordIssue], [meeting.returnIssue]);
    return [
      candidate(
        sidedBy(
          cause,
          words,
          draft(scene, {
            code: 'issues-merged',
            cause: 'vendor-metadata',
            evidence,
            about: meeting.pairs,
            recordIssue: meeting.recordIssue,
            returnIssue: meeting.returnIssue,
            explains: [
              ...consequences(scene, meeting),
              ...(mainMeeting === undefined ? [] : idsOf(mainMeeting.pairs.flatMap((ref) => differencesAt(scene, ref, 'order')))),
              ...copiesOf(scene, meeting.returnIssue),
            ],
            field: sameDay ? 'edition' : 'date',
            collation: `${issueName(scene, main)}${sameDay ? ',' : ''} and ${issueName(scene, meeting.recordIssue)}`,
            return: `one document, ${issueName(scene, meeting.returnIssue, 'return')}`,
            says: `${issueName(scene, main)}${sameDay ? ',' : ''} and ${issueName(scene, meeting.recordIssue)}${sameDay ? ',' : ''} came as one issue; the second begins at ${begins}.`,
            instruction: `Split the document at ${begins}: ${words} are ${issueName(scene, meeting.recordIssue)}${second?.editionLabel == null ? '' : ` ("${second.editionLabel}" on the paper)`}.`,
          }),
        ),
      ),
    ];
  });
}

/** The issue that a document says it is, where it holds one; else the one that most of its pages belong to. */
function namesake(scene: Scene, met: readonly Meeting[], returnIssue: number): number {
  const own = met.find(
    (meeting) =>
      meeting.returnIssue === returnIssue && factsOf(scene, meeting.recordIssue, returnIssue, 'title', 'date', 'edition').length === 0,
  );
  return own?.recordIssue ?? mainIssue(met, returnIssue);
}

function mainIssue(met: readonly Meeting[], returnIssue: number): number {
  let best = met.find((meeting) => meeting.returnIssue === returnIssue);
  for (const meeting of met)
    if (meeting.returnIssue === returnIssue && best !== undefined && meeting.pairs.length > best.pairs.length) best = meeting;
  return best?.recordIssue ?? -1;
}

/** The last pages of one issue in the next one's document, or the first pages of one in the document before. */
export function boundaries(scene: Scene): Candidate[] {
  const met = deliveredMeetings(scene);
  return met.flatMap((meeting) => {
    const home = homeOf(scene, met, meeting.recordIssue);
    const host = namesake(scene, met, meeting.returnIssue);
    if (home === null || home === meeting.returnIssue || host === meeting.recordIssue || homeOf(scene, met, host) !== meeting.returnIssue)
      return [];
    const all = (scene.pairsOfRecordIssue.get(meeting.recordIssue) ?? []).filter((ref) => recordFrame(scene, ref)?.deliver === true);
    const last = meeting.pairs.at(-1)?.pair === all.at(-1)?.pair;
    const words = framesInWords(rangeOf(scene, meeting.pairs).frames);
    const touched = [home, meeting.returnIssue].flatMap((document) =>
      (scene.pairsOfReturnIssue.get(document) ?? []).flatMap((ref) => differencesAt(scene, ref, 'order')),
    );
    const { cause, evidence } = homesTestimony(scene, [meeting.recordIssue, host], [home, meeting.returnIssue]);
    return [
      candidate(
        sidedBy(
          cause,
          words,
          draft(scene, {
            code: 'issue-boundary-moved',
            cause: 'vendor-metadata',
            evidence,
            about: meeting.pairs,
            recordIssue: meeting.recordIssue,
            returnIssue: meeting.returnIssue,
            explains: [...consequences(scene, meeting), ...idsOf(touched)],
            field: 'date',
            collation: `${words} in ${issueName(scene, meeting.recordIssue)}`,
            return: `in ${issueName(scene, meeting.returnIssue, 'return')}`,
            says: `The ${last ? 'last' : 'first'} ${meeting.pairs.length === 1 ? 'page' : counted(meeting.pairs.length, 'page')} of ${issueName(scene, meeting.recordIssue)} (${words}) came as part of ${issueName(scene, host)}.`,
            instruction: `Move ${words} back to ${issueName(scene, meeting.recordIssue)} and count the pages of both issues anew.`,
          }),
        ),
      ),
    ];
  });
}

/** The document that an issue belongs in: the one that says it is this issue, however few pages it holds, else the one with most of them. */
function homeOf(scene: Scene, met: readonly Meeting[], recordIssue: number): number | null {
  const oneTooMany = scene.told.flatMap((one) =>
    one.field === 'extra-document' && one.recordIssue === recordIssue ? [one.returnIssue] : [],
  );
  const named = met.filter(
    (meeting) =>
      meeting.recordIssue === recordIssue &&
      // of a document that is told to be one too many it is explained already what it says
      !oneTooMany.includes(meeting.returnIssue) &&
      factsOf(scene, recordIssue, meeting.returnIssue, 'title', 'date', 'edition').length === 0,
  );
  return named.length === 1 ? (named[0]?.returnIssue ?? null) : mainDocument(scene, recordIssue);
}

/** Labels that were counted from the second document's first page: all wrong by as much. */
function countedAnew(scene: Scene, meeting: Meeting): number[] {
  const labels = meeting.pairs.flatMap((ref) => differencesAt(scene, ref, 'page'));
  const steps = new Set(labels.map((one) => Number(one.returned) - Number(one.collation)));
  return steps.size === 1 && labels.length === meeting.pairs.length ? idsOf(labels) : [];
}

/** The document that holds most of the other pages of an issue. */
function besideIt(met: readonly Meeting[], { recordIssue, returnIssue }: Meeting): number | null {
  const others = met.filter((other) => other.recordIssue === recordIssue && other.returnIssue !== returnIssue);
  return others.sort((a, b) => b.pairs.length - a.pairs.length)[0]?.returnIssue ?? null;
}

/** Pages of one issue in a second document that holds nothing else. */
export function split(scene: Scene): Candidate[] {
  const met = deliveredMeetings(scene);
  return met.flatMap((meeting) => {
    const surplus = fieldOf(scene, 'extra-document').filter(
      (difference) => difference.returnIssue === meeting.returnIssue && difference.recordIssue === meeting.recordIssue,
    );
    const named = homeOf(scene, met, meeting.recordIssue);
    // a document that is one too many has another beside it, whatever the two say of themselves
    const home = named === meeting.returnIssue && surplus.length > 0 ? besideIt(met, meeting) : named;
    if (home === null || home === meeting.returnIssue) return [];
    if (surplus.length === 0 && mainIssue(met, meeting.returnIssue) !== meeting.recordIssue) return [];
    const range = rangeOf(scene, meeting.pairs);
    const all = (scene.pairsOfRecordIssue.get(meeting.recordIssue) ?? []).filter((ref) => recordFrame(scene, ref)?.deliver === true);
    // both reels have frames of these numbers
    const onOneOfTwo = range.frames?.list === undefined && all.some((ref) => ref.alignment !== meeting.pairs[0]?.alignment);
    const words = `${framesInWords(range.frames)}${onOneOfTwo ? ` of reel ${range.reel ?? '?'}` : ''}`;
    const reels = idsOf(meeting.pairs.flatMap((ref) => differencesAt(scene, ref, 'reel')));
    const { cause, evidence } = homesTestimony(scene, [meeting.recordIssue], [home, meeting.returnIssue]);
    return [
      candidate(
        sidedBy(
          cause,
          words,
          draft(scene, {
            code: 'issue-split',
            cause: 'vendor-metadata',
            evidence,
            about: meeting.pairs,
            recordIssue: meeting.recordIssue,
            returnIssue: meeting.returnIssue,
            explains: [
              ...idsOf(surplus),
              ...consequences(scene, meeting),
              ...countedAnew(scene, meeting),
              ...reels,
              ...copiesOf(scene, meeting.returnIssue),
            ],
            field: 'edition',
            collation: issueName(scene, meeting.recordIssue),
            return: `two documents, ${issueName(scene, home, 'return')} and ${issueName(scene, meeting.returnIssue, 'return')}`,
            says: `${issueName(scene, meeting.recordIssue)} came as two issues: ${words} ${meeting.pairs.length === 1 ? 'lies' : 'lie'} in a second document.`,
            instruction: `Join ${words} to ${issueName(scene, meeting.recordIssue)}${reels.length > 0 ? ' and correct their reel number' : ''}: one issue, pages in one order.`,
          }),
        ),
      ),
    ];
  });
}
