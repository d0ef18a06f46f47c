import type { PairRef } from '../../model/difference.js';
import type { Repair } from '../../model/findings.js';
import { frameName } from '../draft.js';
import { exposureOffset } from '../film/shift-events.js';
import { inFilmOrder, pairKey } from '../runs.js';
import { pairOf, recordFrame, returnFrame, type Scene } from '../scene.js';
import type { WordedDifference } from '../worded.js';
import { followingSteps, repeatedBy } from './names.js';
import { atPage, NOWHERE, onReel } from './places.js';

/** Wrong numbers, those that follow one another and are as far off as one run. */
export function renumbered(scene: Scene, differences: readonly WordedDifference[]): Repair[] {
  const refs = inFilmOrder(differences.flatMap(({ pairs }) => pairs)).filter((ref) => returnFrame(scene, ref) !== undefined);
  const runs: { readonly by: number | null; readonly refs: PairRef[] }[] = [];
  for (const ref of refs) {
    const by = sameHalf(scene, ref) ? exposureOffset(scene, ref) : null;
    const last = runs.at(-1);
    const before = last?.refs.at(-1);
    if (last !== undefined && by !== null && last.by === by && before?.alignment === ref.alignment) last.refs.push(ref);
    else runs.push({ by, refs: [ref] });
  }
  const wrong = new Map(differences.flatMap((difference) => difference.pairs.map((ref) => [pairKey(ref), difference] as const)));
  return runs.flatMap(({ by, refs: run }): Repair[] => {
    const [first] = run;
    if (first === undefined) return [];
    if (by === null || run.length === 1 || !isWholeRun(scene, run))
      return run.flatMap((ref): Repair[] => {
        const [where, difference] = [atPage(scene, ref), wrong.get(pairKey(ref))];
        return [
          { do: 'set', ...where, field: 'frame', from: where.frame, to: frameName(recordFrame(scene, ref)) },
          ...(difference === undefined ? [] : followingSteps(scene, difference, ref)),
        ];
      });
    const frame = [first, run.at(-1) ?? first].map((ref) => frameName(returnFrame(scene, ref))).join(' to ');
    const along = run.flatMap((ref) => {
      const difference = wrong.get(pairKey(ref));
      return difference === undefined ? [] : repeatedBy(scene, difference, ref).map(({ field }) => field);
    });
    const to = `${by < 0 ? '+' : '-'}${String(Math.abs(by))}`;
    return ['frame', ...new Set(along)].map((field) => ({
      do: 'renumber',
      ...NOWHERE,
      ...onReel(scene, first),
      frame,
      field,
      from: null,
      to,
    }));
  });
}

/** True where the numbers from the first to the last of a run are those of its own pages alone, so that the two name it. */
function isWholeRun(scene: Scene, run: readonly PairRef[]): boolean {
  const exposures = run.map((ref) => returnFrame(scene, ref)?.frame?.exposure ?? 0);
  const [from, to] = [Math.min(...exposures), Math.max(...exposures)];
  const reels = new Set(run.map((ref) => pairOf(scene, ref).returned?.reel ?? -1));
  const within = [...reels].flatMap((reel) =>
    (scene.returned.reels[reel]?.frames ?? []).filter(({ frame }) => frame !== null && frame.exposure >= from && frame.exposure <= to),
  );
  return reels.size === 1 && within.length === run.length;
}

function sameHalf(scene: Scene, ref: PairRef): boolean {
  return recordFrame(scene, ref)?.frame?.half === returnFrame(scene, ref)?.frame?.half;
}
