import { type Candidate, candidate } from '../choose.js';
import { capital, draft, frameName, framesInWords, rangeOf } from '../draft.js';
import { exposureOffset } from '../film/shift-events.js';
import { idsOf } from '../runs.js';
import { recordFrame, type Scene } from '../scene.js';
import type { WordedDifference } from '../worded.js';
import { numbered } from './numbered.js';

/** What no cause explains of the numbers: frames that are wrong by as much and follow each other among those left are one finding. */
export function plainNumbers(scene: Scene, left: readonly WordedDifference[]): Candidate[] {
  const runs: { offset: number | null; differences: WordedDifference[] }[] = [];
  for (const difference of left.filter((one) => one.field === 'number')) {
    const ref = difference.pairs[0];
    const offset = ref === undefined ? null : exposureOffset(scene, ref);
    const last = runs.at(-1);
    if (last?.differences[0]?.pairs[0]?.alignment === ref?.alignment && last?.offset === offset && offset !== null)
      last.differences.push(difference);
    else runs.push({ offset, differences: [difference] });
  }
  return runs.flatMap(({ offset, differences }) => {
    if (offset === null || offset === 0 || differences.length < 2) return differences.map((difference) => alone(scene, difference));
    const refs = differences.flatMap((difference) => difference.pairs);
    const words = framesInWords(rangeOf(scene, refs).frames);
    return [
      candidate(
        numbered(
          scene,
          refs,
          draft(scene, {
            code: 'frame-number-wrong',
            cause: 'vendor-metadata',
            about: refs,
            explains: idsOf(differences),
            field: 'frame',
            collation: differences[0]?.collation ?? null,
            return: differences[0]?.returned ?? null,
            says: `${capital(words)} are numbered ${String(Math.abs(offset))} too ${offset < 0 ? 'low' : 'high'}; their dates and pages agree.`,
            instruction: `Renumber ${words} by ${offset < 0 ? '+' : '-'}${String(Math.abs(offset))}; no rescans.`,
            constant: true,
          }),
        ),
      ),
    ];
  });
}

function alone(scene: Scene, difference: WordedDifference): Candidate {
  const ref = difference.pairs[0];
  const name = frameName(ref === undefined ? undefined : recordFrame(scene, ref));
  return candidate(
    numbered(
      scene,
      difference.pairs,
      draft(scene, {
        code: 'frame-number-wrong',
        cause: 'vendor-metadata',
        about: difference.pairs,
        explains: [difference.id],
        field: 'frame',
        collation: difference.collation,
        return: difference.returned,
        says: `Frame ${name} came under the number ${difference.returned ?? '?'}; its date and page agree.`,
        instruction: `Number this page ${name} instead of ${difference.returned ?? '?'}; no rescan.`,
      }),
    ),
  );
}
