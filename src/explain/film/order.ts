import type { PairRef } from '../../model/difference.js';
import { type Candidate, candidate } from '../choose.js';
import { capital, draft, frameName, framesInWords, rangeOf } from '../draft.js';
import { numbered } from '../facts/numbered.js';
import { sidedBy } from '../facts/sided.js';
import { reelsTestimony } from '../facts/sides.js';
import { groupBy, idsOf, inFilmOrder, neighbouringRuns, pairKey } from '../runs.js';
import { differencesAt, fieldOf, pairOf, recordFrame, recordReelOf, returnFrame, type Scene } from '../scene.js';
import { halvesShifted, halvesSwapped } from './halves.js';
import { exposureOffset } from './shift-events.js';
import { notSplit } from './unsplit.js';

/** Wrong numbers of single frames, sections scanned backwards, halves exchanged or counted from the wrong side, and wrong reel numbers. */
export function frameOrder(scene: Scene): Candidate[] {
  return [
    ...wrongNumbers(scene),
    ...reversals(scene),
    ...halvesSwapped(scene),
    ...halvesShifted(scene),
    ...notSplit(scene),
    ...reelNumbers(scene),
  ];
}

/** Pages that came under numbers far from their place; those that follow one another and are as far off are one finding. */
function wrongNumbers(scene: Scene): Candidate[] {
  const refs = fieldOf(scene, 'number').flatMap((difference) => {
    const ref = difference.pairs[0];
    return ref === undefined || pairOf(scene, ref).how !== 'moved' ? [] : [ref];
  });
  const runs = neighbouringRuns(inFilmOrder(refs), (a, b) => exposureOffset(scene, a) === exposureOffset(scene, b));
  return runs.map((run) => (run.length === 1 && run[0] !== undefined ? movedAlone(scene, run[0]) : movedTogether(scene, run)));
}

function movedAlone(scene: Scene, ref: PairRef): Candidate {
  const name = frameName(recordFrame(scene, ref));
  const given = returnFrame(scene, ref)?.frame?.text ?? '?';
  const before = returnFrame(scene, { alignment: ref.alignment, pair: ref.pair - 1 });
  const repeated = ref.pair > 0 && before?.frame?.text === given;
  return candidate(
    numbered(
      scene,
      [ref],
      draft(scene, {
        code: repeated ? 'frame-number-repeated' : 'frame-number-wrong',
        cause: 'vendor-metadata',
        about: [ref],
        explains: idsOf(differencesAt(scene, ref, 'number')),
        field: 'frame',
        collation: name,
        return: given,
        says: `Frame ${name} came under the number ${given}; its title, date and page are those of frame ${name}.`,
        instruction: `Number this page ${name} instead of ${given}; no rescan.`,
      }),
    ),
  );
}

function movedTogether(scene: Scene, run: readonly PairRef[]): Candidate {
  const words = framesInWords(rangeOf(scene, run).frames);
  const numbers = run.map((ref) => frameName(returnFrame(scene, ref)));
  return candidate(
    numbered(
      scene,
      run,
      draft(scene, {
        code: 'frame-number-wrong',
        cause: 'vendor-metadata',
        about: run,
        explains: idsOf(run.flatMap((ref) => differencesAt(scene, ref, 'number'))),
        field: 'frame',
        collation: words,
        return: `numbers ${numbers[0] ?? '?'} to ${numbers.at(-1) ?? '?'}`,
        says: `${capital(words)} came under the numbers ${numbers[0] ?? '?'} to ${numbers.at(-1) ?? '?'}; their titles, dates and pages are those of ${words}.`,
        instruction: `Number these pages as ${words}; no rescans.`,
        constant: true,
      }),
    ),
  );
}

function reversals(scene: Scene): Candidate[] {
  return scene.alignments.flatMap((alignment, a) =>
    alignment.reversals.map(({ from, to }) => {
      const refs = alignment.pairs.map((_, p) => ({ alignment: a, pair: p })).filter((ref) => ref.pair >= from && ref.pair <= to);
      const whole = refs.length > alignment.pairs.length * 0.8;
      const ends = whole
        ? alignment.pairs
            .map((_, p) => ({ alignment: a, pair: p }))
            .flatMap((ref) => differencesAt(scene, ref, 'not-scanned', 'empty-number'))
        : [];
      const about = refs.filter((ref) => recordFrame(scene, ref) !== undefined);
      const words = framesInWords(rangeOf(scene, about).frames);
      return candidate(
        draft(scene, {
          code: 'frames-reversed',
          cause: 'vendor-metadata',
          about,
          explains: [...idsOf(refs.flatMap((ref) => differencesAt(scene, ref, 'number', 'empty-number'))), ...idsOf(ends)],
          field: 'frame',
          collation: `${words} in film order`,
          return: 'the same frames from last to first',
          says: whole
            ? `The reel was scanned from its tail: ${words} came in the opposite order.`
            : `${capital(words)} came in the opposite order, as if this section had been scanned from its end.`,
          instruction: `Reverse the numbering of ${words}, and check that no image is turned or mirrored.`,
          evidence: [`Dates and pages agree frame by frame when the order is turned round.`],
          constant: true,
        }),
      );
    }),
  );
}

/** Frames that came under the number of another reel, one finding for the run. */
function reelNumbers(scene: Scene): Candidate[] {
  const groups = groupBy(
    fieldOf(scene, 'reel'),
    (difference) => `${String(difference.pairs[0]?.alignment ?? '')}|${difference.collation ?? ''}|${difference.returned ?? ''}`,
  );
  return [...groups.values()].map((differences) => {
    const refs = differences.flatMap((difference) => difference.pairs);
    const first = differences[0];
    const words = framesInWords(rangeOf(scene, refs).frames);
    const carrier = refs[0] === undefined ? '' : (recordReelOf(scene, refs[0])?.text ?? '');
    const told = draft(scene, {
      code: 'reel-number-wrong',
      cause: 'vendor-metadata',
      about: refs,
      explains: [...idsOf(differences), ...ownNumbers(scene, refs)],
      field: 'reel',
      collation: first?.collation ?? null,
      return: first?.returned ?? null,
      says: `${capital(words)} of reel ${carrier} ${refs.length === 1 ? 'carries' : 'carry'} the reel number ${first?.returned ?? '?'}; it must be ${first?.collation ?? '?'}.`,
      instruction: `Set the reel number of ${words} to ${first?.collation ?? '?'}.`,
      constant: true,
    });
    return candidate(sidedBy(reelsTestimony(scene, refs).cause, words, told, 'the film'));
  });
}

/** Wrong numbers that came with the wrong reel: most of the run, and not those that are as far off as the frames before or behind it. */
function ownNumbers(scene: Scene, refs: readonly PairRef[]): number[] {
  const offset = (ref: PairRef): number | null => exposureOffset(scene, ref);
  const inside = new Set(refs.map(pairKey));
  const alignment = refs[0]?.alignment ?? 0;
  const pairs = (scene.alignments[alignment]?.pairs ?? []).map((pair, p) => ({ pair, ref: { alignment, pair: p } }));
  const outside = pairs.filter(({ pair, ref }) => pair.how === 'order' && !inside.has(pairKey(ref)) && offset(ref) !== null);
  const first = Math.min(...refs.map((ref) => ref.pair));
  const last = Math.max(...refs.map((ref) => ref.pair));
  const before = outside.findLast(({ ref }) => ref.pair < first);
  const behind = outside.find(({ ref }) => ref.pair > last);
  const around = new Set([before, behind].flatMap((each) => (each === undefined ? [] : [offset(each.ref)])));
  const wrong = refs.filter((ref) => !around.has(offset(ref)) && differencesAt(scene, ref, 'number').length > 0);
  return wrong.length * 2 > refs.length ? idsOf(wrong.flatMap((ref) => differencesAt(scene, ref, 'number'))) : [];
}
