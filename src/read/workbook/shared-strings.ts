import type { Archive } from './archive.js';
import { plainString, readPart } from './part-events.js';

/** The texts that cells share, by their number (ECMA-376 part 1, section 18.4). Formatted pieces of one text are joined; readings above it are left out. */
export function readSharedStrings(archive: Archive, part: string | null): readonly string[] {
  const bytes = part === null ? null : archive.part(part);
  if (bytes === null) return [];
  const strings: string[] = [];
  let pieces: string[] = [];
  readPart(bytes, `${archive.file}, part ${part ?? ''}`, {
    text: (text, path) => {
      if (path.at(-1) === 't' && !path.includes('rPh')) pieces.push(text);
    },
    close: (name) => {
      if (name !== 'si') return;
      strings.push(plainString(pieces.join('')));
      pieces = [];
    },
  });
  return strings;
}
