import { encodedPath, withEntities } from '../markup-text.js';
import { visible } from '../visible.js';

/** A text as HTML, in an element or a quoted attribute; what would steer or hide text is spelled out. */
export function htmlText(text: string): string {
  return withEntities(visible(text));
}

/**
 * A link to a file of the return: `base` is the way from the page to the batch, encoded and ending in `/`. Null where the vendor's path leads out of the
 * batch or is none; such a file is named and not linked.
 */
export function fileLink(base: string, path: string): string | null {
  const way = /[\u0000-\u001f]/.test(path) ? null : encodedPath(path);
  return way === null ? null : base + way;
}
