import { plusDays } from '../film/days.js';
import { type FilmShot } from '../film/film.js';
import { imageOf } from '../plan.js';
import { copyOf } from './document-fault.js';
import {
  ANY_VENDOR,
  addDocument,
  captureOfPicture,
  capturesOf,
  deliver,
  documentOf,
  type Fault,
  holdBack,
  issueSite,
  locate,
  type Outcome,
  ordinaryIssues,
  pagesOf,
  pictureSite,
  recount,
  removeDocument,
  renumberFrom,
  type Scene,
  type Site,
  shotsOfIssue,
  UNCLEAR,
  VENDOR_DATA,
} from './scene.js';
import { isPage, singles } from './sites.js';

/** What goes wrong with what is delivered. */
export const PRESENCE_FAULTS: readonly Fault[] = [
  {
    kind: 'page-not-delivered',
    codes: ['page-not-delivered'],
    says: 'A page was scanned and left out of its issue.',
    sites: (scene) => ordinaryIssues(scene, 4).flatMap((issue) => pagesOf(scene.film, issue).map((shot) => pictureSite(shot))),
    plant: (scene, site) => {
      holdBack(captureOfPicture(scene.plan, site.key));
      return [{ code: 'page-not-delivered', causes: ANY_VENDOR, pictures: [site.key], issue: locate(scene.film, site.key).shot.issue }];
    },
  },
  {
    kind: 'page-not-delivered-order-closed',
    codes: ['page-not-delivered'],
    says: 'A page was left out and the pages after it were counted up to close the hole.',
    sites: (scene) =>
      ordinaryIssues(scene, 4).flatMap((issue) =>
        pagesOf(scene.film, issue)
          .slice(1, -1)
          .map((shot) => pictureSite(shot)),
      ),
    plant: (scene, site) => {
      const shot = locate(scene.film, site.key).shot;
      const gone = captureOfPicture(scene.plan, site.key);
      for (const capture of capturesOf(scene.plan, gone.issue ?? -1))
        if ((capture.order ?? 0) > (shot.order ?? 0)) capture.order = (capture.order ?? 0) - 1;
      for (const absent of scene.plan.issues[gone.issue ?? -1]?.absent ?? []) if (absent.order > (shot.order ?? 0)) absent.order -= 1;
      holdBack(gone);
      return [{ code: 'page-not-delivered', causes: ANY_VENDOR, pictures: [site.key], issue: shot.issue }];
    },
  },
  {
    kind: 'issue-not-delivered',
    codes: ['issue-not-delivered'],
    says: 'A whole issue was left out; its frames were scanned and counted.',
    sites: (scene) => ordinaryIssues(scene, 2).map((issue) => issueSite(scene.film, issue)),
    plant: (scene, site) => {
      removeDocument(scene.plan, documentOf(scene.plan, site.key).index);
      return [
        {
          code: 'issue-not-delivered',
          causes: ANY_VENDOR,
          pictures: pagesOf(scene.film, site.key).map((shot) => shot.picture),
          issue: site.key,
        },
      ];
    },
  },
  {
    kind: 'page-added',
    codes: ['page-not-in-collation'],
    says: 'An issue has one page more than the record knows, with a number and an image of its own.',
    sites: (scene) =>
      ordinaryIssues(scene, 2).flatMap((issue) => {
        const last = pagesOf(scene.film, issue).at(-1);
        const film = shotsOfIssue(scene.film, issue).at(-1);
        return last !== undefined && last === film && last.half === '' && /^\d+$/.test(last.page ?? '') ? [pictureSite(last)] : [];
      }),
    plant: (scene, site) => {
      const { reel, shot } = locate(scene.film, site.key);
      const captures = scene.plan.reels[reel]?.captures ?? [];
      const place = captures.findIndex((capture) => capture.picture === site.key);
      const last = captureOfPicture(scene.plan, site.key);
      const frame = String(Number.parseInt(last.frame, 10) + 1);
      renumberFrom(scene.plan, reel, place + 1, 1);
      const label = String(Number(shot.page) + 1);
      captures.splice(place + 1, 0, {
        ...last,
        picture: 0,
        frame,
        order: (last.order ?? 0) + 1,
        page: label,
        image: imageOf(900000 + site.key, 0),
      });
      recount(scene.plan);
      return [
        {
          code: 'page-not-in-collation',
          causes: ['unclear', 'collation', 'vendor-image'],
          pictures: [],
          at: site.key,
          shift: { reel, by: 1 },
          issue: shot.issue,
        },
      ];
    },
  },
  {
    kind: 'target-as-page',
    codes: ['non-page-delivered'],
    says: 'A target was delivered as the first page of an issue; the pages after it were counted on.',
    sites: (scene) => beforeIssues(scene, (shot) => shot.kind === 'target'),
    plant: (scene, site) => nonPage(scene, site, 'front'),
  },
  {
    kind: 'blank-as-page',
    codes: ['non-page-delivered'],
    says: 'The blank before an issue was delivered as its first page.',
    sites: (scene) => beforeIssues(scene, (shot) => shot.kind === 'blank'),
    plant: (scene, site) => nonPage(scene, site, 'front'),
  },
  {
    kind: 'end-target-as-page',
    codes: ['non-page-delivered'],
    says: 'The last target of the reel was delivered as the last page of the last issue.',
    sites: (scene) =>
      scene.film.reels.flatMap((reel) => {
        const [before, last] = [reel.shots.at(-2), reel.shots.at(-1)];
        return before !== undefined && last !== undefined && isPage(before) && last.kind === 'target' ? [pictureSite(last, [before])] : [];
      }),
    plant: (scene, site) => nonPage(scene, site, 'back'),
  },
  {
    kind: 'void-as-page',
    codes: ['non-page-delivered'],
    says: 'A punched frame was delivered as a page.',
    sites: (scene) => beforeIssues(scene, (shot) => shot.kind === 'void', true),
    plant: (scene, site) => nonPage(scene, site, 'front'),
  },
  {
    kind: 'issue-unknown-to-record',
    codes: ['issue-not-in-collation'],
    says: 'Behind the last frame of the reel follow the pages of an issue that the record does not have.',
    alone: true,
    sites: (scene) => scene.film.reels.map((_, key) => ({ key, pictures: [], issues: [] })),
    plant: (scene, site) => {
      const reel = scene.film.reels[site.key];
      const captures = scene.plan.reels[site.key]?.captures;
      const last = reel?.shots.at(-1);
      const model = scene.plan.issues.findLast((each) => each.reel === site.key && each.statement === 'present');
      if (captures === undefined || last === undefined || model === undefined) return [];
      // A day of which there is no issue of that title anywhere in the batch.
      let date = plusDays(model.date, 35);
      while (scene.plan.issues.some((each) => each.title === model.title && each.date === date)) date = plusDays(date, 35);
      const index = addDocument(scene.plan, copyOf(model, { date, datePrinted: null, edition: 1, editionLabel: null, issueNumber: null }));
      for (let n = 1; n <= 4; n += 1) {
        const base = { frame: String(last.exposure + n), reel: reel?.number ?? '', picture: 0, use: 'page' as const, issue: index };
        const size = { width: 4720 + n, height: 6540, image: imageOf(800000 + n, site.key) };
        captures.push({ ...base, ...size, order: n, page: String(n), section: null });
      }
      recount(scene.plan);
      return [{ code: 'issue-not-in-collation', causes: UNCLEAR, pictures: [], at: last.picture, issue: null, date }];
    },
  },
];

/** Frames of a kind right before the first page of an issue, or before any page of one. */
function beforeIssues(scene: Scene, test: (shot: FilmShot) => boolean, anywhere = false): Site[] {
  return singles(scene, test).flatMap((site) => {
    const { reel, index, shot } = locate(scene.film, site.key);
    const next = scene.film.reels[reel]?.shots[index + 1];
    const fits = next !== undefined && isPage(next) && (anywhere || next.order === 1);
    return fits && scene.plan.issues.some((each) => each.source === next.issue) ? [pictureSite(shot, [next])] : [];
  });
}

/** Delivers a frame that is no page inside the issue beside it; the pages behind it are counted on. */
function nonPage(scene: Scene, site: Site, where: 'front' | 'back'): Outcome[] {
  const { reel, index } = locate(scene.film, site.key);
  const next = scene.film.reels[reel]?.shots[where === 'front' ? index + 1 : index - 1];
  const capture = captureOfPicture(scene.plan, site.key);
  const beside = captureOfPicture(scene.plan, next?.picture ?? 0);
  const order =
    where === 'front' ? (beside.order ?? 1) : Math.max(...capturesOf(scene.plan, beside.issue ?? 0).map((each) => each.order ?? 0)) + 1;
  for (const each of capturesOf(scene.plan, beside.issue ?? 0)) if ((each.order ?? 0) >= order) each.order = (each.order ?? 0) + 1;
  for (const absent of scene.plan.issues[beside.issue ?? 0]?.absent ?? []) if (absent.order >= order) absent.order += 1;
  deliver(capture, beside.issue ?? 0, order, null, null);
  return [{ code: 'non-page-delivered', causes: VENDOR_DATA, pictures: [site.key], issue: next?.issue ?? null }];
}
