import type { ResultPlace } from '../../model/findings.js';
import { counted, placeInWords } from '../words.js';

/** More documents, and more elements of one, than this help nobody who reads; the JSON has them all. */
const DOCUMENTS = 3;
const ELEMENTS = 3;

/** Where a finding stands, each line with what to write in front: one for a document or sheet, with its first elements or rows. */
export function placeLines(places: readonly ResultPlace[]): readonly (readonly [label: string, text: string])[] {
  const sources = new Map<string, { readonly label: string; readonly name: string; readonly spots: string[] }>();
  for (const { document, sheet, ...spot } of places) {
    const label = document === undefined ? 'In the record: ' : 'In the return: ';
    const name = document ?? (sheet === undefined ? '' : `sheet ${sheet}`);
    const words = placeInWords(spot);
    const source = sources.get(label + name) ?? { label, name, spots: [] };
    if (name !== '' || words !== '') sources.set(label + name, source);
    if (words !== '') source.spots.push(words);
  }
  const lines = [...sources.values()].slice(0, DOCUMENTS).map(({ label, name, spots }) => {
    const parts = [name, ...spots.slice(0, ELEMENTS)].filter((part) => part !== '');
    const more = spots.length - ELEMENTS;
    return [label, `${parts.join(', ')}${more > 0 ? ` and ${String(more)} more` : ''}`] as const;
  });
  const left = sources.size - lines.length;
  return left > 0 ? [...lines, ['', `and in ${counted(left, 'more document')}`]] : lines;
}
