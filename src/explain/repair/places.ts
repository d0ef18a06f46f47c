import type { PairRef } from '../../model/difference.js';
import type { Frame, Place } from '../../model/film.js';
import type { Repair } from '../../model/findings.js';
import { frameName } from '../draft.js';
import { recordFrame, recordReelOf, returnFrame, type Scene } from '../scene.js';

/** Where a step is done. */
export type Where = Pick<Repair, 'document' | 'element' | 'frame' | 'numberedBy' | 'reel'>;

export const NOWHERE: Where = { document: null, element: null, frame: null };

/** Where a page stands in the return, by its own number; for what did not come, the number that it must have. */
export function atPage(scene: Scene, ref: PairRef): Where {
  const theirs = returnFrame(scene, ref);
  return theirs === undefined ? { ...NOWHERE, ...byTheRecord(scene, ref) } : ofFrame(theirs);
}

/** Where a frame of the return stands, by its own number. */
export function ofFrame(frame: Frame | undefined): Where {
  return { ...inDocument(frame?.place), frame: frame?.frame?.text ?? null };
}

/** A place in the documents of the return, whatever it is the place of. */
export function inDocument({ document, element }: Place = {}): Where {
  return { document: document ?? null, element: element ?? null, frame: null };
}

/** The number of a frame for which nothing came, marked as the record's, with its reel. */
export function byTheRecord(scene: Scene, ref: PairRef): Pick<Where, 'frame' | 'numberedBy' | 'reel'> {
  return { frame: frameName(recordFrame(scene, ref)), numberedBy: 'record', ...onReel(scene, ref) };
}

/** The reel of a step that names frames and no document: as the vendor calls it, else as the record does. */
export function onReel(scene: Scene, ref: PairRef): Pick<Where, 'reel'> {
  const theirs = scene.alignments[ref.alignment]?.returnReels[0];
  const text = (theirs === undefined ? undefined : scene.returned.reels[theirs]?.text) ?? recordReelOf(scene, ref)?.text;
  return text === undefined || text === '' ? {} : { reel: text };
}

/** A reel as the vendor calls it elsewhere, perhaps with an end of his own. */
export function theirReel({ returned }: Scene, number: string | undefined): string | null {
  return returned.reels.find((reel) => reel.number === number || reel.alsoKnownAs.some((name) => name === number))?.text ?? null;
}
