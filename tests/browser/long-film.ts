import { addDays } from '../../src/calendar/civil.js';
import type { Finding, Findings, ResultFrame, ResultReel } from '../../src/model/findings.js';
import { EXAMPLE, finding } from '../report/example.js';

const TITLE = 'vz90000001';

/** Frame of the film: pages in fours with a blank after each hundredth, weekly issues. The number that came is one too low after frame 5000. */
function frameAt(at: number, findings: readonly string[]): ResultFrame {
  const blank = at % 100 === 0;
  const issue = Math.floor(at / 4);
  const page = blank ? null : String((at % 4) + 1);
  const missed = at === 5000;
  const moved = at > 5000;
  return {
    frame: String(at),
    returned: missed ? null : String(moved ? at - 1 : at),
    returnedKind: blank ? null : 'page',
    state: missed
      ? 'record-only'
      : findings.length > 1 || (!moved && findings.length > 0)
        ? 'differs'
        : moved
          ? 'number-differs'
          : 'agrees',
    kind: blank ? 'blank' : 'page',
    deliver: !blank,
    title: blank ? null : TITLE,
    date: blank ? null : addDays('1850-01-03', 7 * issue),
    edition: blank ? null : 1,
    section: null,
    page,
    order: page === null ? null : Number(page),
    condition: at % 333 === 0 ? ['torn'] : [],
    sourceReel: null,
    duplicateOf: null,
    files: blank
      ? []
      : ['tif', 'jp2', 'xml', 'pdf'].map((end) => ({ use: end, path: `${TITLE}/00417/${String(issue)}/${String(at)}.${end}` })),
    findings,
  };
}

/** A result with films of 10,000 frames in all on four reels, and 2,000 findings on single frames beside one on half of a reel's numbers. */
export function longFilm(): Findings {
  const shift = finding({
    id: 'frame-not-scanned-5000',
    code: 'frame-not-scanned',
    severity: 'major',
    cause: 'unclear',
    reel: '00417-3',
    at: '5000',
    frames: { from: '5001', to: '7500' },
    count: 2500,
    title: null,
    field: 'frame',
    says: 'Frame 5000 was left out, and the numbers after it are one too low.',
    instruction: 'Renumber frames 5001 to 7500 by +1.',
  });
  const single = Array.from({ length: 2000 }, (_, n): Finding => {
    const at = 3 + 5 * n;
    return finding({
      id: `page-number-differs-${String(at)}`,
      code: 'page-number-differs',
      severity: n % 3 === 0 ? 'critical' : 'minor',
      reel: `00417-${String(Math.floor(at / 2500) + 1)}`,
      at: String(at),
      frames: { from: String(at), to: String(at) },
      date: addDays('1850-01-03', 7 * Math.floor(at / 4)),
      field: 'page',
      collation: '4',
      return: '14',
      says: `Frame ${String(at)} is page 4 in the record and page 14 in the return.`,
      instruction: `Set the page number of frame ${String(at)} to 4.`,
    });
  });
  const byFrame = new Map(single.map((one) => [one.at, one.id]));
  const reels = [0, 1, 2, 3].map(
    (reel): ResultReel => ({
      number: `00417-${String(reel + 1)}`,
      absent: [],
      frames: Array.from({ length: 2500 }, (_, n) => {
        const at = 2500 * reel + n;
        const own = byFrame.get(String(at));
        return frameAt(at, [...(own === undefined ? [] : [own]), ...(at >= 5000 && at <= 7500 ? [shift.id] : [])]);
      }),
    }),
  );
  return { ...EXAMPLE, reels, findings: [shift, ...single] };
}
