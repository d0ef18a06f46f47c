import { type Film, type FilmShot } from '../film/film.js';
import { copyOf, printedLabel } from './document-fault.js';
import {
  addDocument,
  allShots,
  captureOfPicture,
  capturesOf,
  deliver,
  documentOf,
  type Fault,
  holdBack,
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
import { isPage } from './sites.js';

/** What goes wrong where the film shows a page more than once. */
export const TAKE_FAULTS: readonly Fault[] = [
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
];

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

/** Retakes of an issue that stand behind everything else of it on the reel, away from their place. */
function lateRetakes(film: Film, issue: number): FilmShot[] {
  return shotsOfIssue(film, issue).filter((shot) => {
    if (shot.retakeOf === null || shot.twin === null || !isPage(shot)) return false;
    const [good, bad] = [locate(film, shot.picture), locate(film, shot.twin)];
    return good.reel === bad.reel && good.index - bad.index > 4;
  });
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
