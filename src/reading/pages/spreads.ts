import { type PagesItem, pagesParts, readPages } from '../../normalise/pages-notation.js';
import { quoted } from '../../normalise/sheet-row.js';
import { framesStated } from '../last-frames.js';
import { type ReadRow, valueOf } from '../read-row.js';
import type { Ways } from '../ways.js';
import type { PagesNotes } from './told.js';
import { framesUntilNext } from './usual.js';

/** A cell in the notation in which ranges of two pages may be openings, with the frames that it takes so and to the letter. */
interface Openings {
  readonly text: string;
  readonly frames: number;
  /** Two such ranges follow each other, `1-2,3-4`: who means a frame for each page writes `1-4`. */
  readonly telling: boolean;
}

/**
 * Reads two pages that are written as a range as the two sides of one opening where the frames of the row are as many: `1-2,3-4` on two frames. Where
 * the frames do not show it, it is asked; without an answer the notation holds, and that is said.
 */
export function readSpreads(rows: readonly ReadRow[], ways: Ways, { remark, doubt }: PagesNotes): void {
  const found = rows.map((row) => openingsIn(valueOf(row, 'pages').trim()));
  if (found.every((one) => one === null)) return;
  const frames = rows.map((row, at) => (found[at] === null ? null : (framesStated(row) ?? framesUntilNext(rows, at))));
  const shown = found.map((one, at) => one !== null && frames[at] === one.frames);
  const usual = shown.includes(true);
  for (const [at, row] of rows.entries()) {
    const one = found[at];
    if (one == null) continue;
    const cell = valueOf(row, 'pages').trim();
    const open = frames[at] === null && (one.telling || usual);
    if (shown[at] === true || (open && ways.spreads === 'one frame')) {
      row.typed.delete('pages');
      row.facts.set('pages', one.text);
      remark(
        row.row.row,
        quoted(cell),
        `is read as ${one.text}${shown[at] === true ? ': the row has so many frames' : ', as the reading file says'}.`,
      );
    } else if (open && ways.spreads === null) {
      doubt({ about: 'spreads', of: 'pages', row: row.row.row, text: cell });
      remark(
        row.row.row,
        quoted(cell),
        'may be openings of two pages on a frame each, and is read as a frame for each page; write 1/2 for two pages on one frame.',
      );
    }
  }
}

function openingsIn(cell: string): Openings | null {
  if (!/\d\s*[-\u2013]/.test(cell)) return null;
  const parts = pagesParts(cell).map((part) => ({ part: part.trim(), ...readPages(part.trim()) }));
  if (parts.some(({ faults }) => faults.length > 0)) return null;
  const openings = parts.map(({ part, items }) => openingOf(part, items));
  const count = openings.filter((one) => one !== null).length;
  if (count === 0) return null;
  const literal = parts.reduce((sum, { items }) => sum + items.filter(({ is }) => is === 'page' || is === 'other').length, 0);
  return {
    text: openings.map((one, at) => one?.text ?? parts[at]?.part ?? '').join(','),
    frames: literal - count,
    telling: openings.some((one, at) => one !== null && openings[at + 1]?.first === one.first + 2),
  };
}

/** `A1-A2` as the label of one frame, `A1/2`; null for any other part. */
function openingOf(part: string, items: readonly PagesItem[]): { readonly text: string; readonly first: number } | null {
  const [, letters = '', from] = /^([A-Z]{0,3})(\d{1,5})\s*[-\u2013]\s*[A-Z]{0,3}\d{1,5}$/.exec(part) ?? [];
  if (from === undefined || items.length !== 2) return null;
  return { text: `${letters}${from}/${String(Number(from) + 1)}`, first: Number(from) };
}
