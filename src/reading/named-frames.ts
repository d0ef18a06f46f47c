import { isFramePointer } from '../normalise/sheet-row.js';

/** Columns that name another frame, and in which a mark may stand instead of the frame. */
export const TAKES: ReadonlySet<string> = new Set(['duplicate of', 'retake of']);

/** True for a cell that names a frame: `12`, `14:12`, `frame 12`, `Nr. 12`. */
export function isNamedFrame(text: string): boolean {
  return isFramePointer(text.replace(/^(?:fr(?:ame)?\.?|exp(?:osure)?\.?|image|bild|aufn(?:ahme)?\.?|vue|nr\.?|no\.?|#)\s*/iu, ''));
}
