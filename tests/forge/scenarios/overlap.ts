import { deliver, documentOf, holdBack } from '../faults/scene.js';
import { asDocument, imageOf, issueNamed, shotAt } from './edits.js';
import { finding, paper, type Scenario } from './scenario.js';

const EXAMINER = paper('sn99071101', 'The Marlbeck Examiner', ['thu']);

const DOUBLES = `
  a = 1908-04-16 Thu v12 n601
  b = 1908-04-23 Thu v12 n602
  reel 4473
  1     target START
  2-7   a x1-2 1-4
  8-11  b 1-4
`;

const OVERLAP = `
  a = 1908-12-17 Thu v12 n636
  b = 1908-12-24 Thu v12 n637
  c = 1908-12-31 Thu v12 n638
  reel 4474
  1     target START
  2-5   a 1-4
  6-9   b x1-4
  reel 4475
  1     target START
  2-5   b 1-4
  6-9   c 1-4
`;

/** E, continued. The choice between deliver and hold back turned round, and pages that are on two reels. */
export const OVERLAPS: readonly Scenario[] = [
  {
    number: '25a',
    slug: 'choice-turned-round',
    tells: 'In one issue the marks for deliver and hold back were read the wrong way round.',
    titles: [EXAMINER],
    film: DOUBLES,
    profile: 'issue-mets',
    record: 'issues',
    vendor: (v) => {
      const { index } = documentOf(v.plan, issueNamed(v, 'a'));
      for (const name of ['4', '5', '6', '7']) holdBack(imageOf(v, name));
      for (const name of ['2', '3']) deliver(imageOf(v, name), index, shotAt(v, name).place ?? 1, shotAt(v, name).page);
    },
    verdict: 'return-for-rework',
    findings: [
      finding({
        code: 'delivery-inverted',
        severity: 'critical',
        reel: '4473',
        at: '2',
        frames: { from: '2', to: '7' },
        count: 6,
        title: 'sn99071101',
        date: '1908-04-16',
        billable: [{ class: 'page', change: 2 }],
        says: 'On frames 2 to 7, what was to be delivered was held back and what was to be held back was delivered.',
        instruction: 'Turn the choice round on frames 2 to 7: deliver 4 frames, hold back 2.',
      }),
    ],
  },
  {
    number: '25b',
    slug: 'overlap-of-two-reels',
    tells: 'The last week of one reel is on the next reel too, from which it was ordered; it came from both.',
    titles: [EXAMINER],
    film: OVERLAP,
    profile: 'issue-mets',
    record: 'json',
    vendor: (v) => asDocument(v, { like: 'b' }, ['4474:6', '4474:7', '4474:8', '4474:9']),
    verdict: 'return-for-rework',
    findings: [
      finding({
        code: 'delivered-from-both-reels',
        severity: 'major',
        reel: '4474',
        at: '6',
        frames: { from: '6', to: '9' },
        count: 4,
        title: 'sn99071101',
        date: '1908-12-24',
        billable: [{ class: 'page', change: -4 }],
        says: 'Frames 6 to 9 of reel 4474 (The Marlbeck Examiner of 1908-12-24) were to be held back, because the same pages are delivered from another reel; both came.',
        instruction: 'Hold back frames 6 to 9 of reel 4474.',
      }),
    ],
  },
  {
    number: '25c',
    slug: 'overlap-with-another-batch',
    tells: 'A week lies on the last reel of an earlier batch and on the first of this one, and both records ask for it.',
    titles: [EXAMINER],
    earlierBatch: `
      a = 1909-06-17 Thu v13 n662
      b = 1909-06-24 Thu v13 n663
      reel 4476
      1     target START
      2-5   a 1-4
      6-9   b 1-4
    `,
    film: `
      b = 1909-06-24 Thu v13 n663
      c = 1909-07-01 Thu v13 n664
      reel 4477
      1     target START
      2-5   b 1-4
      6-9   c 1-4
    `,
    profile: 'issue-mets',
    record: 'frames',
    // Here this batch holds the week back, as the reel before has it.
    twin: {
      film: `
        b = 1909-06-24 Thu v13 n663
        c = 1909-07-01 Thu v13 n664
        reel 4477
        1     target START
        2-5   b x1-4
        6-9   c 1-4
      `,
    },
    verdict: 'cannot-decide',
    findings: [
      finding({
        code: 'delivered-from-both-reels',
        severity: 'major',
        cause: 'collation',
        reel: '4477',
        at: '2',
        frames: { from: '2', to: '5' },
        count: 4,
        title: 'sn99071101',
        date: '1909-06-24',
        says: 'Frames 2 to 5 of reel 4477 (The Marlbeck Examiner of 1909-06-24) came, and the same pages came in batch batch_ostrel_before (delivery 1) from reel 4476, frames 6 to 9; the records of both batches ask for them.',
        instruction: 'Choose the reel from which these 4 pages are delivered, and hold back the frames of the other.',
      }),
    ],
  },
];
