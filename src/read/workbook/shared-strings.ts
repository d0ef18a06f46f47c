import type { Archive } from './archive.js';
import { readPart } from './part-events.js';
import { type PiecedText, pieces } from './pieced-text.js';

/** The texts that cells share, by their number (ECMA-376 part 1, section 18.4). Formatted pieces of one text are joined; readings above it are left out. */
export function readSharedStrings(archive: Archive, part: string | null): readonly PiecedText[] {
  const bytes = part === null ? null : archive.part(part);
  if (bytes === null) return [];
  const strings: PiecedText[] = [];
  let text = pieces();
  readPart(bytes, `${archive.file}, part ${part ?? ''}`, {
    open: (element, path) => {
      text.open(element, path);
    },
    text: (piece, path) => {
      text.text(piece, path);
    },
    close: (name) => {
      if (name !== 'si') return;
      strings.push(text.whole());
      text = pieces();
    },
  });
  return strings;
}
