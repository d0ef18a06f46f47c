import { readFrameNumber } from '../normalise/labels.js';
import { readPages } from '../normalise/pages-notation.js';
import { LAST_FRAME } from './names.js';
import { has, type ReadRow, valueOf } from './read-row.js';
import type { Ways } from './ways.js';

type Remark = (row: number, held: string, says: string) => void;

/** Gives the issues of which frames and no pages are known a page for each frame, where the reading file has it so. */
export function fillPages(rows: readonly ReadRow[], ways: Ways, remark: Remark): void {
  if (ways.noPages !== 'a page each') return;
  for (const read of rows) {
    const count = framesStated(read);
    if (count === null || has(read, 'pages') || !has(read, 'date')) continue;
    read.facts.set('pages', count === 1 ? '1' : `1-${String(count)}`);
    remark(read.row.row, inWords(read), 'has no pages beside it and is read as a page for each frame, from 1 on.');
  }
}

/** Holds the last frame that an issue sheet states against the pages of the row, which say it as well. */
export function holdLastFrames(rows: readonly ReadRow[], remark: Remark): void {
  for (const [at, read] of rows.entries()) {
    const last = valueOf(read, LAST_FRAME).trim();
    if (last === '') continue;
    const count = framesStated(read);
    const pages = valueOf(read, 'pages').trim();
    const taken = framesTaken(rows, at);
    // Halves of an exposure are counted by the pages alone.
    if (count === null && /^\d+$/.test(last)) remark(read.row.row, inWords(read), 'is no range of frames; the last frame is not read.');
    else if (count !== null && taken !== null && taken !== count)
      remark(
        read.row.row,
        `${inWords(read)} beside the pages ${pages}`,
        'does not hold as many frames as the pages take; the first frame and the pages are read, so look which of them is right.',
      );
  }
}

/** How many frames the row has from its first to its last; null where it states none, or halves. */
export function framesStated(read: ReadRow): number | null {
  const [from, to] = ['first frame', LAST_FRAME].map((field) => readFrameNumber(valueOf(read, field)));
  if (from == null || to == null || from.half !== '' || to.half !== '' || to.exposure < from.exposure) return null;
  return to.exposure - from.exposure + 1;
}

function inWords(read: ReadRow): string {
  return `the range ${valueOf(read, 'first frame').trim()}-${valueOf(read, LAST_FRAME).trim()}`;
}

/** How many frames the pages of the row take, with those of the supplement that was parted from it and stands behind it; null where it cannot be told. */
function framesTaken(rows: readonly ReadRow[], at: number): number | null {
  const [read, next] = [rows[at], rows[at + 1]];
  const own = read === undefined ? null : framesOf(valueOf(read, 'pages').trim());
  if (own === null || next === undefined || next.row !== read?.row) return own;
  const more = framesOf(valueOf(next, 'pages').trim());
  return more === null ? null : own + more;
}

/** How many frames a list of pages takes; null where it cannot be told. */
function framesOf(pages: string): number | null {
  if (pages === '') return null;
  const { items, faults } = readPages(pages);
  if (faults.length > 0 || items.some(({ is }) => is === 'jump')) return null;
  return items.filter(({ is }) => is !== 'absent').length;
}
