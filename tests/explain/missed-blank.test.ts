import { describe, expect, it } from 'vitest';
import type { CollationRecord, FrameEntry } from '../../src/model/collation-record.js';
import type { Frame, Side } from '../../src/model/film.js';
import type { Findings } from '../../src/model/findings.js';
import { run } from '../support/small-reels.js';

const LAST = 812;

/** A reel of 812 frames: a start target, issues of eight pages from frame 9 on with a blank before each eighth, a blank at 41, an end target. */
function longReel(): CollationRecord {
  const frames: FrameEntry[] = [];
  let day = 0;
  let page = 0;
  for (let number = 1; number <= LAST; number++) {
    const frame = String(number);
    if (number === 1 || number === LAST) frames.push({ frame, kind: 'target' });
    else if (number === 41 || number === 2) frames.push({ frame, kind: 'blank' });
    else {
      if (page % 8 === 0) day++;
      const month = String(1 + Math.floor((day - 1) / 28)).padStart(2, '0');
      const date = `1899-${month}-${String(1 + ((day - 1) % 28)).padStart(2, '0')}`;
      frames.push({ frame, title: 'sn99000812', date, page: String((page % 8) + 1), order: (page % 8) + 1 });
      page++;
    }
  }
  return {
    format: 'reeltally/collation-record/2',
    titles: [{ id: 'sn99000812', name: 'The Ostmere Courier' }],
    reels: [{ number: '812', frames }],
  };
}

/** What a vendor returns: the pages alone, numbered as the scanner counted them. */
function returnedSide(record: Side, numberOf: (exposure: number) => number): Side {
  const reel = record.reels[0]!;
  const frames = reel.frames.flatMap((frame): Frame[] => {
    if (!frame.deliver || frame.frame === null) return [];
    const exposure = numberOf(frame.frame.exposure);
    return [{ ...frame, frame: { text: String(exposure), exposure, half: '' } }];
  });
  return { ...record, reels: [{ ...reel, frames, facts: {} }], absences: [] };
}

const numberedAs = (numberOf: (exposure: number) => number): Findings => run(longReel(), (record) => returnedSide(record, numberOf));

describe('a reel of 812 frames', () => {
  it('agrees when every page carries its own number', () => {
    const result = numberedAs((exposure) => exposure);
    expect(result.findings).toEqual([]);
    expect(result.verdict.decision).toBe('accept');
  });

  it('shows one skipped blank as one finding, not as hundreds of wrong numbers', () => {
    const result = numberedAs((exposure) => (exposure > 41 ? exposure - 1 : exposure));
    expect(result.findings).toHaveLength(1);
    expect(result.findings[0]).toMatchObject({
      code: 'frame-not-scanned',
      at: '41',
      frames: { from: '42', to: '812' },
      count: 771,
      cause: 'unclear',
      rescan: 'no',
    });
    expect(result.findings[0]?.alternatives).toHaveLength(2);
    expect(result.findings[0]?.instruction).toMatch(/^Look at the film/);
    // what is held back is counted: nothing is scanned anew
    expect(result.findings[0]?.repair.map(({ do: act, frame }) => [act, frame])).toEqual([
      ['add', '41'],
      ['renumber', '41 to 810'],
    ]);
    expect(result.verdict.decision).toBe('accept-with-corrections');
  });

  it('tells an offset that begins with the first frame', () => {
    const result = numberedAs((exposure) => exposure + 100);
    expect(result.findings.map((finding) => finding.code)).toEqual(['frame-number-wrong']);
    // the first page is frame 3: the numbers of the target and the blank before it are not in the return
    expect(result.findings[0]).toMatchObject({ at: '3', frames: { from: '3', to: '812' }, count: 810 });
  });
});
