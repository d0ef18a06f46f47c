import type { FrameEntry, ReelEntry } from '../../../src/model/collation-record.js';
import { isDay, plusDays, weekdayOf } from '../film/days.js';
import type { Film } from '../film/film.js';
import { moved } from '../film/frame-text.js';
import {
  type Fault,
  issueAt,
  issueSite,
  locate,
  type Outcome,
  ordinaryIssues,
  pagesOf,
  type Scene,
  type Site,
  shotsOfIssue,
} from './scene.js';
import { singles } from './sites.js';

const COLLATION: Outcome['causes'] = ['collation', 'unclear'];

/** The evidence fits a vendor who put the date on the usual day as well: only the film can tell. */
const EITHER: Outcome['causes'] = ['unclear', 'collation', 'vendor-metadata'];

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
      const wrong = plusDays(issueAt(scene.film, site.key).date, 1);
      redate(scene, site.key, wrong);
      return [
        {
          code: 'date-differs',
          causes: EITHER,
          pictures: pagesOf(scene.film, site.key).map((shot) => shot.picture),
          issue: site.key,
          date: wrong,
        },
      ];
    },
  },
  {
    kind: 'record-year-mistyped',
    codes: ['date-differs'],
    says: 'The record has a wrong year for an issue, out of line with the issues around it; the vendor has the right one.',
    sites: (scene) =>
      ordinaryIssues(scene).flatMap((issue) => {
        const { date, title } = issueAt(scene.film, issue);
        const same = scene.film.issues.filter((each) => each.title === title && each.date === date);
        const wrong = yearOff(date);
        const free = isDay(wrong) && weekdayOf(wrong) !== weekdayOf(date) && !scene.film.issues.some((each) => each.date === wrong);
        return same.length === 1 && free ? [issueSite(scene.film, issue)] : [];
      }),
    plant: (scene, site) => {
      const { date } = issueAt(scene.film, site.key);
      redate(scene, site.key, yearOff(date));
      const pictures = pagesOf(scene.film, site.key).map((shot) => shot.picture);
      return [{ code: 'date-differs', causes: COLLATION, pictures, issue: site.key, date: yearOff(date) }];
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
    numbering: withoutFrame,
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

/** The two last digits of the year changed over, as a typist does. */
function yearOff(date: string): string {
  return `${date.slice(0, 2)}${date.charAt(3)}${date.charAt(2)}${date.slice(4)}`;
}

/** Gives an issue another date in the record, its absent pages included. */
function redate(scene: Scene, issue: number, wrong: string): void {
  const { date, title } = issueAt(scene.film, issue);
  changeFrames(scene, (entry) => (entry.title === title && entry.date === date ? { ...entry, date: wrong } : entry));
  const reels = scene.record.reels.map((reel) => {
    if (reel.absent === undefined) return reel;
    return { ...reel, absent: reel.absent.map((each) => (each.title === title && each.date === date ? { ...each, date: wrong } : each)) };
  });
  scene.record = { ...scene.record, reels };
}

/** The film as a record sees it that has overlooked one exposure. */
function withoutFrame(film: Film, site: Site): Film {
  const gone = locate(film, site.key);
  return {
    ...film,
    reels: film.reels.map((reel, r) => {
      if (r !== gone.reel) return reel;
      const shots = reel.shots.flatMap((shot, i) =>
        i === gone.index ? [] : [i < gone.index ? shot : { ...shot, frame: moved(shot.frame, -1), exposure: shot.exposure - 1 }],
      );
      return { ...reel, shots };
    }),
  };
}

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
