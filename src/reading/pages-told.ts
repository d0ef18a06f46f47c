import { type CellItem, pagesCell } from '../normalise/pages-cell.js';
import { type PageShot, type PagesItem, readPages, SIGNS } from '../normalise/pages-notation.js';

/** A pages cell in which pages are told otherwise, such as `x1-8` for `1-8`; null for a cell that cannot be read. */
export function pagesTold(cell: string, change: (page: PageShot) => PageShot): string | null {
  const { items, faults } = readPages(cell);
  return faults.length > 0 ? null : pagesCell(items.map((item) => written(item.is === 'page' ? change(item) : item)));
}

function written(item: PagesItem): CellItem {
  if (item.is === 'jump') return { text: `@${item.frame}`, run: null };
  if (item.is === 'other') return { text: [...SIGNS].find(([, kind]) => kind === item.kind)?.[0] ?? '', run: null };
  const { label } = item;
  const [, prefix = '', number] = /^([A-Za-z]{0,3})([1-9]\d{0,4})$/.exec(label) ?? [];
  const run = (sort: string): CellItem['run'] => (number === undefined ? null : { sort, prefix, number: Number(number) });
  if (item.is === 'absent') {
    const mark = item.published === 'yes' ? '' : item.published === 'no' ? '-' : '?';
    return { text: `[${label}${mark}]`, run: run(`absent${mark}`) };
  }
  const sign = item.deliver ? (item.again ? 'd' : '') : 'x';
  const printed = item.printed === null ? '' : `(${item.printed})`;
  const twin = item.duplicateOf === null ? '' : `=${item.duplicateOf}`;
  const alike = (item.printed === null || item.printed === '-') && twin === '';
  return { text: `${sign}${label}${printed}${twin}`, run: alike ? run(`${sign}${printed}`) : null };
}
