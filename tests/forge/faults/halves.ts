import { type FilmShot } from '../film/film.js';
import { captureOfPicture, type Fault, locate, pictureSite, recount, type Scene, type Site, VENDOR_DATA, VENDOR_IMAGE } from './scene.js';
import { isPage } from './sites.js';

/** What goes wrong with two pages on one exposure. */
export const HALF_FAULTS: readonly Fault[] = [
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

/** Pairs of halves of a title, as places in the reel. */
function pairsOf(scene: Scene, reel: number): { readonly a: FilmShot; readonly b: FilmShot }[] {
  const shots = scene.film.reels[reel]?.shots ?? [];
  return shots.flatMap((a, i) => {
    const b = shots[i + 1];
    return a.half === 'A' && b !== undefined && b.half === 'B' ? [{ a, b }] : [];
  });
}

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
