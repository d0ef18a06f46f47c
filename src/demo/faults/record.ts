import type { FrameEntry, ReelEntry } from '../../model/collation-record.js';
import { plusDays } from '../days.js';
import { moved } from '../frame-text.js';
import { type Fault, issueAt, issueSite, locate, type Outcome, ordinaryIssues, pagesOf, type Scene, shotsOfIssue } from './scene.js';
import { singles } from './sequence.js';

const COLLATION: Outcome['causes'] = ['collation', 'unclear'];

function changeFrames(scene: Scene, change: (entry: FrameEntry, reel: ReelEntry, index: number) => FrameEntry | null): void {
  const reels = scene.record.reels.map((reel) => ({ ...reel, frames: reel.frames.flatMap((entry, i) => change(entry, reel, i) ?? []) }));
  scene.record = { ...scene.record, reels };
}

/** Mistakes of the collation record itself: the vendor is right. */
export const RECORD_FAULTS: readonly Fault[] = [
  {
    kind: 'record-date-mistyped',
    codes: ['date-differs'],
    says: 'The record has a wrong day for an issue, off its pattern; the vendor has the right one.',
    sites: (scene) =>
      ordinaryIssues(scene).flatMap((issue) => {
        const { date, title } = issueAt(scene.film, issue);
        const pattern = scene.film.titles.find((each) => each.id === title)?.patterns[0];
        const free = !scene.film.issues.some(
          (each) =>
            each.title === title &&
            (each.date === plusDays(date, 1) || (each.date === date && each.edition !== issueAt(scene.film, issue).edition)),
        );
        return pattern?.frequency === 'w' && free ? [issueSite(scene.film, issue)] : [];
      }),
    plant: (scene, site) => {
      const { date, title } = issueAt(scene.film, site.key);
      const wrong = plusDays(date, 1);
      changeFrames(scene, (entry) => (entry.title === title && entry.date === date ? { ...entry, date: wrong } : entry));
      const reels = scene.record.reels.map((reel) => ({
        ...reel,
        ...(reel.absent === undefined
          ? {}
          : { absent: reel.absent.map((each) => (each.title === title && each.date === date ? { ...each, date: wrong } : each)) }),
      }));
      scene.record = { ...scene.record, reels };
      return [
        {
          code: 'date-differs',
          causes: COLLATION,
          pictures: pagesOf(scene.film, site.key).map((shot) => shot.picture),
          issue: site.key,
          date: wrong,
        },
      ];
    },
  },
  {
    kind: 'record-page-mistyped',
    codes: ['page-number-differs'],
    says: 'The record has a wrong number for one page; the vendor has what is printed.',
    sites: (scene) =>
      ordinaryIssues(scene, 4).flatMap((issue) =>
        pagesOf(scene.film, issue)
          .filter((shot) => /^\d+$/.test(shot.page ?? '') && shot.pagePrinted === null)
          .slice(1, 2)
          .map((shot) => ({ ...issueSite(scene.film, issue), key: shot.picture })),
      ),
    plant: (scene, site) => {
      const { shot, reel, index } = locate(scene.film, site.key);
      const number = scene.film.reels[reel]?.number;
      const wrong = String(Number(shot.page) + 40);
      changeFrames(scene, (entry, entryReel, i) => (entryReel.number === number && i === index ? { ...entry, page: wrong } : entry));
      return [
        { code: 'page-number-differs', causes: ['collation', 'unclear', 'vendor-metadata'], pictures: [site.key], issue: shot.issue },
      ];
    },
  },
  {
    kind: 'record-number-mistyped',
    codes: ['issue-number-differs'],
    says: 'The record has a wrong issue number; the vendor has what is printed.',
    sites: (scene) =>
      ordinaryIssues(scene).flatMap((issue) =>
        issueAt(scene.film, issue).issueNumberIntended === null ? [issueSite(scene.film, issue)] : [],
      ),
    plant: (scene, site) => {
      const issue = issueAt(scene.film, site.key);
      changeFrames(scene, (entry) =>
        entry.title === issue.title && entry.date === issue.date && entry.edition === issue.edition
          ? { ...entry, issueNumber: String(Number(issue.issueNumber) + 100) }
          : entry,
      );
      const pictures = shotsOfIssue(scene.film, site.key, true).map((shot) => shot.picture);
      return [{ code: 'issue-number-differs', causes: ['collation', 'unclear', 'vendor-metadata'], pictures, issue: site.key }];
    },
  },
  {
    kind: 'record-misses-blank',
    codes: ['frame-scanned-twice'],
    says: 'The record overlooked a blank: from there on its own numbers are too low by one.',
    alone: true,
    sites: (scene) => singles(scene, (shot) => shot.kind === 'blank'),
    plant: (scene, site) => {
      const { reel, index } = locate(scene.film, site.key);
      const number = scene.film.reels[reel]?.number;
      const shots = scene.film.reels[reel]?.shots ?? [];
      changeFrames(scene, (entry, entryReel, i) => {
        if (entryReel.number !== number || i < index)
          return repointed(entry, number, shots[index]?.exposure ?? 0, entryReel.number === number);
        return i === index ? null : { ...repointed(entry, number, shots[index]?.exposure ?? 0, true), frame: moved(entry.frame, -1) };
      });
      return [
        {
          code: 'frame-scanned-twice',
          causes: ['unclear', 'collation', 'vendor-image'],
          pictures: [],
          at: shots[index - 1]?.picture ?? 0,
          issue: null,
          shift: { reel, by: 1 },
        },
      ];
    },
  },
];

/** References to frames behind the one left out follow the record's new numbers. */
function repointed(entry: FrameEntry, reel: string | undefined, gone: number, same: boolean): FrameEntry {
  const lower = (text: string): string => {
    const [first, second] = text.split(':');
    if (second !== undefined) return first === reel && Number.parseInt(second, 10) > gone ? `${first}:${moved(second, -1)}` : text;
    return same && Number.parseInt(text, 10) > gone ? moved(text, -1) : text;
  };
  return {
    ...entry,
    ...(entry.duplicateOf === undefined ? {} : { duplicateOf: lower(entry.duplicateOf) }),
    ...(entry.retakeOf === undefined ? {} : { retakeOf: lower(entry.retakeOf) }),
  };
}
