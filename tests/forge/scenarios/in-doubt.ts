import type { CollationRecord, FrameEntry } from '../../../src/model/collation-record.js';
import { documentFor, leaveOut } from './edits.js';
import { finding, paper, type Scenario } from './scenario.js';

const EXAMINER = paper('sn99071101', 'The Marlbeck Examiner', ['thu']);

const RUN = `
  a = 1912-05-02 Thu v16 n811
  b = 1912-05-09 Thu v16 n812
  c = 1912-05-16 Thu v16 n813
  reel 4491
  1     target START
  2-5   a 1-4
  6-9   b 1-4
  10-13 c 1-4
`;

/** The record with its frames written otherwise; one that becomes null is left out. */
function rewritten(record: CollationRecord, write: (frame: FrameEntry) => FrameEntry | null): CollationRecord {
  return { ...record, reels: record.reels.map((reel) => ({ ...reel, frames: reel.frames.flatMap((frame) => write(frame) ?? []) })) };
}

/** Places where the record contradicts itself: what rests on them is not the vendor's before it is ruled, and nothing else is excused by them. */
export const IN_DOUBT: readonly Scenario[] = [
  {
    number: 'record-in-doubt-number',
    slug: 'issue-number-in-doubt-and-a-page-lost',
    tells: 'The record gives one issue two numbers, of which the vendor took one, and the vendor lost a page of it.',
    titles: [EXAMINER],
    film: RUN,
    profile: 'issue-mets',
    record: 'frames',
    library: (record) =>
      rewritten(record, (frame) => (frame.frame === '8' || frame.frame === '9' ? { ...frame, issueNumber: '821' } : frame)),
    vendor: (v) => {
      Object.assign(documentFor(v, 'b'), { issueNumber: '821' });
      leaveOut(v, '7');
    },
    verdict: 'return-for-rework',
    findings: [
      finding({
        code: 'issue-number-differs',
        severity: 'minor',
        cause: 'unclear',
        reel: '4491',
        at: '6',
        frames: { from: '6', to: '9', list: ['6', '8', '9'] },
        count: 3,
        title: 'sn99071101',
        date: '1912-05-09',
        says: 'The Marlbeck Examiner of 1912-05-09 (frames 6, 8 and 9) has the issue number 821 in the return; the record has 812.',
        instruction:
          'Look at the film on frames 6, 8 and 9: where the record is right, set the issue number of frames 6, 8 and 9 to 812, as printed.',
      }),
      finding({
        code: 'frame-not-scanned',
        severity: 'major',
        cause: 'vendor-image',
        reel: '4491',
        at: '7',
        frames: { from: '8', to: '13' },
        count: 6,
        title: 'sn99071101',
        date: '1912-05-09',
        rescan: 'yes',
        billable: [{ class: 'page', change: 0 }],
        says: 'Frame 7 (page 2 of The Marlbeck Examiner of 1912-05-09) was not scanned; frames 8 to 13 are numbered 1 too low.',
        instruction: 'Rescan frame 7 and deliver it; renumber frames 8 to 13 by +1. Change the file names to match.',
      }),
    ],
  },
  {
    number: 'record-in-doubt-frames',
    slug: 'frame-numbers-in-doubt',
    tells: 'The record passes over four numbers between two issues; the vendor counted on.',
    titles: [EXAMINER],
    film: RUN,
    profile: 'issue-mets',
    record: 'frames',
    library: (record) =>
      rewritten(record, (frame) => (Number(frame.frame) > 9 ? { ...frame, frame: String(Number(frame.frame) + 4) } : frame)),
    verdict: 'cannot-decide',
    findings: [
      finding({
        code: 'frame-number-wrong',
        severity: 'major',
        cause: 'collation',
        reel: '4491',
        at: '14',
        frames: { from: '14', to: '17' },
        count: 4,
        title: 'sn99071101',
        date: '1912-05-16',
        says: 'Frames 14 to 17 are numbered 4 too low, although no frame is missing or surplus after frame 9.',
        instruction: 'Compare the film on frames 14 to 17 with both readings before anything is changed.',
      }),
    ],
  },
  {
    number: 'record-in-doubt-issue',
    slug: 'issue-forgotten-in-the-record',
    tells: 'The record lacks an issue of the film and says nothing of the day; the vendor sent it.',
    titles: [EXAMINER],
    film: RUN,
    profile: 'page-mods',
    record: 'json',
    library: (record) => rewritten(record, (frame) => (frame.date === '1912-05-09' ? null : frame)),
    verdict: 'cannot-decide',
    findings: [
      finding({
        code: 'issue-not-in-collation',
        severity: 'major',
        cause: 'unclear',
        reel: '4491',
        at: '5',
        frames: null,
        count: 4,
        title: 'sn99071101',
        date: '1912-05-09',
        billable: [{ class: 'page', change: -4 }],
        says: 'The return has The Marlbeck Examiner of 1912-05-09 (4 pages, numbers 6 to 9), which the record does not have on reel 4491.',
        instruction: 'Look at the film after frame 5: say where numbers 6 to 9 come from, or withdraw them.',
      }),
    ],
  },
];
