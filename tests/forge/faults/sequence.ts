import { type FilmShot } from '../film/film.js';
import { moved } from '../film/frame-text.js';
import { type Capture } from '../plan.js';
import { captureOfPicture, type Fault, locate, pictureSite, renumberFrom, type Scene, VENDOR_DATA, VENDOR_IMAGE } from './scene.js';
import { isPage, issueRuns, singles } from './sites.js';

/** What goes wrong with numbers and the order of frames. */
export const SEQUENCE_FAULTS: readonly Fault[] = [
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
        const shots = scene.film.reels[reel]?.shots ?? [];
        const before = shots[index - 1];
        // Only a frame that is delivered further on shows that the count is right again.
        return before !== undefined && isPage(before) && before.half === '' && shots.slice(index + 1).some(isPage);
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
];

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
