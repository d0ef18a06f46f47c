import type { CatalogueEntry } from '../model/findings.js';

/** Codes about the pages inside an issue. */
export const PAGE_CODES = [
  {
    code: 'page-number-differs',
    group: 'page',
    title: 'The page number differs',
    why: 'Page numbers are how articles are cited. A number other than the agreed one sends the reader to the wrong page.',
    severity: 'major',
  },
  {
    code: 'page-numbers-shifted',
    group: 'page',
    title: 'The page numbers of a run are shifted by the same amount',
    why: 'One page that was counted or not counted moved all the others. It is one mistake to mend, however many pages it touches.',
    severity: 'major',
  },
  {
    code: 'page-order-differs',
    group: 'page',
    title: 'The pages of an issue are in another order',
    why: 'A reader turns the pages in the delivered order, not in the order of filming. Articles that run on break off.',
    severity: 'major',
  },
  {
    code: 'pages-swapped',
    group: 'page',
    title: 'Two pages are exchanged',
    why: 'Each of the two images stands where the other belongs, so both are cited and read wrongly.',
    severity: 'major',
  },
  {
    code: 'section-differs',
    group: 'page',
    title: 'The section differs',
    why: "Page 3 of section A and page 3 of section B are different pages. The section is part of the page's name.",
    severity: 'major',
  },
  {
    code: 'sections-flattened',
    group: 'page',
    title: 'The sections of an issue were lost',
    why: 'Pages A1 to B8 became one run of numbers that nobody has ever printed or cited.',
    severity: 'major',
  },
  {
    code: 'supplement-misplaced',
    group: 'page',
    title: 'A supplement is counted among the pages of its issue',
    why: 'A supplement that was filmed inside an issue belongs behind it. Counted in its place of filming it renumbers the pages after it.',
    severity: 'major',
  },
] as const satisfies readonly CatalogueEntry[];
