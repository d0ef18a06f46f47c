import type { Decision, Severity } from '../../model/findings.js';
import { html, type Markup, trusted } from './markup.js';

/** Drawings by name, each in a square of 16: told apart by their outline alone. */
const DRAWINGS: Readonly<Record<Severity | Decision, string>> = {
  critical: '<path d="M8 0l8 8-8 8-8-8z"/>',
  major: '<path d="M8 1l8 14H0z"/>',
  minor: '<rect x="2" y="2" width="12" height="12"/>',
  note: '<circle cx="8" cy="8" r="5.5" fill="none" stroke="currentColor" stroke-width="2.5"/>',
  accept: '<path d="M1 8.5L3.5 6 6.5 9 12.5 3 15 5.500 6.500 14z"/>',
  'accept-with-corrections': '<path d="M1 12.500V15h2.500L13 5.500 10.500 3zM11.500 2L14 4.500 15.500 3 13 .5z"/>',
  'return-for-rework': '<path d="M7 1v4h3a5 5 0 0 1 0 10H4v-3h6a2 2 0 0 0 0-4H7v4L0 6.500z"/>',
  'cannot-decide': '<path d="M6.500 11.500h3v3h-3zM3 5.500A5 5 0 1 1 9.500 9.500V10.500h-3V7A2 2 0 1 0 6 5.500z"/>',
};

/** The drawings once, for the marks to point at. */
export function drawings(): Markup {
  const symbols = Object.entries(DRAWINGS).map(([name, path]) => `<symbol id="mark-${name}" viewBox="0 0 16 16">${path}</symbol>`);
  return trusted(`<svg class="drawings" aria-hidden="true" width="0" height="0">${symbols.join('')}</svg>`);
}

/** The drawing of a severity or a verdict; the word stands beside it. */
export function mark(name: Severity | Decision): Markup {
  return html`<svg class="mark" aria-hidden="true" focusable="false"><use href="#mark-${name}"/></svg>`;
}

/** A severity as drawing, letter size and word. */
export function severityMark(severity: Severity): Markup {
  return html`<span class="severity ${severity}">${mark(severity)} ${severity.charAt(0).toUpperCase() + severity.slice(1)}</span>`;
}

/** The kinds of frames with the letter each has in a strip; any other kind is drawn as `other`. */
export const KINDS: readonly (readonly [kind: string, letter: string])[] = [
  ['page', 'P'],
  ['blank', 'B'],
  ['target', 'T'],
  ['void', 'V'],
  ['other', 'O'],
];
