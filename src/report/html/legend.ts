import { SEVERITIES } from '../words.js';
import { WEIGHT_CLASSES } from './cells.js';
import { KINDS, severityMark } from './marks.js';
import { html, type Markup } from './markup.js';
import { SIGNS } from './signs.js';

const cell = (classes: string, letter: string): Markup =>
  html`<span class="strip"><i class="${classes}" aria-hidden="true">${letter}</i></span>`;

/** Every sign of the film with its sentence; the letters of kinds and the weights in a line each. */
export function signLegend(): Markup {
  return html`<ul class="signs" aria-label="Signs of frames">${SIGNS.map(([, { css, means }]) => html`<li>${cell(`p ${css}`, 'P')} ${means}</li>`)}
<li>${KINDS.map(([kind, letter]) => html`${cell(`${kind.charAt(0)} sa`, letter)} ${kind} `)}${cell('p sa held', 'P')} held back (dashed): not to be delivered.</li>
<li>The bar on top is the weight of the worst finding there: ${SEVERITIES.map((severity) => html`${cell(`p sd ${WEIGHT_CLASSES[severity]}`, 'P')} ${severityMark(severity)} `)}</li></ul>
`;
}
