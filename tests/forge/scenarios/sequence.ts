import { leaveOut, scanTwice } from './edits.js';
import { finding, paper, type Scenario } from './scenario.js';

const EXAMINER = paper('sn99071101', 'The Marlbeck Examiner', ['thu']);

const BLANK_BETWEEN = `
  a = 1903-02-05 Thu v7 n331
  b = 1903-02-12 Thu v7 n332
  reel 4410
  1     target START
  2-5   a 1-4
  6     blank
  7-10  b 1-4
  11    target END
`;

/** A. Frames left out and taken twice. */
export const SEQUENCE: readonly Scenario[] = [
  {
    number: '1',
    slug: 'missed-blank',
    tells: 'The scanner skipped the blank on frame 6, so that every later number is one too low.',
    titles: [EXAMINER],
    film: BLANK_BETWEEN,
    profile: 'issue-mets',
    record: 'issues',
    vendor: (v) => leaveOut(v, '6'),
    // On this film nothing lies between the issues: ten frames are right.
    twin: { film: BLANK_BETWEEN.replace('6     blank', '').replace('7-10', '6-9').replace('11 ', '10 ') },
    verdict: 'return-for-rework',
    findings: [
      finding({
        code: 'frame-not-scanned',
        severity: 'major',
        cause: 'unclear',
        reel: '4410',
        at: '6',
        frames: { from: '7', to: '11' },
        count: 5,
        title: null,
        date: null,
        says: "The return's numbering has no place for frame 6 (a blank); frames 7 to 11 are numbered 1 too low, and their dates and pages agree.",
        instruction:
          'Look at the film at frame 6: if the frame is there, count it and renumber frames 7 to 11 by +1; no page needs a rescan. Change the file names to match.',
      }),
    ],
  },
  {
    number: '2',
    slug: 'scanner-stutter',
    tells: 'The scanner took frame 4 twice and counted both images.',
    titles: [EXAMINER],
    film: BLANK_BETWEEN,
    profile: 'issue-mets',
    record: 'json',
    vendor: (v) => scanTwice(v, '4'),
    // Here the camera itself took page 3 twice, and the second exposure is held back.
    twin: {
      film: BLANK_BETWEEN.replace('2-5   a 1-4', '2-6   a 1-3 x3 4')
        .replace('6     blank', '7     blank')
        .replace('7-10', '8-11')
        .replace('11    target', '12    target'),
    },
    verdict: 'return-for-rework',
    findings: [
      finding({
        code: 'frame-scanned-twice',
        severity: 'major',
        cause: 'vendor-image',
        reel: '4410',
        at: '4',
        frames: { from: '5', to: '11' },
        count: 7,
        title: 'sn99071101',
        date: '1903-02-05',
        billable: [{ class: 'page', change: -1 }],
        says: 'Frame 4 came twice; frames 5 to 11 are numbered 1 too high.',
        instruction: 'Remove the second image of frame 4 and renumber frames 5 to 11 by -1; no rescans. Change the file names to match.',
      }),
    ],
  },
  {
    number: '3',
    slug: 'one-frame-lost-and-one-taken-twice',
    tells: 'Page 3 was not scanned and a later page was scanned twice: the counts agree, and the numbers between are one too low.',
    titles: [EXAMINER],
    film: BLANK_BETWEEN,
    profile: 'issue-mets',
    record: 'frames',
    vendor: (v) => {
      leaveOut(v, '4');
      scanTwice(v, '9');
    },
    verdict: 'return-for-rework',
    findings: [
      finding({
        code: 'frame-not-scanned',
        severity: 'major',
        cause: 'vendor-image',
        reel: '4410',
        at: '4',
        frames: { from: '5', to: '9' },
        count: 5,
        title: 'sn99071101',
        date: '1903-02-05',
        rescan: 'yes',
        billable: [{ class: 'page', change: 1 }],
        says: 'Frame 4 (page 3 of The Marlbeck Examiner of 1903-02-05) was not scanned; frames 5 to 9 are numbered 1 too low.',
        instruction: 'Rescan frame 4 and deliver it; renumber frames 5 to 9 by +1. Change the file names to match.',
      }),
      finding({
        code: 'frame-scanned-twice',
        severity: 'major',
        cause: 'vendor-image',
        reel: '4410',
        at: '9',
        frames: { from: '9', to: '9' },
        count: 1,
        title: 'sn99071101',
        date: '1903-02-12',
        billable: [{ class: 'page', change: -1 }],
        says: 'Frame 9 came twice.',
        instruction: 'Remove the second image of frame 9; no rescans.',
      }),
    ],
  },
];
