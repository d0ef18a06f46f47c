import type { PairRef } from '../../model/difference.js';
import { type Candidate, candidate } from '../choose.js';
import { capital, counted, draft, framesInWords, inSeries, rangeOf } from '../draft.js';
import { factName } from '../facts/fact-names.js';
import { groupBy, idsOf, inFilmOrder, neighbouringRuns } from '../runs.js';
import { recordReelOf, type Scene } from '../scene.js';
import type { WordedDifference } from '../worded.js';

/** Targets that are not listed, or are although they must not be: reel by reel, or at once where no target of the return is listed. */
export function targets(scene: Scene, list: readonly WordedDifference[]): Candidate[] {
  const listed = scene.returned.reels.some(({ frames }) => frames.some(({ kind }) => kind === 'target'));
  const groups = groupBy(list, ({ pairs, collation }) =>
    collation === 'listed' && !listed ? collation : `${String(pairs[0]?.alignment ?? '')}|${collation ?? ''}`,
  );
  return [...groups.values()].map((differences) => targetsOf(scene, differences));
}

function targetsOf(scene: Scene, differences: readonly WordedDifference[]): Candidate {
  const refs = inFilmOrder(differences.flatMap((difference) => [...difference.pairs]));
  const byReel = [...groupBy(refs, ({ alignment }) => alignment).values()];
  const framesOf = (own: readonly PairRef[]): string => framesInWords(rangeOf(scene, own).frames);
  const reelOf = (own: readonly PairRef[]): string => (own[0] === undefined ? '' : (recordReelOf(scene, own[0])?.text ?? ''));
  const several = byReel.length > 1;
  const where = inSeries(byReel.map((own) => `${framesOf(own)}${several ? ` of reel ${reelOf(own)}` : ''}`));
  const missing = differences[0]?.collation === 'listed';
  const [target, are] = refs.length === 1 ? ['target', 'is'] : ['targets', 'are'];
  const what = `${capital(counted(refs.length, 'target'))}${several ? '' : ` of reel ${reelOf(refs)}`} (${where}) ${are}`;
  return candidate(
    draft(scene, {
      about: refs,
      explains: idsOf(differences),
      code: missing ? 'target-not-listed' : 'not-ordered',
      cause: 'vendor-metadata',
      field: 'target',
      collation: differences[0]?.collation ?? null,
      return: differences[0]?.returned ?? null,
      says: missing ? `${what} not listed in the return.` : `${what} listed, which the agreement leaves out.`,
      instruction: `${missing ? 'List' : 'Take'} the ${target} on ${where} ${missing ? 'in' : 'out of'} the ${several ? 'documents of their reels' : "reel's document"}.`,
    }),
  );
}

/** Whether anything came of a reel outside its issues: where nothing did, the folder for it is what is lacking. */
function anyLoose(scene: Scene, alignment: number): boolean {
  const reels = scene.alignments[alignment]?.returnReels ?? [];
  return reels.some((at) => scene.returned.reels[at]?.frames.some(({ kind }) => kind === 'unmatched') === true);
}

/** Numbers that must be unbroken and under which nothing came at all. */
export function unfilled(scene: Scene, list: readonly WordedDifference[]): Candidate[] {
  const all = inFilmOrder(list.flatMap((difference) => [...difference.pairs]));
  const runs = [...groupBy(all, (ref) => ref.alignment).values()].flatMap((own) =>
    anyLoose(scene, own[0]?.alignment ?? -1) ? neighbouringRuns(own) : [own],
  );
  return runs.map((refs) => {
    const words = framesInWords(rangeOf(scene, refs).frames);
    return candidate(
      draft(scene, {
        about: refs,
        explains: idsOf(
          list.filter((difference) =>
            difference.pairs.some((ref) => refs.some((other) => other.alignment === ref.alignment && other.pair === ref.pair)),
          ),
        ),
        code: 'frame-number-gap',
        cause: 'vendor-metadata',
        field: 'frame',
        collation: 'numbers without a gap',
        return: `nothing under ${words}`,
        says: `Nothing came under ${words}, neither in an issue nor outside one, although the numbers must be unbroken.`,
        instruction: `Deliver ${words} outside any issue, so that the numbers run without a gap.`,
      }),
    );
  });
}

export function reelFact(scene: Scene, difference: WordedDifference): Candidate {
  const at = difference.ref?.reel ?? -1;
  const reel = scene.returned.reels[at];
  const carrier = scene.alignments.find(({ returnReels }) => returnReels.includes(at))?.recordReel ?? -1;
  const name = scene.record.reels[carrier]?.text ?? reel?.text ?? null;
  const count = difference.field === 'count';
  return candidate(
    draft(scene, {
      about: [],
      explains: [difference.id],
      code: count ? 'count-disagrees' : 'reel-facts-differ',
      cause: 'vendor-metadata',
      reel: name,
      at: null,
      frames: null,
      count: 1,
      field: difference.about,
      collation: difference.collation,
      return: difference.returned,
      says: count
        ? `Reel ${name ?? '?'}: the return states ${difference.returned ?? '?'} pictures; the record has ${difference.collation ?? '?'} frames.`
        : `Reel ${name ?? '?'}: the ${factName(difference.about)} is ${difference.returned ?? '?'} in the return and ${difference.collation ?? '?'} in the record.`,
      instruction: count
        ? `Count the pictures of reel ${name ?? '?'} again and correct the number.`
        : `Correct the ${factName(difference.about)} of reel ${name ?? '?'} to ${difference.collation ?? '?'}.`,
      places: reel === undefined ? [] : [reel.place],
    }),
  );
}
