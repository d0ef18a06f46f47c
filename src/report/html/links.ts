import { type Gap, html } from './markup.js';

/** Where a file of the batch is, as an address relative to the report; null for a path that leads out of the batch. */
function address(base: string, path: string): string | null {
  const segments = path.split('/');
  if (segments.some((segment) => segment === '' || segment === '.' || segment === '..' || segment.includes('\\'))) return null;
  try {
    // Encoded piece by piece: a colon or a question mark in a name stays part of the name.
    return `${base.replace(/\/+$/, '')}/${segments.map(encodeURIComponent).join('/')}`;
  } catch {
    // A lone half of a surrogate pair has no encoding.
    return null;
  }
}

/** The path of a file of the batch: as a link where it is known where the batch is, else as text. */
export function batchPath(path: string, base: string | undefined): Gap {
  const href = base === undefined ? null : address(base, path);
  return href === null ? path : html`<a href="${href}">${path}</a>`;
}

const PLAIN_ID = /^[A-Za-z0-9][A-Za-z0-9:._-]{0,200}$/;

/** The anchor of a finding: `finding-` and its id, or its place in the list where the id is no name that an address can carry. */
export function anchorOf(id: string, at: number): string {
  return `finding-${PLAIN_ID.test(id) ? id : `number-${String(at + 1)}`}`;
}
