import type { PairRef } from '../../model/difference.js';
import { recordFrame, type Scene } from '../scene.js';
import type { WordedDifference } from '../worded.js';

/** Corrections that would set a field on every frame of the pairs to the return's reading. */
export function setAll(
  scene: Scene,
  pairs: readonly PairRef[],
  field: string,
  difference: WordedDifference,
): { reel: string; frame: string; action: 'set'; field: string; from: string; to: string }[] {
  return pairs.flatMap((ref) => {
    const frame = recordFrame(scene, ref);
    const alignment = scene.alignments[ref.alignment];
    const reel = alignment?.recordReel == null ? undefined : scene.record.reels[alignment.recordReel];
    return frame?.frame == null
      ? []
      : [
          {
            reel: reel?.text ?? '',
            frame: frame.frame.text,
            action: 'set' as const,
            field,
            from: difference.collation ?? '',
            to: difference.returned ?? '',
          },
        ];
  });
}
