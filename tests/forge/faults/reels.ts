import type { Film, FilmShot } from '../film/film.js';
import {
  addDocument,
  captureOfPicture,
  deliver,
  documentOf,
  type Fault,
  issueAt,
  issueSite,
  locate,
  ordinaryIssues,
  pagesOf,
  removeDocument,
  type Scene,
  type Site,
  shotsOfIssue,
  VENDOR_DATA,
} from './scene.js';

/** Issues whose pages begin on one reel and end on another; `key` is the issue. */
function acrossReels(scene: Scene): Site[] {
  return ordinaryIssues(scene, 4).flatMap((issue) => {
    const pages = pagesOf(scene.film, issue);
    const reels = new Set(pages.map((shot) => locate(scene.film, shot.picture).reel));
    return reels.size === 2 && shotsOfIssue(scene.film, issue).length === pages.length ? [issueSite(scene.film, issue)] : [];
  });
}

/** The pages of an issue that lie on its second reel. */
function onSecondReel(scene: Scene, issue: number): FilmShot[] {
  const pages = pagesOf(scene.film, issue);
  const last = Math.max(...pages.map((shot) => locate(scene.film, shot.picture).reel));
  return pages.filter((shot) => locate(scene.film, shot.picture).reel === last);
}

/** What goes wrong where reels end, are spliced, or hold more than was ordered. */
export const REEL_FAULTS: readonly Fault[] = [
  {
    kind: 'issue-under-first-reel',
    codes: ['reel-number-wrong'],
    says: 'An issue begins on one reel and ends on the next; all its pages carry the number of the first.',
    sites: acrossReels,
    plant: (scene, site) => {
      const second = onSecondReel(scene, site.key);
      const { document } = documentOf(scene.plan, site.key);
      for (const shot of second) captureOfPicture(scene.plan, shot.picture).reel = scene.plan.reels[document.reel]?.number ?? '';
      return [{ code: 'reel-number-wrong', causes: VENDOR_DATA, pictures: second.map((shot) => shot.picture), issue: site.key }];
    },
  },
  {
    kind: 'issue-split-between-reels',
    codes: ['issue-split'],
    says: 'An issue begins on one reel and ends on the next; it was delivered as two issues of the same day.',
    sites: acrossReels,
    plant: (scene, site) => {
      const second = onSecondReel(scene, site.key);
      const { document } = documentOf(scene.plan, site.key);
      const reel = locate(scene.film, second[0]?.picture ?? 0).reel;
      const other = addDocument(scene.plan, { ...structuredClone(document), reel, source: null, absent: [] });
      second.forEach((shot, i) => {
        const capture = captureOfPicture(scene.plan, shot.picture);
        deliver(capture, other, i + 1, capture.page, capture.section);
      });
      return [{ code: 'issue-split', causes: VENDOR_DATA, pictures: second.map((shot) => shot.picture), issue: site.key }];
    },
  },
  {
    kind: 'source-reel-lost',
    codes: ['reel-number-wrong'],
    says: 'Short reels are spliced together; the pages of the second carry the number of the first, though the agreement asks for their own.',
    policies: { reelNumber: 'source' },
    plan: { reelNumber: 'source' },
    alone: true,
    sites: (scene) =>
      scene.film.reels.flatMap((reel, key) =>
        new Set(reel.shots.map((shot) => shot.sourceReel)).size > 1 ? [{ key, pictures: [], issues: [] }] : [],
      ),
    plant: (scene, site) => {
      const shots = scene.film.reels[site.key]?.shots ?? [];
      const first = shots[0]?.sourceReel ?? '';
      // Listed targets keep their own number: one of the layouts has no place for it.
      const wrong = shots.filter((shot) => shot.sourceReel !== first && captureOfPicture(scene.plan, shot.picture).use === 'page');
      for (const shot of wrong) captureOfPicture(scene.plan, shot.picture).reel = first;
      return [{ code: 'reel-number-wrong', causes: VENDOR_DATA, pictures: wrong.map((shot) => shot.picture), issue: null }];
    },
  },
  {
    kind: 'absent-issue-not-stated',
    codes: ['absence-not-stated'],
    says: 'An issue known to be wanting has no document, though the agreement asks for one.',
    policies: { absentIssues: 'stated' },
    plan: { absentIssuesStated: true },
    sites: (scene) =>
      scene.film.issues.flatMap((issue, index) => {
        const listed = scene.plan.issues.some((each) => each.source === index);
        return listed && (issue.status === 'wanting' || issue.status === 'unknown') ? [{ key: index, pictures: [], issues: [index] }] : [];
      }),
    plant: (scene, site) => {
      removeDocument(scene.plan, documentOf(scene.plan, site.key).index);
      return [{ code: 'absence-not-stated', causes: VENDOR_DATA, pictures: [], issue: site.key }];
    },
  },
  {
    kind: 'title-not-ordered-delivered',
    codes: ['suppressed-frame-delivered'],
    says: 'The second title of the reel was not ordered; its first issue was delivered all the same.',
    reshape: secondTitleHeldBack,
    sites: (scene) => {
      const title = scene.film.titles[1]?.id;
      const first = scene.film.issues.findIndex(
        (issue) => issue.title === title && issue.status === 'on-film' && issue.wanting.length === 0,
      );
      return first < 0 || documentKnown(scene, first) ? [] : [issueSite(scene.film, first)];
    },
    plant: (scene, site) => {
      const issue = issueAt(scene.film, site.key);
      const shots = shotsOfIssue(scene.film, site.key).filter((shot) => shot.duplicateOf === null);
      const { title, date, datePrinted, edition, editionLabel, volume, issueNumber } = issue;
      const reel = locate(scene.film, shots[0]?.picture ?? 0).reel;
      const facts = { title, date, datePrinted, edition, editionLabel, volume, issueNumber };
      const index = addDocument(scene.plan, {
        ...facts,
        statement: 'present',
        statementText: null,
        reel,
        absent: [],
        source: site.key,
        folder: null,
        manifest: null,
      });
      for (const shot of shots)
        deliver(
          captureOfPicture(scene.plan, shot.picture),
          index,
          shot.place ?? 1,
          shot.pagePrinted === '-' ? null : (shot.pagePrinted ?? shot.page),
          shot.section,
        );
      return [{ code: 'suppressed-frame-delivered', causes: VENDOR_DATA, pictures: shots.map((shot) => shot.picture), issue: site.key }];
    },
  },
];

function documentKnown(scene: Scene, issue: number): boolean {
  return scene.plan.issues.some((each) => each.source === issue);
}

/** The same film with its second title held back as a whole; null where there is one title only. */
function secondTitleHeldBack(film: Film): Film | null {
  const title = film.titles[1]?.id;
  if (title === undefined) return null;
  const mine = (index: number | null): boolean => index !== null && film.issues[index]?.title === title;
  // Two takes of a page are both held back, so neither is marked against the other.
  if (film.reels.some((reel) => reel.shots.some((shot) => mine(shot.issue) && (shot.duplicateOf !== null || shot.retakeOf !== null))))
    return null;
  return {
    ...film,
    reels: film.reels.map((reel) => ({
      ...reel,
      shots: reel.shots.map((shot) => (mine(shot.issue) ? { ...shot, deliver: false, order: null, note: 'not ordered' } : shot)),
      wanting: reel.wanting.filter((index) => !mine(index)),
    })),
  };
}
