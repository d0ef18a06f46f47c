import type { PairRef } from '../../model/difference.js';
import { type Candidate, candidate } from '../choose.js';
import { counted, draft, frameName, inSeries } from '../draft.js';
import { groupBy, idsOf } from '../runs.js';
import { differencesAt, fieldOf, recordReelOf, returnFrame, type Scene } from '../scene.js';

/** So many numbers are given one by one. */
const LISTED = 6;

/**
 * Images outside any issue for which a reel has no frame left, where no numbers lead through it: one finding for the reel. Where numbers do, each is told
 * with what it does to the numbers behind it.
 */
export function looseImages(scene: Scene): Candidate[] {
  const refs = fieldOf(scene, 'surplus')
    .flatMap(({ pairs }) => pairs)
    .filter((ref) => scene.alignments[ref.alignment]?.numbered === false && returnFrame(scene, ref)?.kind !== 'page');
  return [...groupBy(refs, ({ alignment }) => alignment).values()].map((run) => candidate(ofReel(scene, run)));
}

function ofReel(scene: Scene, run: readonly PairRef[]): Candidate['draft'] {
  const one = run.length === 1;
  const first = run[0];
  const reel = (first === undefined ? undefined : recordReelOf(scene, first)?.text) ?? '?';
  const numbers = run.flatMap((ref) => {
    const frame = returnFrame(scene, ref);
    return frame?.frame == null ? [] : [frameName(frame)];
  });
  const under = numbers.length === 0 || numbers.length > LISTED ? '' : ` under ${one ? 'number' : 'numbers'} ${inSeries(numbers)}`;
  const images = counted(run.length, 'image');
  return draft(scene, {
    code: 'frame-scanned-twice',
    cause: 'unclear',
    about: run,
    explains: idsOf(run.flatMap((ref) => differencesAt(scene, ref, 'surplus'))),
    field: 'frame',
    collation: 'no such frame',
    return: images,
    says: `Outside any issue the return has ${images} of reel ${reel}${under} for which the record has no frame left.`,
    instruction: `Look at the film of reel ${reel}: say what ${one ? 'this image shows' : 'these images show'}, or withdraw ${one ? 'it' : 'them'}.`,
    alternatives: [{ says: `The collation record lacks ${one ? 'this frame' : 'these frames'}.`, cause: 'collation', instruction: null }],
  });
}
