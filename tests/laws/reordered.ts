import type { Side } from '../../src/model/film.js';
import type { Random } from '../forge/film/random.js';

/** A list in another order, and where each entry went. */
function shuffled<T>(list: readonly T[], random: Random): { readonly list: readonly T[]; readonly to: readonly number[] } {
  const order = random.shuffled(list.map((_, at) => at));
  const to = list.map(() => 0);
  order.forEach((from, at) => {
    to[from] = at;
  });
  return { list: order.flatMap((from) => list.slice(from, from + 1)), to };
}

/** The same return with its documents, reels and absences read in another order. */
export function reordered(side: Side, random: Random): Side {
  const issues = shuffled(side.issues, random);
  const at = (issue: number | null): number | null => (issue === null ? null : (issues.to[issue] ?? null));
  return {
    ...side,
    issues: issues.list,
    reels: shuffled(side.reels, random).list.map((reel) => ({
      ...reel,
      frames: reel.frames.map((frame) => ({ ...frame, issue: at(frame.issue) })),
    })),
    absences: shuffled(side.absences, random).list.map((absence) => ({ ...absence, issue: at(absence.issue) })),
  };
}
