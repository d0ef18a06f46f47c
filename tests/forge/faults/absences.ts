import { plusDays } from '../film/days.js';
import { copyOf } from './document-fault.js';
import {
  ANY_VENDOR,
  addDocument,
  captureOfPicture,
  documentOf,
  type Fault,
  holdBack,
  issueAt,
  issueSite,
  locate,
  ordinaryIssues,
  pagesOf,
  pictureSite,
  VENDOR_DATA,
} from './scene.js';

/** What goes wrong with statements about what is not on the film. */
export const ABSENCE_FAULTS: readonly Fault[] = [
  {
    kind: 'absent-page-not-stated',
    codes: ['absence-not-stated'],
    says: 'A page known to be wanting has no statement.',
    sites: (scene) =>
      ordinaryIssues(scene).flatMap((issue) => (issueAt(scene.film, issue).wanting.length > 0 ? [issueSite(scene.film, issue)] : [])),
    plant: (scene, site) => {
      documentOf(scene.plan, site.key).document.absent = [];
      return [{ code: 'absence-not-stated', causes: VENDOR_DATA, pictures: [], issue: site.key }];
    },
  },
  {
    kind: 'wanting-page-called-present',
    codes: ['absence-not-stated'],
    says: 'A page known to be wanting is described as present, without a frame.',
    sites: (scene) =>
      ordinaryIssues(scene).flatMap((issue) => (issueAt(scene.film, issue).wanting.length === 1 ? [issueSite(scene.film, issue)] : [])),
    plant: (scene, site) => {
      for (const page of documentOf(scene.plan, site.key).document.absent) page.statement = 'present';
      return [{ code: 'absence-not-stated', causes: VENDOR_DATA, pictures: [], issue: site.key }];
    },
  },
  {
    kind: 'absence-published-wrong',
    codes: ['absence-stated-wrongly'],
    says: 'A page that was published is said not to have been published.',
    sites: (scene) =>
      ordinaryIssues(scene).flatMap((issue) =>
        issueAt(scene.film, issue).wanting.some((page) => page.published === 'yes') ? [issueSite(scene.film, issue)] : [],
      ),
    plant: (scene, site) => {
      for (const page of documentOf(scene.plan, site.key).document.absent) page.statement = 'not-published';
      return [{ code: 'absence-stated-wrongly', causes: VENDOR_DATA, pictures: [], issue: site.key }];
    },
  },
  {
    kind: 'phantom-absences',
    codes: ['absence-stated-wrongly'],
    says: 'Days on which no issue came out are reported as wanting issues, one after the other.',
    sites: (scene) => ordinaryIssues(scene, 2).map((issue) => issueSite(scene.film, issue)),
    plant: (scene, site) => {
      const { document } = documentOf(scene.plan, site.key);
      const taken = new Set(scene.film.issues.filter((issue) => issue.title === document.title).map((issue) => issue.date));
      const title = scene.film.titles.find((each) => each.id === document.title);
      const free = [1, 2, 3, 4, 5, 6, 7].map((n) => plusDays(document.date, n)).filter((date) => !taken.has(date));
      const dates = title?.patterns[0]?.frequency === 'w' ? free.slice(0, 3) : free.slice(0, 1);
      for (const date of dates)
        addDocument(
          scene.plan,
          copyOf(document, {
            date,
            datePrinted: null,
            edition: 1,
            editionLabel: null,
            volume: null,
            issueNumber: null,
            statement: 'published',
          }),
        );
      return dates.length === 0
        ? []
        : [{ code: 'absence-stated-wrongly', causes: VENDOR_DATA, pictures: [], issue: site.key, date: dates[0] ?? '' }];
    },
  },
  {
    kind: 'torn-page-said-missing',
    codes: ['absence-stated-wrongly'],
    says: 'A page that is on the film was held back and is said to be wanting.',
    sites: (scene) => ordinaryIssues(scene, 4).flatMap((issue) => pagesOf(scene.film, issue).map((shot) => pictureSite(shot))),
    plant: (scene, site) => {
      const shot = locate(scene.film, site.key).shot;
      const capture = captureOfPicture(scene.plan, site.key);
      const { document } = documentOf(scene.plan, shot.issue ?? 0);
      document.absent.push({ order: shot.order ?? 1, page: capture.page, section: capture.section, statement: 'published' });
      holdBack(capture);
      return [{ code: 'absence-stated-wrongly', causes: ANY_VENDOR, pictures: [site.key], issue: shot.issue }];
    },
  },
];
