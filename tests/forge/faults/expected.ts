import type { FrameRange } from '../../../src/model/findings.js';
import type { Film } from '../film/film.js';
import { allShots, type Expected, type Located, type Outcome } from './scene.js';

/** Outcomes of all faults planted on one film, written by the collation's own numbers. Shifts end where the next shift begins. */
export function expectedOf(film: Film, planted: readonly { readonly kind: string; readonly outcome: Outcome }[]): Expected[] {
  const places = new Map(allShots(film).map((each) => [each.shot.picture, each]));
  const shifts = planted.filter(({ outcome }) => outcome.shift !== undefined).map(({ outcome }) => outcome);
  return planted.map(({ kind, outcome }) => {
    const affected = outcome.shift === undefined ? outcome.pictures : shifted(film, places, shifts, outcome);
    const list = byFilm(affected.flatMap((picture) => places.get(picture) ?? []));
    const at = outcome.at === undefined ? list[0] : places.get(outcome.at);
    const issue = outcome.issue === null ? undefined : film.issues[outcome.issue];
    const reel = list[0]?.reel ?? at?.reel;
    return {
      kind,
      code: outcome.code,
      reel: outcome.reel ?? (reel === undefined ? null : (film.reels[reel]?.number ?? null)),
      at: at?.shot.frame ?? null,
      frames: rangeOf(film, list),
      count: list.length > 0 ? list.length : null,
      causes: outcome.causes,
      title: issue?.title ?? null,
      date: outcome.date ?? issue?.date ?? null,
      edition: issue?.edition ?? null,
    };
  });
}

/** The later frames with a wrong number, up to the next shift; where there are none, the frame itself, if it is on the film. */
function shifted(film: Film, places: ReadonlyMap<number, Located>, shifts: readonly Outcome[], mine: Outcome): number[] {
  const reel = mine.shift?.reel ?? 0;
  const here = shifts.filter((each) => each.shift?.reel === reel);
  const start = places.get(mine.at ?? -1)?.index ?? 0;
  const exposure = film.reels[reel]?.shots[start]?.exposure;
  let net = 0;
  const starts = here.map((each) => places.get(each.at ?? -1)?.index ?? 0);
  here.forEach((each, i) => {
    if ((starts[i] ?? 0) <= start) net += each.shift?.by ?? 0;
  });
  // The frame that was left out next has no number; the one taken twice still has a wrong one.
  const next = Math.min(
    ...here.map((each, i) => (starts[i] ?? 0) + ((each.shift?.by ?? 0) > 0 ? 1 : 0)).filter((_, i) => (starts[i] ?? 0) > start),
    Number.POSITIVE_INFINITY,
  );
  const own = mine.code === 'page-not-in-collation' ? [] : [mine.at ?? 0];
  if (net === 0) return mine.pictures.length > 0 ? [...mine.pictures] : own;
  const later = (film.reels[reel]?.shots ?? []).filter((shot, index) => index > start && index < next && shot.exposure !== exposure);
  return later.length > 0 ? later.map((shot) => shot.picture) : own;
}

/** Frames in film order as a range; with the list where they are not one run, and with the reel where they lie on two. */
function rangeOf(film: Film, list: readonly Located[]): FrameRange | null {
  const first = list[0];
  const last = list.at(-1);
  if (first === undefined || last === undefined) return null;
  const range = { from: first.shot.frame, to: last.shot.frame };
  const twoReels = first.reel !== last.reel;
  if (!twoReels && last.index - first.index === list.length - 1) return range;
  return { ...range, list: list.map(({ shot, reel }) => (twoReels ? `${film.reels[reel]?.number ?? ''}:${shot.frame}` : shot.frame)) };
}

function byFilm(list: readonly Located[]): Located[] {
  return [...list].sort((a, b) => a.reel - b.reel || a.index - b.index);
}
