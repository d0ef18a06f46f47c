import { documentFor, imageOf, mergeInto, pagesFor } from './edits.js';
import { finding, paper, type Scenario } from './scenario.js';

const CALL = paper('sn99071102', 'The Marlbeck Evening Call', ['mon', 'tue', 'wed', 'thu', 'fri', 'sat']);

const TWO_EDITIONS = `
  a = 1907-06-14 Fri v4 n140 "Late"
  b = 1907-06-14 Fri v4 n140 e2 "Extra"
  c = 1907-06-15 Sat v4 n141
  reel 4460
  1     target START
  2-9   a 1-8
  10-13 b 1-4
  14-17 c 1-4
`;

const FINAL_FIRST = `
  a = 1907-06-17 Mon v4 n142 "First"
  b = 1907-06-17 Mon v4 n142 e2 "Final"
  reel 4461
  1     target START
  2-5   b 1-4
  6-9   a 1-4
`;

const SECTIONS = `
  a = 1907-06-22 Sat v4 n147
  b = 1907-06-24 Mon v4 n148
  reel 4462
  1     target START
  2-9   a A1-A4 B1-B4
  10-13 b 1-4
`;

const swapEditions = (v: Parameters<NonNullable<Scenario['vendor']>>[0]): void => {
  documentFor(v, 'a').edition = 2;
  documentFor(v, 'b').edition = 1;
};

/** D. Editions of one day, and the parts of an issue. */
export const EDITIONS: readonly Scenario[] = [
  {
    number: '20',
    slug: 'two-editions-as-one-issue',
    tells: 'The Late edition and the Extra of one day came as one issue of twelve pages.',
    titles: [CALL],
    film: TWO_EDITIONS,
    profile: 'issue-mets',
    record: 'frames',
    vendor: (v) => mergeInto(v, 'a', 'b'),
    // Here one issue has two sections that both begin with page 1.
    twin: {
      film: TWO_EDITIONS.replace('2-9   a 1-8', '2-13  a A1-A8 B1-B4')
        .replace('10-13 b 1-4', '')
        .replace(/\n.*"Extra"/, ''),
    },
    verdict: 'return-for-rework',
    findings: [
      finding({
        code: 'issues-merged',
        severity: 'critical',
        reel: '4460',
        at: '10',
        frames: { from: '10', to: '13' },
        count: 4,
        title: 'sn99071102',
        date: '1907-06-14',
        edition: 2,
        says: 'The Marlbeck Evening Call of 1907-06-14, edition 1, and The Marlbeck Evening Call of 1907-06-14, edition 2, came as one issue; the second begins at frame 10.',
        instruction:
          'Split the document at frame 10: frames 10 to 13 are The Marlbeck Evening Call of 1907-06-14, edition 2 ("Extra" on the paper).',
      }),
    ],
  },
  {
    number: '21',
    slug: 'edition-order-as-filmed',
    tells: 'The Final edition was bound before the First; the vendor numbered them as they stand on the film.',
    titles: [CALL],
    film: FINAL_FIRST,
    profile: 'issue-mets',
    record: 'json',
    vendor: swapEditions,
    // Where the order of the film is agreed, the same return is right.
    twin: { policies: { editionOrder: 'filmed' }, vendor: swapEditions },
    verdict: 'return-for-rework',
    findings: [
      finding({
        code: 'editions-swapped',
        severity: 'major',
        reel: '4461',
        at: '2',
        frames: { from: '2', to: '9' },
        count: 8,
        title: 'sn99071102',
        date: '1907-06-17',
        edition: 2,
        says: "The two editions of The Marlbeck Evening Call of 1907-06-17 (frames 2 to 9) carry each other's number.",
        instruction:
          'Exchange the edition numbers: frames 2 to 5 are edition 2, frames 6 to 9 edition 1; leave the images where they are. Change the manifest and the folder names to match.',
      }),
    ],
  },
  {
    number: '22a',
    slug: 'section-letters-flattened',
    tells: 'The pages A1 to A4 and B1 to B4 came as pages 1 to 8 without sections.',
    titles: [CALL],
    film: SECTIONS,
    profile: 'issue-mets',
    record: 'issues',
    vendor: (v) => pagesFor(v, 'a').forEach((page, i) => Object.assign(page, { section: null, page: String(i + 1) })),
    // Here the paper numbers through.
    twin: { film: SECTIONS.replace('A1-A4 B1-B4', '1-8') },
    verdict: 'return-for-rework',
    findings: [
      finding({
        code: 'sections-flattened',
        severity: 'major',
        reel: '4462',
        at: '2',
        frames: { from: '2', to: '9' },
        count: 8,
        title: 'sn99071102',
        date: '1907-06-22',
        says: 'The sections (A, B) of The Marlbeck Evening Call of 1907-06-22 are lost on frames 2 to 9: the pages came without them, their labels changed.',
        instruction:
          'Look at the film on frames 2 to 9 and give these pages their section and the labels as the paper has them; the record has A, B.',
      }),
    ],
  },
  {
    number: '22b',
    slug: 'section-letter-read-as-digit',
    tells: 'The letter B of the second section was read as an 8: its pages came as 81 to 84, without a section.',
    titles: [CALL],
    film: SECTIONS,
    profile: 'page-mods',
    record: 'frames',
    vendor: (v) => ['6', '7', '8', '9'].forEach((name, i) => Object.assign(imageOf(v, name), { section: null, page: `8${String(i + 1)}` })),
    verdict: 'return-for-rework',
    findings: [
      finding({
        code: 'sections-flattened',
        severity: 'major',
        reel: '4462',
        at: '6',
        frames: { from: '6', to: '9' },
        count: 4,
        title: 'sn99071102',
        date: '1907-06-22',
        says: 'The section B of The Marlbeck Evening Call of 1907-06-22 is lost on frames 6 to 9: the pages came without it, their labels changed.',
        instruction:
          'Look at the film on frames 6 to 9 and give these pages their section and the labels as the paper has them; the record has B.',
      }),
    ],
  },
  {
    number: '23a',
    slug: 'misprinted-page-number-repaired',
    tells: 'Page 7 is printed as 9; the agreement wants what is printed, and the vendor gave 7.',
    titles: [CALL],
    film: `
      a = 1907-07-02 Tue v4 n155
      reel 4463
      1     target START
      2-9   a 1-6 7(9) 8
    `,
    profile: 'issue-mets',
    record: 'issues',
    vendor: (v) => Object.assign(imageOf(v, '8'), { page: '7' }),
    // Where the label that the library wants is agreed, 7 is right.
    twin: { policies: { pageNumber: 'intended' }, vendor: (v) => Object.assign(imageOf(v, '8'), { page: '7' }) },
    verdict: 'return-for-rework',
    findings: [
      finding({
        code: 'page-number-differs',
        severity: 'major',
        reel: '4463',
        at: '8',
        frames: { from: '8', to: '8' },
        count: 1,
        title: 'sn99071102',
        date: '1907-07-02',
        says: 'Frame 8 (The Marlbeck Evening Call of 1907-07-02) is page 9 in the record and page 7 in the return.',
        instruction: 'Set the page number of frame 8 to 9, as printed.',
      }),
    ],
  },
  {
    number: '23b',
    slug: 'supplement-filmed-inside',
    tells: 'A supplement of two pages was filmed between pages 2 and 3; the vendor counted its pages as 3 and 4 and the rest two higher.',
    titles: [CALL],
    film: `
      a = 1907-07-06 Sat v4 n159
      reel 4464
      1     target START
      2-7   a 1-2 +S1-S2 3-4
    `,
    profile: 'issue-mets',
    record: 'json',
    vendor: (v) => {
      ['4', '5', '6', '7'].forEach((name, i) => Object.assign(imageOf(v, name), { order: i + 3, page: String(i + 3), section: null }));
    },
    verdict: 'return-for-rework',
    findings: [
      finding({
        code: 'supplement-misplaced',
        severity: 'major',
        reel: '4464',
        at: '4',
        frames: { from: '4', to: '7' },
        count: 4,
        title: 'sn99071102',
        date: '1907-07-06',
        says: 'The supplement of The Marlbeck Evening Call of 1907-07-06 (frames 4 to 5) was counted among the pages where it was filmed; 4 pages have the wrong place.',
        instruction: 'Put frames 4 to 5 (S1, S2) at places 5, 6 of the issue and restore the other pages.',
      }),
    ],
  },
];
