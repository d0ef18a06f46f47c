import { documentOf, holdBack } from '../faults/scene.js';
import { documentFor, imageOf, issueNamed, pagesFor } from './edits.js';
import { finding, paper, type Scenario } from './scenario.js';

const EXAMINER = paper('sn99071101', 'The Marlbeck Examiner', ['thu']);
const HERALD = paper('sn99071106', 'The Marlbeck Examiner and Herald', ['thu']);

const RUN = `
  a = 1910-08-04 Thu v14 n721
  b = 1910-08-11 Thu v14 n722
  c = 1910-08-18 Thu v14 n723
  d = 1910-08-25 Thu v14 n724
  reel 4480
  1     target START
  2-5   a 1-4
  6-9   b 1-4
  10-13 c 1-4
  14-17 d 1-4
`;

const TORN = `
  a = 1910-09-01 Thu v14 n725
  b = 1910-09-08 Thu v14 n726
  reel 4481
  1     target START
  2-3   a 1-2
  4     a 3 !lower_half_torn_away
  5     a 4
  6-9   b 1-4
`;

const WANTING = TORN.replace('4     a 3 !lower_half_torn_away', '4     a [3] 4').replace('5     a 4', '').replace('6-9', '5-8');

/** What else happens: single situations without a number. */
export const RESERVE: readonly Scenario[] = [
  {
    number: 'torn-page',
    slug: 'torn-half-page-said-missing',
    tells: 'Half of page 3 is torn away, but its frame exists; the vendor held it back and states the page as missing.',
    titles: [EXAMINER],
    film: TORN,
    profile: 'page-mods',
    record: 'frames',
    vendor: (v) => {
      holdBack(imageOf(v, '4'));
      documentFor(v, 'a').absent.push({ order: 3, page: '3', section: null, statement: 'published' });
    },
    // Here page 3 is gone altogether.
    twin: { film: WANTING },
    verdict: 'return-for-rework',
    findings: [
      finding({
        code: 'absence-stated-wrongly',
        severity: 'major',
        reel: '4481',
        at: '4',
        frames: { from: '4', to: '4' },
        count: 1,
        title: 'sn99071101',
        date: '1910-09-01',
        says: 'Page 3 of The Marlbeck Examiner of 1910-09-01 is stated as absent, but lies on frame 4.',
        instruction: 'Deliver frame 4 as page 3 of The Marlbeck Examiner of 1910-09-01, and take back the statement that it is absent.',
      }),
    ],
  },
  {
    number: 'missing-page-present',
    slug: 'missing-page-called-present',
    tells: 'Page 3 is not on the film; the vendor has a page 3 that is said to be present, and no frame for it.',
    titles: [EXAMINER],
    film: WANTING,
    profile: 'issue-mets',
    record: 'json',
    vendor: (v) => {
      for (const page of documentFor(v, 'a').absent) page.statement = 'present';
    },
    twin: { film: TORN },
    verdict: 'return-for-rework',
    findings: [
      finding({
        code: 'absence-not-stated',
        severity: 'major',
        reel: '4481',
        at: null,
        frames: null,
        count: 1,
        title: 'sn99071101',
        date: '1910-09-01',
        billable: [{ class: 'page', change: -1 }],
        says: 'Page 3 of The Marlbeck Examiner of 1910-09-01 is not on the film, and the return calls it present, with no frame to show.',
        instruction: 'State page 3 of The Marlbeck Examiner of 1910-09-01 as absent.',
      }),
    ],
  },
  {
    number: 'title-change',
    slug: 'old-title-kept-after-a-change',
    tells: 'In the middle of the reel the paper changed its name and number; the vendor kept the old number for the rest of the reel.',
    titles: [EXAMINER, HERALD],
    film: RUN.replace('n723', 'n723 t2').replace('n724', 'n724 t2'),
    profile: 'page-mods',
    record: 'json',
    vendor: (v) => {
      for (const key of ['c', 'd']) documentFor(v, key).title = 'sn99071101';
    },
    // Here the paper did not change its name.
    twin: { film: RUN },
    verdict: 'return-for-rework',
    findings: [
      finding({
        code: 'title-differs',
        severity: 'critical',
        reel: '4480',
        at: '10',
        frames: { from: '10', to: '17' },
        count: 8,
        title: 'sn99071106',
        date: '1910-08-18',
        says: '2 issues (frames 10 to 17) came under the title sn99071101 instead of sn99071106.',
        instruction: 'Set the title of frames 10 to 17 to sn99071106. Change the file names to match.',
      }),
    ],
  },
  {
    number: 'date-carried-over',
    slug: 'date-left-standing-over-a-run',
    tells: 'The date of the first issue was left standing for the three after it; they came as its editions 2 to 4.',
    titles: [EXAMINER],
    film: RUN,
    profile: 'issue-mets',
    record: 'frames',
    vendor: (v) => ['b', 'c', 'd'].forEach((key, i) => Object.assign(documentFor(v, key), { date: '1910-08-04', edition: i + 2 })),
    verdict: 'return-for-rework',
    findings: [
      finding({
        code: 'date-carried-over',
        severity: 'critical',
        reel: '4480',
        at: '6',
        frames: { from: '6', to: '17' },
        count: 12,
        title: 'sn99071101',
        date: '1910-08-11',
        says: '3 issues (1910-08-11 to 1910-08-25, frames 6 to 17) all carry the date of the issue before them, 1910-08-04.',
        instruction:
          'Give these issues the dates 1910-08-11, 1910-08-18, 1910-08-25, in film order, each as edition 1. Change the manifest, the folder names and the LABEL to match.',
      }),
    ],
  },
  {
    number: 'boundary-late',
    slug: 'boundary-one-page-late',
    tells: 'The last page of one issue came as the first of the next: three pages and five.',
    titles: [EXAMINER],
    film: RUN,
    profile: 'issue-mets',
    record: 'issues',
    vendor: (v) => {
      const { index } = documentOf(v.plan, issueNamed(v, 'b'));
      for (const page of pagesFor(v, 'b')) page.order = (page.order ?? 0) + 1;
      Object.assign(imageOf(v, '5'), { issue: index, order: 1 });
    },
    verdict: 'return-for-rework',
    findings: [
      finding({
        code: 'issue-boundary-moved',
        severity: 'critical',
        reel: '4480',
        at: '5',
        frames: { from: '5', to: '5' },
        count: 1,
        title: 'sn99071101',
        date: '1910-08-04',
        says: 'The last page of The Marlbeck Examiner of 1910-08-04 (frame 5) came as part of The Marlbeck Examiner of 1910-08-11.',
        instruction: 'Move frame 5 back to The Marlbeck Examiner of 1910-08-04 and count the pages of both issues anew.',
      }),
    ],
  },
  {
    number: 'collation-wrong',
    slug: 'record-gives-the-wrong-year',
    tells: 'The record gives the third issue the year 1901 for 1910; the vendor has it right.',
    titles: [EXAMINER],
    film: RUN,
    profile: 'issue-mets',
    record: 'json',
    library: (record) => ({
      ...record,
      reels: record.reels.map((reel) => ({
        ...reel,
        frames: reel.frames.map((frame) => (frame.date === '1910-08-18' ? { ...frame, date: '1901-08-18' } : frame)),
      })),
    }),
    verdict: 'cannot-decide',
    findings: [
      finding({
        code: 'date-differs',
        severity: 'critical',
        cause: 'collation',
        reel: '4480',
        at: '10',
        frames: { from: '10', to: '13' },
        count: 4,
        title: 'sn99071101',
        date: '1901-08-18',
        says: 'The record gives the issue on frames 10 to 13 the date 1901-08-18, the return 1910-08-18; the film speaks for the return.',
        instruction: 'Compare the paper on frames 10 to 13 with both dates before anything is changed.',
      }),
    ],
  },
  {
    number: 'collation-wrong-page',
    slug: 'record-calls-page-2-page-22',
    tells: 'The record calls page 2 of an issue page 22; the vendor has it right.',
    titles: [EXAMINER],
    film: RUN,
    profile: 'page-mods',
    record: 'frames',
    library: (record) => ({
      ...record,
      reels: record.reels.map((reel) => ({
        ...reel,
        frames: reel.frames.map((frame) => (frame.frame === '7' ? { ...frame, page: '22' } : frame)),
      })),
    }),
    verdict: 'cannot-decide',
    findings: [
      finding({
        code: 'page-number-differs',
        severity: 'major',
        cause: 'collation',
        reel: '4480',
        at: '7',
        frames: { from: '7', to: '7' },
        count: 1,
        title: 'sn99071101',
        date: '1910-08-11',
        says: 'Frame 7 (The Marlbeck Examiner of 1910-08-11) is page 22 in the record and page 2 in the return.',
        instruction: 'Compare the paper on frame 7 with both readings before anything is changed.',
      }),
    ],
  },
];
