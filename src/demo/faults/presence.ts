import { plusDays } from '../days.js';
import type { Film, FilmShot } from '../film.js';
import { digestFor, type PlanIssue } from '../plan.js';
import {
  addDocument,
  allShots,
  captureOfPicture,
  capturesOf,
  deliver,
  documentOf,
  type Fault,
  holdBack,
  issueAt,
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
import { singles } from './sequence.js';

const isPage = (shot: FilmShot): boolean => shot.kind === 'page' && shot.deliver;
const ANY_VENDOR: Outcome['causes'] = ['vendor-metadata', 'vendor-image', 'unclear'];

/** Frames held back that repeat a delivered one of the same reel, one at a time. */
function heldTwins(scene: Scene, test: (held: FilmShot, wanted: FilmShot) => boolean): Site[] {
  const { film } = scene;
  return allShots(film).flatMap(({ shot, reel }) => {
    if (shot.kind !== 'page' || shot.deliver) return [];
    const other = wantedTwin(film, shot);
    if (other === null || locate(film, other.picture).reel !== reel || !test(shot, other)) return [];
    return [pictureSite(shot, [other])];
  });
}

/** The delivered picture of the same page. */
function wantedTwin(film: Film, held: FilmShot): FilmShot | null {
  return allShots(film).find(({ shot }) => isPage(shot) && shot.issue === held.issue && shot.place === held.place)?.shot ?? null;
}

/** Issues of which every page is on the reel twice, one whole take behind the other. */
function filmedTwice(scene: Scene): Site[] {
  return ordinaryIssues(scene, 2).flatMap((issue) => {
    const shots = shotsOfIssue(scene.film, issue);
    const held = shots.filter((shot) => !shot.deliver);
    const reels = new Set(shots.map((shot) => locate(scene.film, shot.picture).reel));
    return held.length * 2 === shots.length && reels.size === 1 ? [issueSite(scene.film, issue)] : [];
  });
}

/** Issues of which one take is on one reel and the other on the next. */
function onBothReels(scene: Scene): Site[] {
  return ordinaryIssues(scene, 2).flatMap((issue) => {
    const shots = shotsOfIssue(scene.film, issue);
    const held = shots.filter((shot) => !shot.deliver);
    const on = (list: readonly FilmShot[]): number[] => [...new Set(list.map((shot) => locate(scene.film, shot.picture).reel))];
    const [a, b] = [on(held), on(shots.filter(isPage))];
    return held.length * 2 === shots.length && a.length === 1 && b.length === 1 && a[0] !== b[0] ? [issueSite(scene.film, issue)] : [];
  });
}

function copyOf(document: PlanIssue, change: Partial<PlanIssue>): PlanIssue {
  return { ...structuredClone(document), absent: [], source: null, ...change };
}

/** The label that stands on the paper, as a vendor gives it. */
export function printedLabel(shot: FilmShot): string | null {
  return shot.pagePrinted === '-' ? null : (shot.pagePrinted ?? shot.page);
}

/** What goes wrong with what is delivered and what is held back. */
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
    kind: 'wrong-take-of-page',
    codes: ['wrong-take-delivered'],
    says: 'Of a page filmed twice the take to be held back was delivered.',
    sites: (scene) => heldTwins(scene, (held, wanted) => held.retakeOf === null && (wanted.retakeOf !== null || held.duplicateOf !== null)),
    plant: (scene, site) => {
      const held = locate(scene.film, site.key).shot;
      const wanted = wantedTwin(scene.film, held);
      const [poor, good] = [captureOfPicture(scene.plan, site.key), captureOfPicture(scene.plan, wanted?.picture ?? 0)];
      deliver(poor, good.issue ?? 0, good.order ?? 1, good.page, good.section);
      holdBack(good);
      return [{ code: 'wrong-take-delivered', causes: VENDOR_DATA, pictures: [wanted?.picture ?? 0], issue: held.issue }];
    },
  },
  {
    kind: 'wrong-take-of-issue',
    codes: ['wrong-take-delivered'],
    says: 'Of an issue filmed twice the take to be held back was delivered.',
    sites: filmedTwice,
    plant: (scene, site) => {
      const wanted = pagesOf(scene.film, site.key);
      for (const shot of shotsOfIssue(scene.film, site.key).filter((each) => !each.deliver)) {
        const good = captureOfPicture(scene.plan, wanted.find((each) => each.place === shot.place)?.picture ?? 0);
        deliver(captureOfPicture(scene.plan, shot.picture), good.issue ?? 0, good.order ?? 1, good.page, good.section);
        holdBack(good);
      }
      return [{ code: 'wrong-take-delivered', causes: VENDOR_DATA, pictures: wanted.map((shot) => shot.picture), issue: site.key }];
    },
  },
  {
    kind: 'duplicate-as-page',
    codes: ['duplicate-delivered-as-page'],
    says: 'A page filmed twice hides that the next one is wanting: the duplicate was delivered under its number.',
    reshape: duplicateHidesWanting,
    sites: (scene) =>
      heldTwins(scene, (held) => {
        const issue = held.issue === null ? undefined : scene.film.issues[held.issue];
        return issue?.wanting.some((page) => page.order === (held.place ?? 0) + 1) ?? false;
      }),
    plant: (scene, site) => {
      const held = locate(scene.film, site.key).shot;
      const { document, index } = documentOf(scene.plan, held.issue ?? 0);
      const order = (held.place ?? 0) + 1;
      const stated = document.absent.find((page) => page.order === order);
      document.absent = document.absent.filter((page) => page.order !== order);
      deliver(captureOfPicture(scene.plan, site.key), index, order, stated?.page ?? String(order), stated?.section ?? null);
      return [{ code: 'duplicate-delivered-as-page', causes: VENDOR_DATA, pictures: [site.key], issue: held.issue }];
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
    kind: 'delivery-inverted',
    codes: ['delivery-inverted'],
    says: 'In one issue the marks for deliver and hold back were read the wrong way round.',
    sites: (scene) =>
      ordinaryIssues(scene, 4).flatMap((issue) => {
        const shots = shotsOfIssue(scene.film, issue);
        const held = shots.filter((shot) => !shot.deliver);
        const reels = new Set(shots.map((shot) => locate(scene.film, shot.picture).reel));
        return held.length > 0 && held.length * 2 < shots.length && reels.size === 1 ? [issueSite(scene.film, issue)] : [];
      }),
    plant: (scene, site) => {
      const shots = shotsOfIssue(scene.film, site.key);
      const { index } = documentOf(scene.plan, site.key);
      for (const shot of shots) {
        const capture = captureOfPicture(scene.plan, shot.picture);
        if (shot.deliver) holdBack(capture);
        else deliver(capture, index, shot.place ?? 1, printedLabel(shot), shot.section);
      }
      return [{ code: 'delivery-inverted', causes: VENDOR_DATA, pictures: shots.map((shot) => shot.picture), issue: site.key }];
    },
  },
  {
    kind: 'duplicate-delivered-too',
    codes: ['suppressed-frame-delivered'],
    says: 'A duplicate to be held back was delivered beside the page itself.',
    sites: (scene) => heldTwins(scene, (held) => held.duplicateOf !== null),
    plant: (scene, site) => {
      const held = locate(scene.film, site.key).shot;
      const { index } = documentOf(scene.plan, held.issue ?? 0);
      const place = held.place ?? 0;
      for (const capture of capturesOf(scene.plan, index)) if ((capture.order ?? 0) > place) capture.order = (capture.order ?? 0) + 1;
      for (const absent of scene.plan.issues[index]?.absent ?? []) if (absent.order > place) absent.order += 1;
      deliver(captureOfPicture(scene.plan, site.key), index, place + 1, printedLabel(held), held.section);
      return [{ code: 'suppressed-frame-delivered', causes: VENDOR_DATA, pictures: [site.key], issue: held.issue }];
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
        digest: digestFor(900000 + site.key, 0),
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
    kind: 'retake-left-at-end',
    codes: ['retake-not-placed'],
    says: 'Pages refilmed at the end of the reel were delivered there as an issue of their own, and the ruined frames in their place.',
    sites: (scene) =>
      ordinaryIssues(scene, 2).flatMap((issue) => {
        const late = lateRetakes(scene.film, issue);
        return late.length > 0 ? [issueSite(scene.film, issue)] : [];
      }),
    plant: (scene, site) => {
      const late = lateRetakes(scene.film, site.key);
      const { document, index } = documentOf(scene.plan, site.key);
      const extra = addDocument(scene.plan, copyOf(document, { edition: document.edition + 1 }));
      late.forEach((shot, i) => {
        const good = captureOfPicture(scene.plan, shot.picture);
        deliver(captureOfPicture(scene.plan, shot.twin ?? 0), index, shot.order ?? 1, good.page, good.section);
        deliver(good, extra, i + 1, good.page, good.section);
      });
      return [{ code: 'retake-not-placed', causes: VENDOR_DATA, pictures: late.map((shot) => shot.picture), issue: site.key }];
    },
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
      const date = plusDays(model.date, 35);
      const index = addDocument(scene.plan, copyOf(model, { date, datePrinted: null, edition: 1, editionLabel: null, issueNumber: null }));
      for (let n = 1; n <= 4; n += 1) {
        const base = { frame: String(last.exposure + n), reel: reel?.number ?? '', picture: 0, use: 'page' as const, issue: index };
        const size = { width: 4720 + n, height: 6540, digest: digestFor(800000 + n, site.key) };
        captures.push({ ...base, ...size, order: n, page: String(n), section: null });
      }
      recount(scene.plan);
      return [{ code: 'issue-not-in-collation', causes: UNCLEAR, pictures: [], at: last.picture, issue: null, date }];
    },
  },
  {
    kind: 'both-takes-delivered',
    codes: ['issue-delivered-twice'],
    says: 'An issue filmed twice was delivered as two editions of the day.',
    sites: filmedTwice,
    plant: (scene, site) => {
      const { document } = documentOf(scene.plan, site.key);
      const held = shotsOfIssue(scene.film, site.key).filter((shot) => !shot.deliver);
      const extra = addDocument(scene.plan, copyOf(document, {}));
      document.edition += 1;
      held.forEach((shot) => {
        deliver(captureOfPicture(scene.plan, shot.picture), extra, shot.place ?? 1, printedLabel(shot), shot.section);
      });
      return [{ code: 'issue-delivered-twice', causes: VENDOR_DATA, pictures: held.map((shot) => shot.picture), issue: site.key }];
    },
  },
  {
    kind: 'both-reels-delivered',
    codes: ['delivered-from-both-reels'],
    says: 'An issue that stands on two reels was delivered from both.',
    sites: onBothReels,
    plant: (scene, site) => {
      const { document } = documentOf(scene.plan, site.key);
      const held = shotsOfIssue(scene.film, site.key).filter((shot) => !shot.deliver);
      const reel = locate(scene.film, held[0]?.picture ?? 0).reel;
      const extra = addDocument(scene.plan, copyOf(document, { reel }));
      held.forEach((shot) => {
        deliver(captureOfPicture(scene.plan, shot.picture), extra, shot.place ?? 1, printedLabel(shot), shot.section);
      });
      return [{ code: 'delivered-from-both-reels', causes: VENDOR_DATA, pictures: held.map((shot) => shot.picture), issue: site.key }];
    },
  },
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

/** Retakes of an issue that stand behind everything else of it on the reel, away from their place. */
function lateRetakes(film: Film, issue: number): FilmShot[] {
  return shotsOfIssue(film, issue).filter((shot) => {
    if (shot.retakeOf === null || shot.twin === null || !isPage(shot)) return false;
    const [good, bad] = [locate(film, shot.picture), locate(film, shot.twin)];
    return good.reel === bad.reel && good.index - bad.index > 4;
  });
}

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

/** Turns one page of the film into a second picture of the page before it, and has the page itself wanting. */
function duplicateHidesWanting(film: Film): Film | null {
  const found = allShots(film).find(({ shot, reel, index }) => {
    const before = film.reels[reel]?.shots[index - 1];
    const plain = isPage(shot) && shot.half === '' && before?.half === '' && isPage(before);
    const own = shot.retakeOf === null && before?.retakeOf === null && shotsOfIssue(film, shot.issue ?? -1).every((each) => each.deliver);
    return (
      plain &&
      own &&
      shot.issue === before.issue &&
      (shot.order ?? 0) === (before.order ?? 0) + 1 &&
      (shot.order ?? 0) > 2 &&
      film.issues[shot.issue ?? -1]?.wanting.length === 0
    );
  });
  const before = film.reels[found?.reel ?? 0]?.shots[(found?.index ?? 0) - 1];
  if (found === undefined || before === undefined) return null;
  const { shot } = found;
  const gone = { page: shot.page ?? '', section: shot.section, order: shot.order ?? 0, published: 'yes' as const };
  const repeat = {
    ...before,
    frame: shot.frame,
    exposure: shot.exposure,
    deliver: false,
    order: null,
    duplicateOf: before.frame,
    picture: shot.picture,
    twin: before.picture,
  };
  return {
    ...film,
    issues: film.issues.map((issue, i) => (i === shot.issue ? { ...issue, wanting: [gone] } : issue)),
    reels: film.reels.map((reel, r) =>
      r !== found.reel
        ? reel
        : {
            ...reel,
            shots: reel.shots.map((each) => (each.picture === shot.picture ? repeat : each)),
            wanting: [...reel.wanting, shot.issue ?? 0],
          },
    ),
  };
}
