import type { FilmShot } from '../film.js';
import { moved } from '../frame-text.js';
import { type Capture, digestFor } from '../plan.js';
import {
  allShots,
  captureOfPicture,
  documentOf,
  type Fault,
  issueAt,
  locate,
  type Outcome,
  pictureSite,
  recount,
  renumberFrom,
  type Scene,
  type Site,
  shotsOfIssue,
  UNCLEAR,
  VENDOR_DATA,
  VENDOR_IMAGE,
} from './scene.js';

/** Frames standing alone on their exposure that satisfy a test, with the frames before and after as territory. */
export function singles(scene: Scene, test: (shot: FilmShot) => boolean): Site[] {
  return scene.film.reels.flatMap((reel) =>
    reel.shots.flatMap((shot, i) => {
      if (shot.half !== '' || !test(shot) || i === 0 || i === reel.shots.length - 1) return [];
      return [
        pictureSite(
          shot,
          [reel.shots[i - 1], reel.shots[i + 1]].filter((each) => each !== undefined),
        ),
      ];
    }),
  );
}

/** Leaves one exposure out and moves every later number down. */
function skip(scene: Scene, picture: number): Outcome['shift'] {
  const { reel } = locate(scene.film, picture);
  const captures = scene.plan.reels[reel]?.captures ?? [];
  const place = captures.findIndex((capture) => capture.picture === picture);
  captures.splice(place, 1);
  renumberFrom(scene.plan, reel, place, -1);
  recount(scene.plan);
  return { reel, by: -1 };
}

/** Takes one exposure a second time and moves every later number up. */
function repeat(scene: Scene, picture: number, use: 'held' | 'page'): Outcome['shift'] {
  const { reel } = locate(scene.film, picture);
  const captures = scene.plan.reels[reel]?.captures ?? [];
  const place = captures.findIndex((capture) => capture.picture === picture);
  const original = captures[place];
  if (original === undefined) throw new RangeError('The frame to take twice is not there.');
  renumberFrom(scene.plan, reel, place + 1, 1);
  const again: Capture = { ...original, frame: moved(original.frame, 1), digest: digestFor(picture, 1), width: original.width - 3 };
  if (use === 'held') Object.assign(again, { use: 'held', issue: null, order: null, page: null, section: null });
  else {
    for (const reelPlan of scene.plan.reels)
      for (const capture of reelPlan.captures)
        if (capture.issue === original.issue && (capture.order ?? 0) > (original.order ?? 0)) capture.order = (capture.order ?? 0) + 1;
    again.order = (original.order ?? 0) + 1;
  }
  captures.splice(place + 1, 0, again);
  recount(scene.plan);
  return { reel, by: 1 };
}

function skipFault(kind: string, says: string, causes: Outcome['causes'], test: (shot: FilmShot) => boolean): Fault {
  return {
    kind,
    codes: ['frame-not-scanned'],
    says,
    sites: (scene) => singles(scene, test).filter((site) => betweenPages(scene, site)),
    plant: (scene, site) => [
      {
        code: 'frame-not-scanned',
        causes,
        pictures: [],
        at: site.key,
        shift: skip(scene, site.key) ?? { reel: 0, by: 0 },
        issue: locate(scene.film, site.key).shot.issue,
      },
    ],
  };
}

function repeatFault(kind: string, says: string, use: 'held' | 'page', test: (shot: FilmShot) => boolean): Fault {
  return {
    kind,
    codes: ['frame-scanned-twice'],
    says,
    // An image that no document shows can only be placed by its neighbours.
    sites: (scene) => singles(scene, test).filter((site) => use === 'page' || betweenPages(scene, site)),
    plant: (scene, site) => [
      {
        code: 'frame-scanned-twice',
        causes: use === 'page' ? VENDOR_IMAGE : UNCLEAR,
        pictures: [],
        at: site.key,
        shift: repeat(scene, site.key, use) ?? { reel: 0, by: 0 },
        issue: locate(scene.film, site.key).shot.issue,
      },
    ],
  };
}

/** True between two delivered pages: among several frames that no document shows nobody can say which one was left out. */
function betweenPages(scene: Scene, site: Site): boolean {
  const { reel, index } = locate(scene.film, site.key);
  const shots = scene.film.reels[reel]?.shots ?? [];
  return [shots[index - 1], shots[index + 1]].every((shot) => shot !== undefined && isPage(shot));
}

const isPage = (shot: FilmShot): boolean => shot.kind === 'page' && shot.deliver;

/** The captures of a run of whole exposures, from one frame to another of the same reel. */
function runOf(
  scene: Scene,
  reel: number,
  from: number,
  to: number,
): { readonly shots: readonly FilmShot[]; readonly captures: readonly Capture[] } {
  const shots = (scene.film.reels[reel]?.shots ?? []).slice(from, to + 1);
  return { shots, captures: shots.map((shot) => captureOfPicture(scene.plan, shot.picture)) };
}

/** Numbers a run from its tail, halves kept on their side. */
function reverse(captures: readonly Capture[]): void {
  const exposures = captures.map((capture) => Number.parseInt(capture.frame, 10));
  const sum = Math.min(...exposures) + Math.max(...exposures);
  captures.forEach((capture, i) => {
    capture.frame = moved(capture.frame, sum - 2 * (exposures[i] ?? 0));
  });
}

/** Pairs of halves of a title, as places in the reel. */
function pairsOf(scene: Scene, reel: number): { readonly a: FilmShot; readonly b: FilmShot }[] {
  const shots = scene.film.reels[reel]?.shots ?? [];
  return shots.flatMap((a, i) => {
    const b = shots[i + 1];
    return a.half === 'A' && b !== undefined && b.half === 'B' ? [{ a, b }] : [];
  });
}

/** What goes wrong with numbers and the order of frames. */
export const SEQUENCE_FAULTS: readonly Fault[] = [
  skipFault('blank-skipped', 'A blank between two issues was not scanned.', UNCLEAR, (shot) => shot.kind === 'blank'),
  skipFault('target-skipped', 'A target inside the reel was not scanned.', UNCLEAR, (shot) => shot.kind === 'target'),
  skipFault('void-skipped', 'A punched frame was taken for nothing and not scanned.', UNCLEAR, (shot) => shot.kind === 'void'),
  skipFault(
    'held-back-skipped',
    'A frame to be held back was not scanned at all.',
    UNCLEAR,
    (shot) => shot.kind === 'page' && !shot.deliver,
  ),
  skipFault('page-skipped', 'A page was not scanned.', VENDOR_IMAGE, isPage),
  repeatFault('page-twice-delivered', 'The scanner stuttered: a page was taken twice and both images were delivered.', 'page', isPage),
  repeatFault('page-twice-held', 'A page was taken twice; the second image was held back but counted.', 'held', isPage),
  repeatFault('blank-twice', 'A blank was taken twice and counted twice.', 'held', (shot) => shot.kind === 'blank'),
  {
    kind: 'number-mistyped',
    codes: ['frame-number-wrong'],
    says: 'The number of one frame was mistyped, far from its place.',
    sites: (scene) => singles(scene, isPage),
    plant: (scene, site) => {
      const capture = captureOfPicture(scene.plan, site.key);
      capture.frame = moved(capture.frame, 1000);
      return [{ code: 'frame-number-wrong', causes: VENDOR_DATA, pictures: [site.key], issue: locate(scene.film, site.key).shot.issue }];
    },
  },
  {
    kind: 'numbers-jump',
    codes: ['frame-number-wrong'],
    says: 'The counter jumped: from one frame on every number is too high by 100.',
    alone: true,
    sites: (scene) => singles(scene, isPage),
    plant: (scene, site) => {
      const { reel, index, shot } = locate(scene.film, site.key);
      renumberFrom(scene.plan, reel, index, 100);
      const later = (scene.film.reels[reel]?.shots ?? []).slice(index).map((each) => each.picture);
      return [{ code: 'frame-number-wrong', causes: VENDOR_DATA, pictures: later, issue: shot.issue }];
    },
  },
  {
    kind: 'number-left-out',
    codes: ['frame-number-gap'],
    says: 'A frame to be held back was removed after the numbering; its number is used by nothing.',
    policies: { frameNumbers: 'unbroken' },
    profile: 'page-mods',
    sites: (scene) => singles(scene, (shot) => shot.kind === 'blank' || (shot.kind === 'page' && !shot.deliver)),
    plant: (scene, site) => {
      const { reel, shot } = locate(scene.film, site.key);
      const captures = scene.plan.reels[reel]?.captures ?? [];
      captures.splice(
        captures.findIndex((capture) => capture.picture === site.key),
        1,
      );

      return [{ code: 'frame-number-gap', causes: VENDOR_DATA, pictures: [site.key], issue: shot.issue }];
    },
  },
  {
    kind: 'number-repeated',
    codes: ['frame-number-repeated'],
    says: 'Two neighbouring frames carry the same number; the next one is right again.',
    sites: (scene) =>
      singles(scene, isPage).filter((site) => {
        const { reel, index } = locate(scene.film, site.key);
        const before = scene.film.reels[reel]?.shots[index - 1];
        return before !== undefined && isPage(before) && before.half === '';
      }),
    plant: (scene, site) => {
      const capture = captureOfPicture(scene.plan, site.key);
      capture.frame = moved(capture.frame, -1);
      return [{ code: 'frame-number-repeated', causes: VENDOR_DATA, pictures: [site.key], issue: locate(scene.film, site.key).shot.issue }];
    },
  },
  {
    kind: 'reel-reversed',
    codes: ['frames-reversed'],
    says: 'A whole reel was scanned tail first.',
    alone: true,
    sites: (scene) => scene.film.reels.map((_, key) => ({ key, pictures: [], issues: [] })),
    plant: (scene, site) => {
      const { shots, captures } = runOf(scene, site.key, 0, Number.MAX_SAFE_INTEGER);
      reverse(captures);
      scene.plan.reels[site.key]?.captures.reverse();
      return [{ code: 'frames-reversed', causes: VENDOR_IMAGE, pictures: shots.map((shot) => shot.picture), issue: null }];
    },
  },
  {
    kind: 'section-reversed',
    codes: ['frames-reversed'],
    says: 'Two issues in a row stand tail first, as a piece of film spliced in the wrong way round would.',
    sites: (scene) =>
      scene.film.reels.flatMap((reel, r) =>
        reel.shots.flatMap((shot, index) => {
          const run = reel.shots.slice(index, index + 8);
          const whole = run.length === 8 && shot.half !== 'B' && run.at(-1)?.half !== 'A' && run.every(isPage);
          const room = index > 2 && index + 10 < reel.shots.length;
          return whole && room && shot.order === 1 && r < scene.plan.reels.length ? [pictureSite(shot, run.slice(1))] : [];
        }),
      ),
    plant: (scene, site) => {
      const { reel, index } = locate(scene.film, site.key);
      const { shots, captures } = runOf(scene, reel, index, index + 7);
      reverse(captures);
      return [{ code: 'frames-reversed', causes: VENDOR_IMAGE, pictures: shots.map((shot) => shot.picture), issue: null }];
    },
  },
  {
    kind: 'halves-swapped',
    codes: ['halves-swapped'],
    says: 'The halves of every exposure with two pages were read from the wrong side.',
    alone: true,
    sites: (scene) =>
      scene.film.reels.flatMap((_, key) => {
        const pairs = pairsOf(scene, key).filter(({ a, b }) => isPage(a) && isPage(b));
        return pairs.length >= 3 ? [{ key, pictures: pairs.flatMap(({ a, b }) => [a.picture, b.picture]), issues: [] }] : [];
      }),
    plant: (scene, site) => {
      const pairs = pairsOf(scene, site.key);
      for (const { a, b } of pairs) {
        const [left, right] = [captureOfPicture(scene.plan, a.picture), captureOfPicture(scene.plan, b.picture)];
        [left.frame, right.frame] = [right.frame, left.frame];
        if (left.issue === right.issue && left.use === 'page') [left.order, right.order] = [right.order, left.order];
      }
      // What is held back is turned too, but no document shows it.
      const shown = pairs.filter(({ a, b }) => isPage(a) && isPage(b));
      return [{ code: 'halves-swapped', causes: VENDOR_DATA, pictures: shown.flatMap(({ a, b }) => [a.picture, b.picture]), issue: null }];
    },
  },
  {
    kind: 'halves-shifted',
    codes: ['halves-shifted'],
    says: 'A page alone on its exposure was taken for the first half of a pair; the halves after it moved up by one.',
    sites: (scene) =>
      scene.film.reels.flatMap((reel) =>
        reel.shots.flatMap((shot, index) => {
          const run = parityRun(reel.shots, index);
          return run.length >= 5 ? [pictureSite(shot, run.slice(1))] : [];
        }),
      ),
    plant: (scene, site) => {
      const { reel, index, shot } = locate(scene.film, site.key);
      const run = parityRun(scene.film.reels[reel]?.shots ?? [], index);
      run.forEach((each, i) => {
        captureOfPicture(scene.plan, each.picture).frame = `${String(shot.exposure + Math.floor(i / 2))}${i % 2 === 0 ? 'A' : 'B'}`;
      });
      return [{ code: 'halves-shifted', causes: VENDOR_DATA, pictures: run.map((each) => each.picture), issue: null }];
    },
  },
  {
    kind: 'reel-number-wrong',
    codes: ['reel-number-wrong'],
    says: 'From one issue on to the end of a run the pages carry the number of another reel.',
    sites: (scene) => issueRuns(scene, 2),
    plant: (scene, site) => {
      const { reel } = locate(scene.film, site.key);
      const other = scene.plan.reels[reel === 0 ? 1 : 0]?.number ?? `${scene.plan.reels[reel]?.number.slice(0, -1) ?? ''}9`;
      for (const picture of site.pictures) captureOfPicture(scene.plan, picture).reel = other;
      const pictures = site.pictures.filter((picture) => locate(scene.film, picture).shot.deliver);
      return [{ code: 'reel-number-wrong', causes: VENDOR_DATA, pictures, issue: null }];
    },
  },
  {
    kind: 'exposure-not-split',
    codes: ['exposure-not-split'],
    says: 'An exposure with two pages was delivered as one wide image.',
    sites: (scene) => inOneIssue(scene),
    plant: (scene, site) => {
      const { reel, index, shot } = locate(scene.film, site.key);
      const other = scene.film.reels[reel]?.shots[index + 1];
      const captures = scene.plan.reels[reel]?.captures ?? [];
      const left = captureOfPicture(scene.plan, site.key);
      const lost = captures.findIndex((capture) => capture.picture === other?.picture);
      left.width = left.width * 2 - 150;
      left.frame = String(shot.exposure);
      captures.splice(lost, 1);
      recount(scene.plan);
      return [{ code: 'exposure-not-split', causes: VENDOR_IMAGE, pictures: [site.key, other?.picture ?? 0], issue: shot.issue }];
    },
  },
  {
    kind: 'half-lost',
    codes: ['page-not-delivered'],
    says: 'Of an exposure with two pages only the first was delivered, as an image of one page.',
    sites: (scene) => inOneIssue(scene),
    plant: (scene, site) => {
      const { reel, index, shot } = locate(scene.film, site.key);
      const other = scene.film.reels[reel]?.shots[index + 1];
      const captures = scene.plan.reels[reel]?.captures ?? [];
      captures.splice(
        captures.findIndex((capture) => capture.picture === other?.picture),
        1,
      );
      recount(scene.plan);
      return [{ code: 'page-not-delivered', causes: VENDOR_IMAGE, pictures: [other?.picture ?? 0], issue: shot.issue }];
    },
  },
];

/** A page alone on its exposure with nothing but pairs after it, up to the end of the run of pages. */
function parityRun(shots: readonly FilmShot[], index: number): FilmShot[] {
  const first = shots[index];
  if (first === undefined || first.half !== '' || !isPage(first)) return [];
  const run = [first];
  for (const shot of shots.slice(index + 1)) {
    if (!isPage(shot) || shot.half === '') return shot.half === '' && !isPage(shot) ? run : [];
    run.push(shot);
  }
  return run;
}

/** Pairs of pages of the same issue, by their first half. */
function inOneIssue(scene: Scene): Site[] {
  return scene.film.reels.flatMap((_, reel) =>
    pairsOf(scene, reel)
      .filter(({ a, b }) => isPage(a) && isPage(b) && a.issue === b.issue)
      .map(({ a, b }) => pictureSite(a, [b])),
  );
}

/** Runs of whole issues of one title that follow each other on one reel. */
export function issueRuns(scene: Scene, length: number): Site[] {
  const order = new Map<number, number>();
  for (const { shot, reel } of allShots(scene.film))
    if (shot.issue !== null && isPage(shot)) order.set(shot.issue, order.has(shot.issue) && order.get(shot.issue) !== reel ? -1 : reel);
  const list = [...order.keys()];
  return list.flatMap((issue, i) => {
    const run = list.slice(i, i + length);
    const reel = order.get(issue);
    const title = issueAt(scene.film, issue).title;
    if (run.length < length || reel === -1 || run.some((each) => order.get(each) !== reel || issueAt(scene.film, each).title !== title))
      return [];
    if (
      run.some(
        (each) =>
          !scene.plan.issues.some((document) => document.source === each && documentOf(scene.plan, each).document.statement === 'present'),
      )
    )
      return [];
    const shots = run.flatMap((each) => shotsOfIssue(scene.film, each));
    return [{ key: shots[0]?.picture ?? 0, pictures: shots.map((shot) => shot.picture), issues: run }];
  });
}
