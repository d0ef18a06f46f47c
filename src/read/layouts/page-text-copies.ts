import type { WrittenCopy } from '../../model/written-return.js';
import { frameInName } from '../facts/part-facts.js';
import { readPageText } from '../page-text.js';
import { type DraftFile, isTextUse, noteUnreadable, type Reading } from '../reading.js';
import { shortened } from '../vendor-text.js';
import { pathKey } from '../walk.js';

/**
 * Reads the text of a page where the user asked for it and it came, hands it on, and answers what it says again of the page: its number on
 * the reel or in the issue, its printed number, the image it was made from. Without `readText` nothing is opened.
 */
export function pageTextCopies(reading: Reading, files: readonly DraftFile[]): readonly WrittenCopy[] {
  if (!reading.readText) return [];
  const copies: WrittenCopy[] = [];
  for (const draft of files) {
    if (!isTextUse(reading, draft.use) || draft.state !== 'present' || draft.path === null) continue;
    const file = reading.index.byKey.get(pathKey(draft.path));
    if (file === undefined) continue;
    const read = readPageText(file.location, file.path);
    if (read.sha256 !== null) reading.digests.push({ path: file.path, sha256: read.sha256 });
    if (!read.ok) {
      noteUnreadable(reading, file.path, read.says, read.line);
      continue;
    }
    reading.received.document(file.path, 'compared');
    const { text } = read;
    if (text.unit === 'pixel') {
      draft.width ??= text.width;
      draft.height ??= text.height;
    }
    reading.onPageText(text);
    const place = { document: file.path, element: 'Page' };
    const { altoImageNumber } = reading.profile;
    // PHYSICAL_IMG_NR is a number in every version of the ALTO schema (1.1 to 4.4): it cannot say which half of an exposure this is.
    if (text.physicalNumber !== null && altoImageNumber !== 'nothing')
      copies.push({
        fact: altoImageNumber === 'frame' ? 'exposure' : altoImageNumber,
        source: 'page text',
        text: shortened(text.physicalNumber),
        place,
      });
    if (text.printedNumber !== null) copies.push({ fact: 'page', source: 'page text', text: shortened(text.printedNumber), place });
    const frame = text.image === null ? undefined : frameInName(reading.profile, text.image);
    if (frame !== undefined) copies.push({ fact: 'frame', source: 'image named in the page text', text: frame, place });
  }
  return copies;
}
