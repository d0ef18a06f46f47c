import type { ResultPlace } from '../../model/findings.js';
import { placeSources } from '../places.js';
import { counted } from '../words.js';

/** More documents, and more elements of one, than this help nobody who reads; the JSON has them all. */
const DOCUMENTS = 3;
const ELEMENTS = 3;

/** Where a finding stands, each line with what to write in front: one for a document or sheet, with its first elements or rows. */
export function placeLines(places: readonly ResultPlace[]): readonly (readonly [label: string, text: string])[] {
  const sources = placeSources(places);
  const lines = sources.slice(0, DOCUMENTS).map(({ document, sheet, spots, count }) => {
    const name = document ?? (sheet === '' ? '' : `sheet ${sheet}`);
    const parts = [name, ...spots.slice(0, ELEMENTS)].filter((part) => part !== '');
    const more = count - ELEMENTS;
    const label = document === null ? 'In the record: ' : 'In the return: ';
    return [label, `${parts.join(', ')}${more > 0 ? ` and ${String(more)} more` : ''}`] as const;
  });
  const left = sources.length - lines.length;
  return left > 0 ? [...lines, ['', `and in ${counted(left, 'more document')}`]] : lines;
}
