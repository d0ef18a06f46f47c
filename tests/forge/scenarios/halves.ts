import { recount } from '../faults/scene.js';
import { firstReel, imageOf } from './edits.js';
import { finding, paper, type Scenario } from './scenario.js';

const EXAMINER = paper('sn99071101', 'The Marlbeck Examiner', ['thu']);
const HED = paper('sn99071104', 'Hed Ostrel', ['fri'], { language: 'heb', readingDirection: 'rtl' });

const PAIRS = `
  a = 1904-06-02 Thu v8 n400
  reel 4430 2B
  1     target START
  2     a 1
  3A-5B a 2-7
  6     a 8
`;

/** Two pages of one exposure, the second of which got no image. */
const lostHalf = (v: Parameters<NonNullable<Scenario['vendor']>>[0]): void => {
  const { captures } = firstReel(v);
  captures.splice(captures.indexOf(imageOf(v, '4B')), 1);
  recount(v.plan);
};

/** B. Two pages on one exposure. */
export const HALVES: readonly Scenario[] = [
  {
    number: '11',
    slug: 'half-exposure-parity',
    tells:
      'The front page stands alone on frame 2; it was counted as the first half of a pair, and every half after it is lettered one place off.',
    titles: [EXAMINER],
    film: `
      a = 1904-06-02 Thu v8 n400
      reel 4431 2B
      1     target START
      2     a 1
      3A-6B a 2-9
    `,
    profile: 'issue-mets',
    record: 'issues',
    vendor: (v) => {
      ['2', '3A', '3B', '4A', '4B', '5A', '5B', '6A', '6B'].forEach((name, i) => {
        imageOf(v, name).frame = `${String(2 + Math.floor(i / 2))}${i % 2 === 0 ? 'A' : 'B'}`;
      });
    },
    // Here the front page does share its exposure, with the second page.
    twin: {
      film: `
        a = 1904-06-02 Thu v8 n400
        reel 4431 2B
        1     target START
        2A-5B a 1-8
        6     a 9
      `,
    },
    verdict: 'return-for-rework',
    findings: [
      finding({
        code: 'halves-shifted',
        severity: 'major',
        reel: '4431',
        at: '2',
        frames: { from: '2', to: '6B' },
        count: 9,
        title: 'sn99071101',
        date: '1904-06-02',
        says: 'Frame 2 is a single page and was counted as half of an exposure; so every half on frames 2 to 6B is lettered one place off.',
        instruction:
          'Treat frame 2 as a single page and letter the halves anew from the next exposure on; no rescans. Change the file names to match.',
      }),
    ],
  },
  {
    number: '12a',
    slug: 'exposure-left-whole',
    tells: 'Exposure 4 shows pages 4 and 5 and came as one image, twice as wide as the others.',
    titles: [EXAMINER],
    film: PAIRS,
    profile: 'issue-mets',
    record: 'workbook',
    vendor: (v) => {
      lostHalf(v);
      const image = imageOf(v, '4A');
      Object.assign(image, { frame: '4', width: image.width * 2 });
    },
    verdict: 'return-for-rework',
    findings: [
      finding({
        code: 'exposure-not-split',
        severity: 'critical',
        cause: 'vendor-image',
        reel: '4430',
        at: '4A',
        frames: { from: '4A', to: '4B' },
        count: 2,
        title: 'sn99071101',
        date: '1904-06-02',
        billable: [{ class: 'page', change: 1 }],
        says: 'Exposure 4 holds two pages (4A and 4B) and came as one image, 2.0 times as wide as the other pages.',
        instruction: 'Split the image of exposure 4 into 4A and 4B. Change the file name to match.',
      }),
    ],
  },
  {
    number: '12b',
    slug: 'one-half-did-not-come',
    tells: 'Of exposure 4 only page 4 came, as an image of one page; page 5 is not in the batch.',
    titles: [EXAMINER],
    film: PAIRS,
    profile: 'page-mods',
    record: 'frames',
    vendor: lostHalf,
    // Here page 5 was torn out before the filming: exposure 4 shows page 4 alone.
    twin: { film: PAIRS.replace('3A-5B a 2-7', '3A-4A a 2-4 [5]\n  5A-5B a 6-7') },
    verdict: 'return-for-rework',
    findings: [
      finding({
        code: 'page-not-delivered',
        severity: 'critical',
        cause: 'vendor-image',
        reel: '4430',
        at: '4B',
        frames: { from: '4B', to: '4B' },
        count: 1,
        title: 'sn99071101',
        date: '1904-06-02',
        billable: [{ class: 'page', change: 1 }],
        says: 'Page 5 of The Marlbeck Examiner of 1904-06-02 (frame 4B) was not delivered.',
        instruction: 'Deliver frame 4B as page 5 of The Marlbeck Examiner of 1904-06-02.',
      }),
    ],
  },
  {
    number: '12c',
    slug: 'unsplit-or-lost-without-widths',
    tells: 'Exposure 4 came as one image under its bare number, and the return gives no widths: unsplit or half lost, nobody can tell.',
    titles: [EXAMINER],
    film: PAIRS,
    profile: 'issue-mets',
    record: 'issues',
    vendor: (v) => {
      lostHalf(v);
      imageOf(v, '4A').frame = '4';
      for (const image of firstReel(v).captures) Object.assign(image, { width: 0, height: 0 });
    },
    verdict: 'return-for-rework',
    findings: [
      finding({
        code: 'exposure-not-split',
        severity: 'critical',
        cause: 'unclear',
        reel: '4430',
        at: '4A',
        frames: { from: '4A', to: '4B' },
        count: 2,
        title: 'sn99071101',
        date: '1904-06-02',
        rescan: 'yes',
        says: 'Exposure 4 holds two pages (4A and 4B) and came as one image.',
        instruction:
          'Look at the image of exposure 4: if it shows both pages, split it into 4A and 4B; if not, deliver 4B. Change the file name to match.',
      }),
    ],
  },
  {
    number: '13',
    slug: 'right-to-left-halves',
    tells: 'In a paper read from right to left the left half of every exposure was taken first.',
    titles: [HED],
    film: `
      a = 1911-11-03 Fri v2 n50
      b = 1911-11-10 Fri v2 n51
      reel 4432 2A
      1     target START
      2A-5B a 1-8
      6A-9B b 1-8
    `,
    profile: 'issue-mets',
    record: 'frames',
    vendor: (v) => {
      for (let exposure = 2; exposure <= 9; exposure += 1) {
        const [right, left] = [imageOf(v, `${String(exposure)}A`), imageOf(v, `${String(exposure)}B`)];
        [right.frame, left.frame] = [left.frame, right.frame];
        [right.order, left.order] = [left.order, right.order];
      }
    },
    verdict: 'return-for-rework',
    findings: [
      finding({
        code: 'halves-swapped',
        severity: 'major',
        reel: '4432',
        at: '2A',
        frames: { from: '2A', to: '9B' },
        count: 16,
        title: 'sn99071104',
        date: '1911-11-03',
        says: 'On frames 2A to 9B the two halves of 8 exposures are exchanged: what is read first came as B.',
        instruction:
          'Exchange the halves A and B on frames 2A to 9B: this title is read from right to left; no rescans. Change the file names to match.',
      }),
    ],
  },
];
