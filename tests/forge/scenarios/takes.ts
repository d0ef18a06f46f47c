import { deliver, documentOf } from '../faults/scene.js';
import { asDocument, deliverInstead, documentFor, imageOf, issueNamed } from './edits.js';
import { finding, paper, type Scenario } from './scenario.js';

const EXAMINER = paper('sn99071101', 'The Marlbeck Examiner', ['thu']);
const CALL = paper('sn99071102', 'The Marlbeck Evening Call', ['mon', 'tue', 'wed', 'thu', 'fri', 'sat']);

const FILMED_TWICE = `
  a = 1903-03-12 Thu v7 n336
  b = 1903-03-19 Thu v7 n337
  reel 4420
  1     target START
  2-5   a x1-4 !faint
  6-9   a 1-4
  10-13 b 1-4
`;

/** A, continued. Pages and issues of which the film has two takes. */
export const TAKES: readonly Scenario[] = [
  {
    number: '4',
    slug: 'duplicate-hides-missing-page',
    tells: 'Page 4 was filmed twice and page 5 not at all; the second exposure was delivered as page 5, so the page count agrees.',
    titles: [CALL],
    film: `
      a = 1906-05-09 Wed v3 n111
      b = 1906-05-10 Thu v3 n112
      reel 4421
      1     target START
      2-9   a 1-4 x4 [5] 6-8
      10-13 b 1-4
    `,
    profile: 'issue-mets',
    record: 'issues',
    vendor: (v) => {
      documentFor(v, 'a').absent = [];
      deliver(imageOf(v, '6'), documentOf(v.plan, issueNamed(v, 'a')).index, 5, '5');
    },
    // Here frame 6 does show page 5.
    twin: {
      film: `
        a = 1906-05-09 Wed v3 n111
        b = 1906-05-10 Thu v3 n112
        reel 4421
        1     target START
        2-9   a 1-8
        10-13 b 1-4
      `,
    },
    verdict: 'return-for-rework',
    findings: [
      finding({
        code: 'duplicate-delivered-as-page',
        severity: 'critical',
        reel: '4421',
        at: '6',
        frames: { from: '6', to: '6' },
        count: 1,
        title: 'sn99071102',
        date: '1906-05-09',
        billable: [{ class: 'page', change: -1 }],
        says: 'Frame 6 is a second exposure of page 4 and was delivered as page 5 of The Marlbeck Evening Call of 1906-05-09, a page that is not on the film.',
        instruction: 'Hold back frame 6 and state page 5 as absent; keep the other labels as printed.',
      }),
    ],
  },
  {
    number: '5',
    slug: 'issue-filmed-twice-as-two-editions',
    tells: 'An issue was filmed twice; the faint take came as edition 1 and the good one as edition 2.',
    titles: [EXAMINER],
    film: FILMED_TWICE,
    profile: 'issue-mets',
    record: 'frames',
    vendor: (v) => {
      documentFor(v, 'a').edition = 2;
      asDocument(v, { like: 'a', edition: 1 }, ['2', '3', '4', '5']);
    },
    // Here the paper did come out twice that day.
    twin: {
      film: `
        a = 1903-03-12 Thu v7 n336
        c = 1903-03-12 Thu v7 n336 e2 "Second edition"
        b = 1903-03-19 Thu v7 n337
        reel 4420
        1     target START
        2-5   a 1-4 !faint
        6-9   c 1-4
        10-13 b 1-4
      `,
    },
    verdict: 'return-for-rework',
    findings: [
      finding({
        code: 'issue-delivered-twice',
        severity: 'major',
        reel: '4420',
        at: '2',
        frames: { from: '2', to: '5' },
        count: 4,
        title: 'sn99071101',
        date: '1903-03-12',
        billable: [{ class: 'page', change: -4 }],
        says: 'The Marlbeck Examiner of 1903-03-12 came twice: frames 2 to 5, the take to be held back, came as a document of its own.',
        instruction:
          'Deliver The Marlbeck Examiner of 1903-03-12 once: withdraw the document made of frames 2 to 5. Change the manifest and the folder name to match.',
      }),
    ],
  },
  {
    number: '6',
    slug: 'faint-take-of-issue-delivered',
    tells: 'An issue was filmed twice; the faint take was delivered and the good one held back. Dates, pages and counts agree.',
    titles: [EXAMINER],
    film: FILMED_TWICE,
    profile: 'page-mods',
    record: 'json',
    vendor: (v) => ['2', '3', '4', '5'].forEach((name, i) => deliverInstead(v, name, String(6 + i))),
    // Here the second take is the faint one.
    twin: { film: FILMED_TWICE.replace('a x1-4 !faint', 'a 1-4').replace('6-9   a 1-4', '6-9   a x1-4 !faint') },
    verdict: 'return-for-rework',
    findings: [
      finding({
        code: 'wrong-take-delivered',
        severity: 'critical',
        reel: '4420',
        at: '6',
        frames: { from: '6', to: '9' },
        count: 4,
        title: 'sn99071101',
        date: '1903-03-12',
        says: 'Of The Marlbeck Examiner of 1903-03-12, the take to be held back (frames 2 to 5) was delivered, and the one to be delivered (frames 6 to 9) was not.',
        instruction: 'Replace frames 2 to 5 by frames 6 to 9, and hold the former back.',
      }),
    ],
  },
  {
    number: '7',
    slug: 'retakes-spliced-at-reel-end',
    tells:
      'Pages 3 and 6 were filmed again at the end of the reel; they came there as an issue of two pages, and the spoilt frames in their place.',
    titles: [CALL],
    film: `
      a = 1906-05-11 Fri v3 n113
      b = 1906-05-12 Sat v3 n114
      reel 4422
      1     target START
      2-9   a 1-2 x3 4-5 x6 7-8
      10-13 b 1-4
      14    target RETAKES
      15-16 a 3^ 6^
    `,
    profile: 'issue-mets',
    record: 'json',
    vendor: (v) => {
      deliverInstead(v, '4', '15');
      deliverInstead(v, '7', '16');
      asDocument(v, { like: 'a', edition: 2 }, ['15', '16']);
    },
    verdict: 'return-for-rework',
    findings: [
      finding({
        code: 'retake-not-placed',
        severity: 'major',
        reel: '4422',
        at: '15',
        frames: { from: '15', to: '16' },
        count: 2,
        title: 'sn99071102',
        date: '1906-05-11',
        billable: [{ class: 'page', change: -2 }],
        says: 'The retakes on frames 15 to 16 belong inside The Marlbeck Evening Call of 1906-05-11, and were left where they were filmed, while the spoilt frames came too.',
        instruction: 'Move frames 15 to 16 to their places in The Marlbeck Evening Call of 1906-05-11; hold back frames 4 and 7.',
      }),
    ],
  },
];
