import { documentFor } from './edits.js';
import { finding, paper, type Scenario } from './scenario.js';

const EXAMINER = paper('sn99071101', 'The Marlbeck Examiner', ['thu']);
const CALL = paper('sn99071102', 'The Marlbeck Evening Call', ['mon', 'tue', 'wed', 'thu', 'fri', 'sat']);

const NEW_YEAR = `
  a = 1901-12-26 Thu v5 n272
  b = 1902-01-02 Thu v5 n273 printed 1901-01-02 says Thursday
  c = 1902-01-09 Thu v5 n274
  reel 4440
  1     target START
  2-5   a 1-4
  6-9   b 1-4
  10-13 c 1-4
`;

const LEAP = `
  a = 1906-02-22 Thu v9 n486
  b = 1906-03-01 Thu v9 n487 printed 1906-02-29
  c = 1906-03-08 Thu v9 n488
  reel 4441
  1     target START
  2-5   a 1-4
  6-9   b 1-4
  10-13 c 1-4
`;

/** C. Dates on paper and real ones. */
export const DATES: readonly Scenario[] = [
  {
    number: '14',
    slug: 'old-year-in-january',
    tells: 'The first issue of the year still prints the old year; the vendor took the printed date for the real one.',
    titles: [EXAMINER],
    film: NEW_YEAR,
    profile: 'issue-mets',
    record: 'issues',
    vendor: (v) => Object.assign(documentFor(v, 'b'), { date: '1901-01-02', datePrinted: null }),
    verdict: 'return-for-rework',
    findings: [
      finding({
        code: 'date-differs',
        severity: 'critical',
        reel: '4440',
        at: '6',
        frames: { from: '6', to: '9' },
        count: 4,
        title: 'sn99071101',
        date: '1902-01-02',
        says: 'The Marlbeck Examiner of 1902-01-02 (frames 6 to 9) is dated 1901-01-02 in the return.',
        instruction:
          'Give the issue on frames 6 to 9 the date 1902-01-02, and 1901-01-02 as the date printed on the paper. Change the manifest, the folder name and the LABEL to match.',
      }),
    ],
  },
  {
    number: '15',
    slug: 'misread-digit-weekday-blind',
    tells: 'The year 1903 was read as 1908, in which the day falls on the same weekday.',
    titles: [EXAMINER],
    film: `
      a = 1903-10-08 Thu v7 n366
      b = 1903-10-15 Thu v7 n367
      c = 1903-10-22 Thu v7 n368
      reel 4442
      1     target START
      2-5   a 1-4
      6-9   b 1-4
      10-13 c 1-4
    `,
    profile: 'page-mods',
    record: 'frames',
    vendor: (v) => Object.assign(documentFor(v, 'b'), { date: '1908-10-15' }),
    // Here the reel does end with an issue of 1908, as its volume and number say.
    twin: {
      film: `
        a = 1903-10-08 Thu v7 n366
        c = 1903-10-22 Thu v7 n368
        b = 1908-10-15 Thu v12 n627
        reel 4442
        1     target START
        2-5   a 1-4
        6-9   c 1-4
        10-13 b 1-4
      `,
    },
    verdict: 'return-for-rework',
    findings: [
      finding({
        code: 'date-differs',
        severity: 'critical',
        reel: '4442',
        at: '6',
        frames: { from: '6', to: '9' },
        count: 4,
        title: 'sn99071101',
        date: '1903-10-15',
        says: 'The Marlbeck Examiner of 1903-10-15 (frames 6 to 9) is dated 1908-10-15 in the return.',
        instruction: 'Give the issue on frames 6 to 9 the date 1903-10-15. Change the folder name to match.',
      }),
    ],
  },
  {
    number: '16a',
    slug: 'impossible-date-lost',
    tells: 'The paper prints 29 February of a year that has none; the vendor gave the real day and left out what is printed.',
    titles: [EXAMINER],
    film: LEAP,
    profile: 'issue-mets',
    record: 'json',
    vendor: (v) => Object.assign(documentFor(v, 'b'), { datePrinted: null }),
    verdict: 'accept-with-corrections',
    findings: [
      finding({
        code: 'printed-date-not-given',
        severity: 'minor',
        reel: '4441',
        at: '6',
        frames: { from: '6', to: '9' },
        count: 4,
        title: 'sn99071101',
        date: '1906-03-01',
        says: 'The paper of The Marlbeck Examiner of 1906-03-01 (frames 6 to 9) prints 1906-02-29, and the return does not give that date.',
        instruction: 'Look at the film on frames 6 to 9 and give the date that is printed there; the record has 1906-02-29.',
      }),
    ],
  },
  {
    number: '16b',
    slug: 'impossible-date-moved-back',
    tells: 'The paper prints 29 February of a year that has none; the vendor made it the 28th.',
    titles: [EXAMINER],
    film: LEAP,
    profile: 'issue-mets',
    record: 'frames',
    vendor: (v) => Object.assign(documentFor(v, 'b'), { date: '1906-02-28', datePrinted: null }),
    // Here the paper is right: an issue of Wednesday the 28th.
    twin: { film: LEAP.replace('1906-03-01 Thu v9 n487 printed 1906-02-29', '1906-02-28 Wed v9 n487') },
    verdict: 'return-for-rework',
    findings: [
      finding({
        code: 'date-differs',
        severity: 'critical',
        reel: '4441',
        at: '6',
        frames: { from: '6', to: '9' },
        count: 4,
        title: 'sn99071101',
        date: '1906-03-01',
        says: 'The Marlbeck Examiner of 1906-03-01 (frames 6 to 9) is dated 1906-02-28 in the return.',
        instruction:
          'Give the issue on frames 6 to 9 the date 1906-03-01, and 1906-02-29 as the date printed on the paper. Change the manifest, the folder name and the LABEL to match.',
      }),
    ],
  },
  {
    number: '17',
    slug: 'off-day-issue-corrected',
    tells: 'The Thursday paper came out on a Wednesday before the holidays; the vendor moved it to Thursday.',
    titles: [EXAMINER],
    film: `
      a = 1903-12-17 Thu v7 n376
      b = 1903-12-23 Wed v7 n377 says Wednesday
      c = 1903-12-31 Thu v7 n378
      reel 4443
      1     target START
      2-5   a 1-4
      6-9   b 1-4
      10-13 c 1-4
    `,
    profile: 'issue-mets',
    record: 'workbook',
    vendor: (v) => Object.assign(documentFor(v, 'b'), { date: '1903-12-24' }),
    verdict: 'return-for-rework',
    findings: [
      finding({
        code: 'date-differs',
        severity: 'critical',
        reel: '4443',
        at: '6',
        frames: { from: '6', to: '9' },
        count: 4,
        title: 'sn99071101',
        date: '1903-12-23',
        says: 'The Marlbeck Examiner of 1903-12-23 (frames 6 to 9) is dated 1903-12-24 in the return.',
        instruction: 'Give the issue on frames 6 to 9 the date 1903-12-23. Change the manifest, the folder name and the LABEL to match.',
      }),
    ],
  },
  {
    number: '18',
    slug: 'same-printed-date-on-two-days',
    tells: 'The issue of Wednesday still prints the date of Tuesday; the vendor made it a second edition of Tuesday.',
    titles: [CALL],
    film: `
      a = 1906-05-15 Tue v3 n116
      b = 1906-05-16 Wed v3 n117 printed 1906-05-15 says Tuesday
      c = 1906-05-17 Thu v3 n118
      reel 4444
      1     target START
      2-5   a 1-4
      6-9   b 1-4
      10-13 c 1-4
    `,
    profile: 'issue-mets',
    record: 'issues',
    vendor: (v) => Object.assign(documentFor(v, 'b'), { date: '1906-05-15', datePrinted: null, edition: 2 }),
    // Here Tuesday does have two editions, under one number.
    twin: {
      film: `
        a = 1906-05-15 Tue v3 n116 "First"
        b = 1906-05-15 Tue v3 n116 e2 "Second"
        c = 1906-05-17 Thu v3 n118
        reel 4444
        1     target START
        2-5   a 1-4
        6-9   b 1-4
        10-13 c 1-4
      `,
    },
    verdict: 'return-for-rework',
    findings: [
      finding({
        code: 'date-differs',
        severity: 'critical',
        reel: '4444',
        at: '6',
        frames: { from: '6', to: '9' },
        count: 4,
        title: 'sn99071102',
        date: '1906-05-16',
        says: 'The Marlbeck Evening Call of 1906-05-16 (frames 6 to 9) is dated 1906-05-15 in the return.',
        instruction:
          'Give the issue on frames 6 to 9 the date 1906-05-16, and 1906-05-15 as the date printed on the paper; it is edition 1. Change the manifest, the folder names and the LABEL to match.',
      }),
    ],
  },
];
