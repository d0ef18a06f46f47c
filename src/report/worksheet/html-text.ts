import { visible } from '../visible.js';

const ENTITIES: ReadonlyMap<string, string> = new Map([
  ['&', '&amp;'],
  ['<', '&lt;'],
  ['>', '&gt;'],
  ['"', '&quot;'],
  ["'", '&#39;'],
]);

/** A text as HTML, in an element or a quoted attribute (HTML, 13.1.2); what would steer or hide text is spelled out. */
export function htmlText(text: string): string {
  return visible(text).replace(/[&<>"']/g, (character) => ENTITIES.get(character) ?? character);
}

/** A value as JSON inside a script element, which nothing in it can end (HTML, 13.3, restrictions for contents of script elements). */
export function htmlJson(value: unknown): string {
  return JSON.stringify(value).replace(
    /[<>&\u007f-\u009f\u00ad\u061c\u180e\u200b-\u200f\u2028-\u202e\u2060-\u206f\ufeff\ufff9-\ufffb]|\udb40[\udc00-\udc7f]/g,
    (found) => Array.from({ length: found.length }, (_, at) => `\\u${found.charCodeAt(at).toString(16).padStart(4, '0')}`).join(''),
  );
}

/**
 * A link to a file of the return: `base` is the way from the page to the batch, encoded and ending in `/`. Null where the vendor's path leads out of the
 * batch or is none; such a file is named and not linked.
 */
export function fileLink(base: string, path: string): string | null {
  const steps = path.split('/');
  if (steps.some((step) => step === '' || step === '.' || step === '..') || /[\\\u0000-\u001f]|\p{Cs}/u.test(path)) return null;
  return base + steps.map(encodeURIComponent).join('/');
}
