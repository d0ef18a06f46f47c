import { type FilmShot } from '../film/film.js';
import { moved } from '../film/frame-text.js';
import { type Capture, imageOf } from '../plan.js';
import { type Fault, locate, type Outcome, recount, renumberFrom, type Scene, type Site, UNCLEAR, VENDOR_IMAGE } from './scene.js';
import { isPage, singles } from './sites.js';

/** What goes wrong when the camera of the scanner leaves a frame out or takes it twice. */
export const CAPTURE_FAULTS: readonly Fault[] = [
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
];

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
  const again: Capture = { ...original, frame: moved(original.frame, 1), image: imageOf(picture, 1), width: original.width - 3 };
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
