import type { Repair, ResultPlace } from '../../model/findings.js';
import { placeSources } from '../places.js';
import { actInWords, frameOfStep } from '../repair.js';
import { counted } from '../words.js';
import type { FramesOfFinding } from './finding-strip.js';
import { batchPath } from './links.js';
import { html, type Markup } from './markup.js';
import { bullets, table } from './table.js';

const MOST_FILES = 24;
const MOST_PLACES = 12;

/** What is to be changed in the vendor's files, step by step. */
export function repairTable(steps: readonly Repair[], batch: string | undefined): Markup {
  if (steps.length === 0) return html``;
  const more = steps.length - MOST_FILES;
  const rows = steps
    .slice(0, MOST_FILES)
    .map((step) => [
      step.document === null ? '' : batchPath(step.document, batch),
      step.element ?? '',
      frameOfStep(step),
      actInWords(step),
    ]);
  return html`<details class="repair"><summary>What to change in the vendor’s files (${steps.length})</summary>
${table({ caption: 'In the vendor’s own file names and frame numbers', rowHeads: false }, ['file', 'element', 'frame', 'change'], rows)}${more > 0 && html`<p>and ${counted(more, 'more change')}; findings.json names them all.</p>`}</details>
`;
}

/** Where it stands in the return and in the record. */
export function placesList(list: readonly ResultPlace[], batch: string | undefined): Markup {
  const sources = placeSources(list);
  const first = (words: readonly string[]): string =>
    words.slice(0, 4).join(', ') + (words.length > 4 ? ` and ${String(words.length - 4)} more` : '');
  const inReturn = sources.flatMap(({ document, spots }) =>
    document === null ? [] : [html`${batchPath(document, batch)}${spots.length > 0 && `: ${first(spots)}`}`],
  );
  const inRecord = sources
    .filter(({ document }) => document === null)
    .map(({ sheet, spots }) => `our ${[...(sheet === '' ? ['record'] : [`sheet ${sheet}`]), ...spots].join(', ')}`);
  const more = inReturn.length - MOST_PLACES;
  const all = [...inRecord.slice(0, MOST_PLACES), ...inReturn.slice(0, MOST_PLACES)];
  return html`${all.length > 0 && html`<div class="places"><h4>Where</h4>${bullets([...all, ...(more > 0 ? [`and ${counted(more, 'more document')}`] : [])])}</div>`}`;
}

/** The files that came for the frames of a finding. */
export function filesList(parts: readonly FramesOfFinding[], batch: string | undefined): Markup {
  const all = parts.flatMap(({ reel, places: at }) => at.flatMap((place) => reel.frames[place]?.files ?? []));
  if (all.length === 0) return html``;
  const more = all.length - MOST_FILES;
  return html`<details class="files"><summary>Files of these frames (${all.length})</summary>
${bullets(all.slice(0, MOST_FILES).map((file) => html`${batchPath(file.path, batch)} <span class="quiet">${file.use}</span>`))}${more > 0 && html`<p>and ${counted(more, 'more file')}; findings.json names them all.</p>`}</details>
`;
}
