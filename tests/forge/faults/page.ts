import type { FilmShot } from '../film/film.js';
import type { Capture } from '../plan.js';
import {
  captureOfPicture,
  capturesOf,
  documentOf,
  type Fault,
  issueAt,
  issueSite,
  locate,
  ordinaryIssues,
  pagesOf,
  pictureSite,
  type Scene,
  type Site,
  shotsOfIssue,
  VENDOR_DATA,
} from './scene.js';

/** Pages of ordinary issues that satisfy a test. */
function pages(scene: Scene, test: (shot: FilmShot, list: readonly FilmShot[]) => boolean): Site[] {
  return ordinaryIssues(scene, 4).flatMap((issue) => {
    const list = pagesOf(scene.film, issue);
    return list.filter((shot) => test(shot, list)).map((shot) => pictureSite(shot, list));
  });
}

/** Issues whose pages satisfy a test. */
function issues(scene: Scene, test: (list: readonly FilmShot[]) => boolean): Site[] {
  return ordinaryIssues(scene, 4).flatMap((issue) => (test(pagesOf(scene.film, issue)) ? [issueSite(scene.film, issue)] : []));
}

const plainNumber = (shot: FilmShot): boolean => /^\d+$/.test(shot.page ?? '') && shot.pagePrinted === null;

function exchange(a: Capture, b: Capture, keys: readonly ('page' | 'order' | 'section')[]): void {
  for (const key of keys) {
    const [left, right] = [a[key], b[key]];
    Object.assign(a, { [key]: right });
    Object.assign(b, { [key]: left });
  }
}

/** What goes wrong with page labels, order and sections. */
export const PAGE_FAULTS: readonly Fault[] = [
  {
    kind: 'mispagination-repaired',
    codes: ['page-number-differs'],
    says: 'A misprinted page number was put right instead of being copied.',
    sites: (scene) => pages(scene, (shot) => shot.pagePrinted !== null && shot.pagePrinted !== '-'),
    plant: (scene, site) => {
      const { shot } = locate(scene.film, site.key);
      captureOfPicture(scene.plan, site.key).page = shot.page;
      return [{ code: 'page-number-differs', causes: VENDOR_DATA, pictures: [site.key], issue: shot.issue }];
    },
  },
  {
    kind: 'page-number-misread',
    codes: ['page-number-differs'],
    says: 'The number of one page was misread.',
    sites: (scene) => pages(scene, plainNumber),
    plant: (scene, site) => {
      const { shot } = locate(scene.film, site.key);
      captureOfPicture(scene.plan, site.key).page = String(Number(shot.page) + 70);
      return [{ code: 'page-number-differs', causes: VENDOR_DATA, pictures: [site.key], issue: shot.issue }];
    },
  },
  {
    kind: 'page-number-left-out',
    codes: ['page-number-differs'],
    says: 'A page that prints its number was given none.',
    sites: (scene) => pages(scene, plainNumber),
    plant: (scene, site) => {
      captureOfPicture(scene.plan, site.key).page = null;
      return [{ code: 'page-number-differs', causes: VENDOR_DATA, pictures: [site.key], issue: locate(scene.film, site.key).shot.issue }];
    },
  },
  {
    kind: 'page-numbers-one-on',
    codes: ['page-numbers-shifted'],
    says: 'From one page to the end of the issue every page number is too high by one.',
    sites: (scene) => pages(scene, (shot, list) => (shot.order ?? 0) === 2 && list.slice(1).every(plainNumber) && list.length >= 4),
    plant: (scene, site) => {
      const { shot } = locate(scene.film, site.key);
      const later = pagesOf(scene.film, shot.issue ?? 0).filter((each) => (each.order ?? 0) >= 2);
      for (const each of later) captureOfPicture(scene.plan, each.picture).page = String(Number(each.page) + 1);
      return [{ code: 'page-numbers-shifted', causes: VENDOR_DATA, pictures: later.map((each) => each.picture), issue: shot.issue }];
    },
  },
  {
    kind: 'order-turned',
    codes: ['page-order-differs'],
    says: 'Three pages stand in another order in the issue; their labels and frames are right.',
    sites: (scene) => issues(scene, (list) => list.length >= 4),
    plant: (scene, site) => {
      const [, a, b, c] = pagesOf(scene.film, site.key).map((shot) => captureOfPicture(scene.plan, shot.picture));
      if (a === undefined || b === undefined || c === undefined) return [];
      [a.order, b.order, c.order] = [b.order, c.order, a.order];
      return [{ code: 'page-order-differs', causes: VENDOR_DATA, pictures: [a.picture, b.picture, c.picture], issue: site.key }];
    },
  },
  {
    kind: 'filming-order-kept',
    codes: ['page-order-differs'],
    says: 'Pages that were filmed out of order were left in the order of the film.',
    sites: (scene) =>
      issues(scene, (list) => {
        const filmed = filmOrder(scene, list);
        const off = list.filter((shot, i) => filmed[i] !== shot);
        return (
          off.length === 2 &&
          list.every((shot) => shot.retakeOf === null && !shot.supplement) &&
          shotsOfIssue(scene.film, list[0]?.issue ?? 0).length === list.length
        );
      }),
    plant: (scene, site) => {
      const list = pagesOf(scene.film, site.key);
      const off = list.filter((shot, i) => filmOrder(scene, list)[i] !== shot);
      const [a, b] = off.map((shot) => captureOfPicture(scene.plan, shot.picture));
      if (a === undefined || b === undefined) return [];
      exchange(a, b, ['order']);
      return [{ code: 'page-order-differs', causes: VENDOR_DATA, pictures: [a.picture, b.picture], issue: site.key }];
    },
  },
  {
    kind: 'pages-swapped',
    codes: ['pages-swapped'],
    says: "Two neighbouring pages carry each other's number and place.",
    sites: (scene) =>
      issues(scene, (list) => {
        const [, a, b] = list;
        // Two halves of one exposure would look like halves exchanged.
        return (
          a !== undefined &&
          b !== undefined &&
          [a, b].every(plainNumber) &&
          (a.half === '' || Number.parseInt(a.frame, 10) !== Number.parseInt(b.frame, 10))
        );
      }),
    plant: (scene, site) => {
      const [, a, b] = pagesOf(scene.film, site.key).map((shot) => captureOfPicture(scene.plan, shot.picture));
      if (a === undefined || b === undefined) return [];
      exchange(a, b, ['page', 'order']);
      return [{ code: 'pages-swapped', causes: VENDOR_DATA, pictures: [a.picture, b.picture], issue: site.key }];
    },
  },
  {
    kind: 'section-misread',
    codes: ['section-differs'],
    says: 'The letter of a section was misread; the page labels are right.',
    sites: (scene) => issues(scene, (list) => list.some((shot) => shot.section === 'B')),
    plant: (scene, site) => {
      const second = pagesOf(scene.film, site.key).filter((shot) => shot.section === 'B');
      for (const shot of second) captureOfPicture(scene.plan, shot.picture).section = 'D';
      return [{ code: 'section-differs', causes: VENDOR_DATA, pictures: second.map((shot) => shot.picture), issue: site.key }];
    },
  },
  {
    kind: 'sections-flattened',
    codes: ['sections-flattened'],
    says: 'The sections of an issue were left out and its pages counted through.',
    sites: (scene) => issues(scene, (list) => list.some((shot) => shot.section === 'B')),
    plant: (scene, site) => {
      const list = pagesOf(scene.film, site.key);
      for (const shot of list) Object.assign(captureOfPicture(scene.plan, shot.picture), { section: null, page: String(shot.order) });
      for (const page of documentOf(scene.plan, site.key).document.absent) Object.assign(page, { section: null, page: String(page.order) });
      return [{ code: 'sections-flattened', causes: VENDOR_DATA, pictures: list.map((shot) => shot.picture), issue: site.key }];
    },
  },
  {
    kind: 'supplement-counted-in',
    codes: ['supplement-misplaced'],
    says: 'A supplement filmed inside its issue was counted as pages of the issue where it lay.',
    sites: (scene) =>
      issues(scene, (list) => {
        const inside = filmOrder(scene, list).findIndex((shot) => shot.supplement);
        return (
          inside > 0 &&
          inside < list.length - 2 &&
          list.every((shot) => shot.retakeOf === null) &&
          list.every((shot) => shot.supplement || plainNumber(shot) || shot.order === 1) &&
          issueAt(scene.film, list[0]?.issue ?? 0).wanting.length === 0
        );
      }),
    plant: (scene, site) => {
      const filmed = filmOrder(scene, pagesOf(scene.film, site.key));
      const base = Number(filmed[0]?.page ?? '1') - 1;
      const changed = filmed.filter((shot, i) => {
        const capture = captureOfPicture(scene.plan, shot.picture);
        capture.order = i + 1;
        capture.section = null;
        if (i > 0) capture.page = String(base + i + 1);
        return shot.order !== i + 1;
      });
      return [{ code: 'supplement-misplaced', causes: VENDOR_DATA, pictures: changed.map((shot) => shot.picture), issue: site.key }];
    },
  },
  {
    kind: 'same-image-twice',
    codes: ['same-image-twice'],
    says: 'The image file of one page is a copy of the page before.',
    sites: (scene) => pages(scene, (shot) => (shot.order ?? 0) > 1),
    plant: (scene, site) => {
      const capture = captureOfPicture(scene.plan, site.key);
      const list = capturesOf(scene.plan, capture.issue ?? 0);
      const before = list[list.indexOf(capture) - 1];
      if (before === undefined) return [];
      Object.assign(capture, { image: before.image, width: before.width, height: before.height });
      const pictures = [before.picture, capture.picture];
      return [
        { code: 'same-image-twice', causes: ['vendor-image', 'vendor-metadata'], pictures, issue: locate(scene.film, site.key).shot.issue },
      ];
    },
  },
];

/** The same pages in the order of the film. */
function filmOrder(scene: Scene, list: readonly FilmShot[]): FilmShot[] {
  return shotsOfIssue(scene.film, list[0]?.issue ?? 0, true);
}
