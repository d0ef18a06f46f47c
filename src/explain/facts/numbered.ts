import type { PairRef } from '../../model/difference.js';
import { type FindingDraft, framesInWords, rangeOf } from '../draft.js';
import type { Scene } from '../scene.js';
import { sidedBy } from './sided.js';
import { numbersTestimony } from './sides.js';

/** A finding about the numbers of frames, told as that of the side whose numbers do not run on. */
export function numbered(scene: Scene, refs: readonly PairRef[], draft: FindingDraft): FindingDraft {
  const { cause, evidence } = numbersTestimony(scene, refs);
  const words = framesInWords(rangeOf(scene, refs).frames);
  return sidedBy(cause, words, { ...draft, evidence: [...draft.evidence, ...evidence] }, 'the film');
}
