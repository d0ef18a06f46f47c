import { asDocument, documentFor, firstReel, imageOf, shotAt } from './edits.js';
import { finding, paper, type Scenario } from './scenario.js';

const EXAMINER = paper('sn99071101', 'The Marlbeck Examiner', ['thu']);
const CALL = paper('sn99071102', 'The Marlbeck Evening Call', ['mon', 'tue', 'wed', 'thu', 'fri', 'sat']);

const ONE_BLANK = `
  a = 1903-02-05 Thu v7 n331
  b = 1903-02-12 Thu v7 n332
  reel 4410
  1     target START
  2-5   a 1-4
  6     blank
  7-10  b 1-4
  11    target END
`;

/** A, continued. Reels spliced, changed in the middle of an issue, and scanned from the tail. */
export const REELS: readonly Scenario[] = [
  {
    number: '8a',
    slug: 'spliced-only-first-title',
    tells: 'Two short reels were spliced; the pages of the second came under the title of the first.',
    titles: [EXAMINER, paper('sn99071103', 'The Dunfallow Star', ['sat'])],
    film: `
      a = 1903-02-05 Thu v7 n331
      b = 1898-10-01 Sat t2 v2 n61
      c = 1898-10-08 Sat t2 v2 n62
      reel 4411
      source 4411-1
      1     target START
      2-5   a 1-4
      source 4411-2
      6     target START
      7-10  b 1-4
      11-14 c 1-4
    `,
    profile: 'issue-mets',
    record: 'json',
    vendor: (v) => {
      for (const key of ['b', 'c']) documentFor(v, key).title = 'sn99071101';
    },
    verdict: 'return-for-rework',
    findings: [
      finding({
        code: 'title-differs',
        severity: 'critical',
        reel: '4411',
        at: '7',
        frames: { from: '7', to: '14' },
        count: 8,
        title: 'sn99071103',
        date: '1898-10-01',
        says: '2 issues (frames 7 to 14) came under the title sn99071101 instead of sn99071103.',
        instruction: 'Set the title of frames 7 to 14 to sn99071103. Change the manifest and the folder names to match.',
      }),
    ],
  },
  {
    number: '8b',
    slug: 'spliced-source-reel-lost',
    tells: 'The agreement asks for the number of the reel that was spliced in; behind the splice the first one was carried on.',
    titles: [EXAMINER],
    film: `
      a = 1903-02-05 Thu v7 n331
      b = 1903-02-12 Thu v7 n332
      reel 4412
      source 4412-1
      1     target START
      2-5   a 1-4
      source 4412-2
      6     target START
      7-10  b 1-4
    `,
    policies: { reelNumber: 'source' },
    profile: 'issue-mets',
    record: 'json',
    vendor: (v) => {
      for (const frame of ['6', '7', '8', '9', '10']) imageOf(v, frame).reel = '4412-1';
    },
    // Where the number of the carrier is agreed, one number throughout is right.
    twin: {
      policies: { reelNumber: 'carrier' },
    },
    verdict: 'return-for-rework',
    findings: [
      finding({
        code: 'reel-number-wrong',
        severity: 'major',
        reel: '4412',
        at: '6',
        frames: { from: '6', to: '10' },
        count: 5,
        title: null,
        date: null,
        says: 'Frames 6 to 10 of reel 4412 carry the reel number 4412-1; it must be 4412-2.',
        instruction: 'Set the reel number of frames 6 to 10 to 4412-2.',
      }),
    ],
  },
  {
    number: '9a',
    slug: 'issue-over-two-reels-under-the-first',
    tells: 'An issue begins on one reel and ends on the next; all its pages carry the number of the first.',
    titles: [EXAMINER],
    film: `
      a = 1903-02-05 Thu v7 n331
      b = 1903-02-12 Thu v7 n332
      reel 4413
      1     target START
      2-5   a 1-4
      reel 4414
      1     target START
      2-5   a 5-8
      6-9   b 1-4
    `,
    profile: 'issue-mets',
    record: 'frames',
    vendor: (v) => {
      for (const frame of ['2', '3', '4', '5']) imageOf(v, `4414:${frame}`).reel = '4413';
    },
    verdict: 'return-for-rework',
    findings: [
      finding({
        code: 'reel-number-wrong',
        severity: 'major',
        reel: '4414',
        at: '2',
        frames: { from: '2', to: '5' },
        count: 4,
        title: 'sn99071101',
        date: '1903-02-05',
        says: 'Frames 2 to 5 of reel 4414 carry the reel number 4413; it must be 4414.',
        instruction: 'Set the reel number of frames 2 to 5 to 4414.',
      }),
    ],
  },
  {
    number: '9b',
    slug: 'issue-over-two-reels-as-two',
    tells: 'An issue begins on one reel and ends on the next; each reel has a document of that date.',
    titles: [CALL],
    film: `
      a = 1906-05-08 Tue v3 n110
      reel 4415
      1     target START
      2-5   a 1-4
      reel 4416
      1     target START
      2-5   a 5-8
    `,
    profile: 'issue-mets',
    record: 'issues',
    vendor: (v) => asDocument(v, { like: 'a' }, ['4416:2', '4416:3', '4416:4', '4416:5']),
    verdict: 'return-for-rework',
    findings: [
      finding({
        code: 'issue-split',
        severity: 'critical',
        reel: '4416',
        at: '2',
        frames: { from: '2', to: '5' },
        count: 4,
        title: 'sn99071102',
        date: '1906-05-08',
        says: 'The Marlbeck Evening Call of 1906-05-08 came as two issues: frames 2 to 5 of reel 4416 lie in a second document.',
        instruction: 'Join frames 2 to 5 of reel 4416 to The Marlbeck Evening Call of 1906-05-08: one issue, pages in one order.',
      }),
    ],
  },
  {
    number: '10a',
    slug: 'reel-tail-first',
    tells: 'The whole reel was scanned from its tail, and the numbers run the wrong way.',
    titles: [EXAMINER],
    film: ONE_BLANK,
    profile: 'issue-mets',
    record: 'frames',
    vendor: (v) => {
      const { captures } = firstReel(v);
      captures.forEach((capture, i) => {
        capture.frame = String(captures.length - i);
      });
      captures.reverse();
    },
    verdict: 'return-for-rework',
    findings: [
      finding({
        code: 'frames-reversed',
        severity: 'major',
        reel: '4410',
        at: '1',
        frames: { from: '1', to: '11' },
        count: 11,
        title: null,
        date: null,
        says: 'The reel was scanned from its tail: frames 1 to 11 came in the opposite order.',
        instruction:
          'Reverse the numbering of frames 1 to 11, and check that no image is turned or mirrored. Change the file names to match.',
      }),
    ],
  },
  {
    number: '10b',
    slug: 'spliced-section-tail-first',
    tells: 'The second of two spliced reels was wound the wrong way when it was scanned.',
    titles: [EXAMINER],
    film: `
      a = 1903-02-05 Thu v7 n331
      b = 1903-02-12 Thu v7 n332
      c = 1903-02-19 Thu v7 n333
      reel 4417
      source 4417-1
      1     target START
      2-5   a 1-4
      source 4417-2
      6-9   b 1-4
      10-13 c 1-4
    `,
    profile: 'page-mods',
    record: 'json',
    vendor: (v) => {
      for (let frame = 6; frame <= 13; frame += 1) imageOf(v, String(frame)).frame = String(19 - shotAt(v, String(frame)).exposure);
    },
    verdict: 'return-for-rework',
    findings: [
      finding({
        code: 'frames-reversed',
        severity: 'major',
        reel: '4417',
        at: '6',
        frames: { from: '6', to: '13' },
        count: 8,
        title: 'sn99071101',
        date: '1903-02-12',
        says: 'Frames 6 to 13 came in the opposite order, as if this section had been scanned from its end.',
        instruction:
          'Reverse the numbering of frames 6 to 13, and check that no image is turned or mirrored. Change the file names to match.',
      }),
    ],
  },
];
