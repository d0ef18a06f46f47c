import { encodedPath } from '../markup-text.js';
import { type Gap, html } from './markup.js';

/** Where a file of the batch is, as an address relative to the report; null for a path that leads out of the batch. */
export function batchAddress(path: string, base: string): string | null {
  const way = encodedPath(path);
  return way === null ? null : `${base.replace(/\/+$/, '')}/${way}`;
}

/** The path of a file of the batch: as a link where it is known where the batch is, else as text. */
export function batchPath(path: string, base: string | undefined): Gap {
  const href = base === undefined ? null : batchAddress(path, base);
  return href === null ? path : html`<a href="${href}">${path}</a>`;
}

const PLAIN_ID = /^[A-Za-z0-9][A-Za-z0-9:._-]{0,200}$/;

/** The anchor of a finding: `finding-` and its id, or its place in the list where the id is no name that an address can carry. */
export function anchorOf(id: string, at: number): string {
  return `finding-${PLAIN_ID.test(id) ? id : `number-${String(at + 1)}`}`;
}
