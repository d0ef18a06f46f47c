import type { Alignment } from '../model/alignment.js';
import type { PairRef } from '../model/difference.js';
import type { Side } from '../model/film.js';
import type { Draft } from './draft.js';
import type { Meeting } from './issues.js';

/**
 * Documents that hold nothing but further pages of an issue of which another document holds pages: an issue has one document, or one on each
 * reel where the layout files documents by reel.
 */
export function extraDocuments(met: readonly Meeting[], alignments: readonly Alignment[], record: Side, returned: Side): Draft[] {
  const perReel = returned.documentsPerReel === true;
  const names = ({ recordIssue, returnIssue }: Meeting): boolean => {
    const [mine, theirs] = [record.issues[recordIssue], returned.issues[returnIssue]];
    return (
      mine?.date?.day != null &&
      mine.title === theirs?.title &&
      mine.date.day === theirs.date?.day &&
      (mine.edition ?? 1) === (theirs.edition ?? 1)
    );
  };
  const delivered = (ref: PairRef): boolean => {
    const alignment = alignments[ref.alignment];
    const frame = alignment?.pairs[ref.pair]?.record ?? null;
    return frame !== null && record.reels[alignment?.recordReel ?? -1]?.frames[frame]?.deliver === true;
  };
  const pages = met
    .map((meeting) => ({ ...meeting, pairs: meeting.pairs.filter(delivered) }))
    .filter((meeting) => meeting.pairs.length > 0);
  const issues = new Map<number, number>();
  for (const { returnIssue } of pages) issues.set(returnIssue, (issues.get(returnIssue) ?? 0) + 1);
  const first = new Set<string>();
  const place = ({ recordIssue, pairs }: Meeting): string => `${String(recordIssue)} ${perReel ? String(pairs[0]?.alignment ?? '') : ''}`;
  return (
    [...pages]
      // the document that names the issue is its own; else one that holds nothing else, and of those the one with most pages
      .sort(
        (a, b) =>
          Number(names(b)) - Number(names(a)) ||
          (issues.get(a.returnIssue) ?? 0) - (issues.get(b.returnIssue) ?? 0) ||
          b.pairs.length - a.pairs.length,
      )
      .flatMap((meeting): Draft[] => {
        if (!first.has(place(meeting))) {
          first.add(place(meeting));
          return [];
        }
        if (issues.get(meeting.returnIssue) !== 1) return [];
        const { recordIssue, returnIssue, pairs } = meeting;
        return [{ field: 'extra-document', form: 'surplus', recordIssue, returnIssue, pairs }];
      })
  );
}
