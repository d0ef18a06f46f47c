import { readPages } from '../normalise/pages-notation.js';
import { PAGES_COUNTED } from './names.js';
import type { Remark } from './note-facts.js';
import { has, type ReadRow, valueOf } from './read-row.js';

/** Holds the pages that a row lists against the number of them that another of its columns gives: of those filmed, or of those that the issue has. */
export function holdPageCounts(rows: readonly ReadRow[], remark: Remark): void {
  for (const row of rows) {
    const said = valueOf(row, PAGES_COUNTED).trim();
    const pages = valueOf(row, 'pages').trim();
    const count = Number(/^\d{1,3}(?!\d)/.exec(said)?.[0] ?? Number.NaN);
    // How many pages an issue has that is not on the film is no disagreement.
    if (said === '' || (pages === '' && has(row, 'published'))) continue;
    const counts = countsOf(pages);
    if (Number.isNaN(count))
      remark(row.row.row, `"${said.slice(0, 40)}"`, 'is no number of pages, and is not held against the pages of the row.');
    else if (counts !== null && !counts.includes(count))
      remark(
        row.row.row,
        `the count ${String(count)} beside the pages ${pages === '' ? '(none)' : pages}`,
        'does not agree with them, whether those on the film or all of the issue are counted; the pages are read, so look which of the two is right.',
      );
  }
}

/** How many pages a list has on the film, and how many different ones the issue has of which it tells; null where the list cannot be read. */
function countsOf(cell: string): readonly number[] | null {
  const { items, faults } = readPages(cell);
  if (faults.length > 0 && cell !== '') return null;
  const shown = items.flatMap((item) => (item.is === 'page' ? [item.label] : []));
  const gone = items.flatMap((item) => (item.is === 'absent' ? [item.label] : []));
  const published = items.flatMap((item) => (item.is === 'absent' && item.published !== 'no' ? [item.label] : []));
  return [shown.length, new Set(shown).size, new Set([...shown, ...gone]).size, new Set([...shown, ...published]).size];
}
