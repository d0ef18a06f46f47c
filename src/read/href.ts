import type { NotFollowed } from '../model/film.js';

/** What a reference in a document means: a path inside the batch, or a form that is never followed, and why. */
export type ResolvedHref = { readonly safe: true; readonly path: string } | { readonly safe: false; readonly because: NotFollowed };

const unsafe = (because: NotFollowed): ResolvedHref => ({ safe: false, because });

/** In words that follow "is", why a reference is not followed. */
export const WHY_NOT_FOLLOWED: Readonly<Record<NotFollowed, string>> = {
  nothing: 'not named: its reference is empty',
  address: 'named by an address and not by a path inside the batch',
  backslash: 'named with a backslash, which is not a path in XML',
  characters: 'named with characters that no path has',
  'own-folder': "named by the document's own folder",
  outside: 'named by a path that leads out of the batch',
  link: 'a link, and links are not followed',
  device: 'a device or a pipe and not a file',
};

/** As most references are: the name of a file beside the document, of which nothing is to be resolved. */
const BARE_NAME = /^[A-Za-z0-9_][A-Za-z0-9_.-]{0,199}$/;

/** A reference as a relative path where it is one: programmes write `file://./folder/name`, which names no machine, for a path below the document. */
export function plainHref(href: string): string {
  if (BARE_NAME.test(href)) return href;
  return href.replace(/^file:\/\/(?=\.\/)/i, '').replace(/^\.\/(?=.)/, '');
}

/**
 * Resolves a vendor's reference against the folder of its document. Only plain relative paths that stay inside the batch are followed
 * (RFC 8493, section 5.1, asks as much of bags): no scheme, drive, absolute or network path, backslash, home sign or control character.
 */
export function resolveHref(folder: string, href: string): ResolvedHref {
  if (BARE_NAME.test(href)) return { safe: true, path: folder === '' ? href : `${folder}/${href}` };
  const decoded = percentDecoded(plainHref(href));
  if (decoded === null) return unsafe('characters');
  if (decoded.trim() === '') return unsafe('nothing');
  if (/^[A-Za-z][A-Za-z0-9+.-]*:/.test(decoded) || /^(?:[/~]|\\\\)/.test(decoded)) return unsafe('address');
  if (decoded.length > 1000 || /[\u0000-\u001f\u007f]/.test(decoded)) return unsafe('characters');
  if (decoded.includes('\\')) return unsafe('backslash');
  const parts = folder === '' ? [] : folder.split('/');
  for (const part of decoded.split('/')) {
    if (part === '' || part === '.') continue;
    if (part !== '..') parts.push(part);
    else if (parts.pop() === undefined) return unsafe('outside');
  }
  const path = parts.join('/');
  return path === folder || path === '' ? unsafe('own-folder') : { safe: true, path };
}

/** The path with `%20` and the like decoded, once; null where what is left would decode further into a way out. */
function percentDecoded(href: string): string | null {
  if (!href.includes('%')) return href;
  try {
    const once = decodeURIComponent(href);
    return /%(?:2e|2f|5c|00)/i.test(once) ? null : once;
  } catch {
    // A per cent sign that encodes nothing is part of the name.
    return href;
  }
}
