import type { Repair, ResultPlace } from '../../model/findings.js';
import { type PlaceSource, placeSources } from '../places.js';
import { actInWords, frameOfStep } from '../repair.js';
import { counted } from '../words.js';
import type { FramesOfFinding } from './finding-strip.js';
import { fold } from './fold.js';
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
  return fold(
    'repair',
    html`What to change in the vendor's files (${steps.length})`,
    html`${table({ caption: "In the vendor's own file names and frame numbers", rowHeads: false }, ['file', 'element', 'frame', 'change'], rows)}${more > 0 && html`<p>and ${counted(more, 'more change')}; findings.json names them all.</p>`}`,
  );
}

/** Where it stands in the return and in the record. */
export function placesList(list: readonly ResultPlace[], batch: string | undefined): Markup {
  const sources = placeSources(list);
  const first = ({ spots, count }: PlaceSource): string =>
    spots.slice(0, 4).join(', ') + (count > 4 && spots.length > 0 ? ` and ${String(count - 4)} more` : '');
  const inReturn = sources.flatMap((source) =>
    source.document === null ? [] : [html`${batchPath(source.document, batch)}${source.spots.length > 0 && `: ${first(source)}`}`],
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
  return fold(
    'files',
    html`Files of these frames (${all.length})`,
    html`${bullets(all.slice(0, MOST_FILES).map((file) => html`${batchPath(file.path, batch)} <span class="quiet">${file.use}</span>`))}${more > 0 && html`<p>and ${counted(more, 'more file')}; findings.json names them all.</p>`}`,
  );
}
