import type { ExpectedPage, WorksheetUnit } from '../../model/worksheet.js';
import { counted } from '../words.js';

/** What one should find on a unit: heads with values; what is not known is left out. An issue shows what its pages share, then the pages. */
export function factsOf({ pages }: WorksheetUnit): readonly (readonly [head: string, value: string])[] {
  const [first] = pages;
  if (first === undefined) return [];
  const shared: readonly (readonly [string, string | null])[] = [
    ['Title', [first.titleName, first.title].filter((text) => text !== '').join(' · ') || null],
    ['Date', first.date],
    ['Edition', first.edition === null ? null : String(first.edition)],
  ];
  const own: readonly (readonly [string, string | null])[] =
    pages.length === 1
      ? [
          ['Section', first.section],
          ['Page', first.page ?? 'no number'],
          ['Place in the issue', first.order === null ? null : String(first.order)],
          ['Reel and frame', placeOf(first)],
          ['The record notes', first.condition.length === 0 ? null : first.condition.join(', ')],
        ]
      : [['Pages', `${counted(pages.length, 'page')}: ${pages.map((page) => `${labelOf(page)} (${placeOf(page)})`).join(', ')}`]];
  return [...shared, ...own].flatMap(([head, value]) => (value === null ? [] : [[head, value] as const]));
}

/** `A3`, `3` or `no number`; the section is named where the label does not begin with it. */
export function labelOf({ section, page }: ExpectedPage): string {
  if (page === null) return 'no number';
  return section === null || page.startsWith(section) ? page : `${section} ${page}`;
}

/** `55901:12`, with the vendor's number beside it where that is another. */
export function placeOf({ reel, frame, returned }: ExpectedPage): string {
  if (frame === null) return `reel ${reel}, the vendor's frame ${returned ?? 'without number'}`;
  return `reel ${reel}, frame ${frame}${returned === null || returned === frame ? '' : ` (the vendor calls it ${returned})`}`;
}
