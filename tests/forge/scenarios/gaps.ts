import { documentOf, removeDocument } from '../faults/scene.js';
import type { PlanIssue } from '../plan.js';
import { documentFor, issueNamed } from './edits.js';
import { finding, paper, type Scenario, type Vendor } from './scenario.js';

const EXAMINER = paper('sn99071101', 'The Marlbeck Examiner', ['thu']);
const GAZETTE = paper('sn99071105', 'The Quern Gazette', ['tue', 'thu', 'sat']);

const SUSPENDED = `
  a = 1905-07-06 Thu v9 n452
  p = 1905-07-13 Thu not-published
  q = 1905-07-20 Thu not-published
  r = 1905-07-27 Thu not-published
  b = 1905-08-03 Thu v9 n453
  reel 4450
  1     target START
  2-5   a 1-4
  - p
  - q
  - r
  6-9   b 1-4
`;

const JUMP = `
  a = 1905-11-09 Thu v9 n1499
  b = 1905-11-16 Thu v9 n2000 i1500
  c = 1905-11-23 Thu v9 n2001 i1501
  reel 4452
  1     target START
  2-5   a 1-4
  6-9   b 1-4
  10-13 c 1-4
`;

/** Adds a document without pages that says of an issue that it came out and is not on the film. */
function statedMissing(v: Vendor, key: string): void {
  const { title, date, edition } = v.film.issues[issueNamed(v, key)] ?? documentFor(v, key);
  const document: PlanIssue = {
    ...{ title, date, datePrinted: null, edition, editionLabel: null, volume: null, issueNumber: null },
    ...{ statement: 'published', statementText: null, reel: 0, absent: [], source: null, folder: null, manifest: null },
  };
  v.plan.issues.push(document);
}

/** C, continued. Numbers and holes in a run. */
export const GAPS: readonly Scenario[] = [
  {
    number: '19a',
    slug: 'phantom-gap',
    tells: 'The paper was suspended for three weeks, and its numbers go on; the vendor adds a missing issue for each Thursday.',
    titles: [EXAMINER],
    film: SUSPENDED,
    profile: 'issue-mets',
    record: 'frames',
    vendor: (v) => ['p', 'q', 'r'].forEach((key) => statedMissing(v, key)),
    // Here the numbers skip three: the issues came out and are wanting.
    twin: { film: SUSPENDED.replaceAll('not-published', 'wanting').replace('n453', 'n456') },
    verdict: 'return-for-rework',
    findings: [
      finding({
        code: 'absence-stated-wrongly',
        severity: 'major',
        reel: '4450',
        at: null,
        frames: null,
        count: 3,
        title: 'sn99071101',
        date: '1905-07-13',
        says: '3 issues of The Marlbeck Examiner from 1905-07-13 to 1905-07-27 are absent on both sides, but the return says "published" and the record "not published".',
        instruction: 'State 3 issues of The Marlbeck Examiner from 1905-07-13 to 1905-07-27 as absent, not published.',
      }),
    ],
  },
  {
    number: '19a',
    slug: 'phantom-gap-in-a-pause',
    tells:
      'The same pause, which the record only knows as days on which nothing came out; the vendor adds a missing issue for each Thursday.',
    titles: [
      paper('sn99071101', 'The Marlbeck Examiner', ['thu'], {
        patterns: [{ days: ['thu'], omitted: ['1905-07-13', '1905-07-20', '1905-07-27'], usualPages: [4], frequency: 'w' }],
      }),
    ],
    film: SUSPENDED.replace(/- .\n/g, ''),
    profile: 'issue-mets',
    record: 'issues',
    vendor: (v) => ['p', 'q', 'r'].forEach((key) => statedMissing(v, key)),
    verdict: 'return-for-rework',
    findings: [
      finding({
        code: 'absence-stated-wrongly',
        severity: 'major',
        reel: '4450',
        at: null,
        frames: null,
        count: 3,
        title: 'sn99071101',
        date: '1905-07-13',
        says: 'The return states 3 issues of The Marlbeck Examiner from 1905-07-13 to 1905-07-27 as absent; the record knows no such gap.',
        instruction: 'Take back the statement that 3 issues of The Marlbeck Examiner from 1905-07-13 to 1905-07-27 are absent.',
      }),
    ],
  },
  {
    number: '19b',
    slug: 'unreported-gap',
    tells: 'Of a paper that comes out three times a week Thursday is wanting, and the numbers skip it; the vendor does not say so.',
    titles: [GAZETTE],
    film: `
      a = 1905-03-14 Tue v2 n58
      p = 1905-03-16 Thu wanting
      b = 1905-03-18 Sat v2 n60
      reel 4451
      1     target START
      2-5   a 1-4
      - p
      6-9   b 1-4
    `,
    policies: { absentIssues: 'stated' },
    profile: 'issue-mets',
    record: 'issues',
    vendor: (v) => removeDocument(v.plan, documentOf(v.plan, issueNamed(v, 'p')).index),
    // Here no issue is wanting: the numbers go on.
    twin: {
      film: `
        a = 1905-03-14 Tue v2 n58
        b = 1905-03-18 Sat v2 n59
        reel 4451
        1     target START
        2-5   a 1-4
        6-9   b 1-4
      `,
      policies: { absentIssues: 'stated' },
    },
    verdict: 'return-for-rework',
    findings: [
      finding({
        code: 'absence-not-stated',
        severity: 'major',
        reel: '4451',
        at: null,
        frames: null,
        count: 1,
        title: 'sn99071105',
        date: '1905-03-16',
        says: 'The issue of The Quern Gazette of 1905-03-16 is not on the film, and the return does not say so.',
        instruction: 'State the issue of The Quern Gazette of 1905-03-16 as absent (published, but not on the film).',
      }),
    ],
  },
  {
    number: '19c',
    slug: 'number-jump-corrected',
    tells: 'From one week to the next the printed number jumps from 1499 to 2000; the vendor "corrected" it to 1500.',
    titles: [EXAMINER],
    film: JUMP,
    profile: 'issue-mets',
    record: 'workbook',
    vendor: (v) => Object.assign(documentFor(v, 'b'), { issueNumber: '1500' }),
    // Here 1500 is printed.
    twin: { film: JUMP.replace('n2000 i1500', 'n1500').replace('n2001 i1501', 'n1501') },
    verdict: 'accept-with-corrections',
    findings: [
      finding({
        code: 'issue-number-differs',
        severity: 'minor',
        reel: '4452',
        at: '6',
        frames: { from: '6', to: '9' },
        count: 4,
        title: 'sn99071101',
        date: '1905-11-16',
        says: 'The Marlbeck Examiner of 1905-11-16 (frames 6 to 9) has the issue number 1500 in the return; the record has 2000.',
        instruction: 'Set the issue number of frames 6 to 9 to 2000, as printed.',
      }),
    ],
  },
  {
    number: 'repaired-numbers',
    slug: 'printed-numbers-repaired',
    tells: 'The paper prints the same number two weeks running; the vendor counted on.',
    titles: [EXAMINER],
    film: `
      a = 1905-09-07 Thu v9 n458
      b = 1905-09-14 Thu v9 n458 i459
      c = 1905-09-21 Thu v9 n460
      reel 4453
      1     target START
      2-5   a 1-4
      6-9   b 1-4
      10-13 c 1-4
    `,
    profile: 'page-mods',
    record: 'json',
    vendor: (v) => Object.assign(documentFor(v, 'b'), { issueNumber: '459' }),
    verdict: 'accept-with-corrections',
    findings: [
      finding({
        code: 'issue-number-differs',
        severity: 'minor',
        reel: '4453',
        at: '6',
        frames: { from: '6', to: '9' },
        count: 4,
        title: 'sn99071101',
        date: '1905-09-14',
        says: 'The Marlbeck Examiner of 1905-09-14 (frames 6 to 9) has the issue number 459 in the return; the record has 458.',
        instruction: 'Set the issue number of frames 6 to 9 to 458, as printed.',
      }),
    ],
  },
];
