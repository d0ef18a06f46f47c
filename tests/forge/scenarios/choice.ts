import { asDocument, countIn, pagesFor } from './edits.js';
import { finding, paper, type Scenario } from './scenario.js';

const EXAMINER = paper('sn99071101', 'The Marlbeck Examiner', ['thu']);
const STAR = paper('sn99071103', 'The Dunfallow Star', ['sat']);

const TARGETS = `
  a = 1908-04-02 Thu v12 n599
  b = 1908-04-09 Thu v12 n600
  reel 4470
  1     target TITLE
  2-5   a 1-4
  6-9   b 1-4
  10    target END OF REEL
`;

const SECOND_TITLE = `
  a = 1908-04-02 Thu v12 n599
  s = 1908-04-04 Sat t2 v11 n540
  reel 4472
  1     target START
  2-5   a 1-4
  6-9   s x1-4
`;

/** E. What was delivered and is no page, or was not ordered. */
export const CHOICE: readonly Scenario[] = [
  {
    number: '24a',
    slug: 'targets-counted-as-pages',
    tells:
      'The title target came as the first page of the first issue, whose labels are one too high, and the end target as the last page of the last.',
    titles: [EXAMINER],
    film: TARGETS,
    profile: 'issue-mets',
    record: 'frames',
    vendor: (v) => {
      countIn(v, 'a', '1', 1, '1');
      for (const page of pagesFor(v, 'a').slice(1)) page.page = String(page.order ?? 0);
      countIn(v, 'b', '10', 5, '5');
    },
    verdict: 'return-for-rework',
    findings: [
      finding({
        code: 'non-page-delivered',
        severity: 'major',
        reel: '4470',
        at: '1',
        frames: { from: '1', to: '1' },
        count: 1,
        title: 'sn99071101',
        date: '1908-04-02',
        billable: [{ class: 'page', change: -1 }],
        says: 'Frame 1 (a target) is not a page of a newspaper and was delivered as one in The Marlbeck Examiner of 1908-04-02.',
        instruction: 'Hold frame 1 back, and restore the labels and the order of the pages after it.',
      }),
      finding({
        code: 'non-page-delivered',
        severity: 'major',
        reel: '4470',
        at: '10',
        frames: { from: '10', to: '10' },
        count: 1,
        title: 'sn99071101',
        date: '1908-04-09',
        billable: [{ class: 'page', change: -1 }],
        says: 'Frame 10 (a target) is not a page of a newspaper and was delivered as one in The Marlbeck Examiner of 1908-04-09.',
        instruction: 'Hold frame 10 back.',
      }),
    ],
  },
  {
    number: '24b',
    slug: 'punched-frame-delivered',
    tells: 'The camera operator spoilt an exposure and punched it; it came as a page between 2 and 3.',
    titles: [EXAMINER],
    film: `
      a = 1908-04-02 Thu v12 n599
      reel 4471
      1     target START
      2-3   a 1-2
      4     void punched
      5-6   a 3-4
    `,
    profile: 'page-mods',
    record: 'json',
    vendor: (v) => countIn(v, 'a', '4', 3, null),
    verdict: 'return-for-rework',
    findings: [
      finding({
        code: 'non-page-delivered',
        severity: 'major',
        reel: '4471',
        at: '4',
        frames: { from: '4', to: '4' },
        count: 1,
        title: 'sn99071101',
        date: '1908-04-02',
        billable: [{ class: 'page', change: -1 }],
        says: 'Frame 4 (a void) is not a page of a newspaper and was delivered as one in The Marlbeck Examiner of 1908-04-02.',
        instruction: 'Hold frame 4 back, and restore the order of the pages after it.',
      }),
    ],
  },
  {
    number: '24c',
    slug: 'title-not-ordered-delivered-and-billed',
    tells: 'At the end of the reel lies an issue of another paper that was not ordered; it was delivered.',
    titles: [EXAMINER, STAR],
    film: SECOND_TITLE,
    profile: 'issue-mets',
    record: 'frames',
    vendor: (v) => asDocument(v, { like: 's' }, ['6', '7', '8', '9']),
    // Here the second paper was ordered too.
    twin: { film: SECOND_TITLE.replace('s x1-4', 's 1-4') },
    verdict: 'return-for-rework',
    findings: [
      finding({
        code: 'suppressed-frame-delivered',
        severity: 'major',
        reel: '4472',
        at: '6',
        frames: { from: '6', to: '9' },
        count: 4,
        title: 'sn99071103',
        date: '1908-04-04',
        billable: [{ class: 'page', change: -4 }],
        says: 'Frames 6 to 9 (4 pages of The Dunfallow Star of 1908-04-04) were to be held back and were delivered.',
        instruction: 'Hold frames 6 to 9 back and withdraw the document made of them.',
      }),
    ],
  },
];
