import { describe, expect, it } from 'vitest';
import type { CollationRecord, FrameEntry } from '../../src/model/collation-record.js';
import type { Frame, Side } from '../../src/model/film.js';
import { codes, page, recordOf, returnOf, run, TITLE } from '../support/small-reels.js';

// Common practice, no source: what one slip did is one line of the list, and it is said of the issue and the frames where it was done.

/** Issues of four pages each, one after the other on the film. */
const issues = (dates: readonly string[], from = 1): FrameEntry[] =>
  dates.flatMap((date, at) => [1, 2, 3, 4].map((label) => page(String(from + at * 4 + label - 1), label, { date })));

const withFrames = (side: Side, change: (frames: readonly Frame[]) => readonly Frame[]): Side => ({
  ...side,
  reels: side.reels.map((reel) => ({ ...reel, frames: change(reel.frames) })),
});

describe('what is not on the film', () => {
  const record: CollationRecord = {
    format: 'reeltally/collation-record/2',
    titles: [{ id: TITLE, name: 'The Saltreach Plowman' }],
    reels: [
      {
        number: '417',
        frames: issues(['1902-08-06', '1902-08-13', '1902-08-27']).filter(
          ({ date, page: label }) => date !== '1902-08-06' || label !== '3',
        ),
        absent: [
          { date: '1902-08-06', page: '3', order: 3, published: 'yes' },
          { date: '1902-08-20', published: 'yes' },
        ],
      },
    ],
  };
  const stated = (side: Side, change: (absences: Side['absences']) => Side['absences']): Side => ({
    ...returnOf(side),
    absences: change(side.absences),
  });

  it('is named as the record has it, in whatever order the return states it', () => {
    for (const turned of [false, true])
      for (const wrong of [0, 1]) {
        const result = run(record, (side) =>
          stated(side, (absences) => {
            const list = absences.map((absence, at) => (at === wrong ? { ...absence, published: 'no' as const } : absence));
            return turned ? list.toReversed() : list;
          }),
        );
        const about = sideName(record, wrong);
        expect(
          result.findings.map(({ code, date, page: label }) => [code, date, label]),
          `${String(wrong)} ${String(turned)}`,
        ).toEqual([['absence-stated-wrongly', ...about]]);
        expect(result.findings[0]?.says).toContain(about[0]);
      }
  });

  it('is one finding where all of it is stated wrongly in the same way', () => {
    const result = run(record, (side) => stated(side, (list) => list.map((absence) => ({ ...absence, published: 'no' as const }))));
    expect(result.findings.map(({ code, count }) => [code, count])).toEqual([['absence-stated-wrongly', 2]]);
    expect(result.findings[0]?.says).toMatch(/page 3 of .* of 1902-08-06 and the issue of .* of 1902-08-20|the issue .* and page 3/iu);
  });
});

/** Date and page of an absence of the record as its side lists them. */
function sideName(record: CollationRecord, at: number): readonly [string, string | null] {
  let found: readonly [string, string | null] = ['', null];
  run(record, (side) => {
    const absence = side.absences[at];
    found = [absence?.date?.text ?? '', absence?.page ?? null];
    return returnOf(side);
  });
  return found;
}

describe('a number that a page shares with a target', () => {
  const frames: FrameEntry[] = [
    { frame: '1', kind: 'target' },
    ...issues(['1902-08-06'], 2),
    { frame: '6', kind: 'target' },
    ...issues(['1902-08-13'], 7),
  ];

  it.each(['the target is listed first', 'the page is listed first'])(
    'from where it is used twice on, all numbers are one too low: %s',
    (order) => {
      const result = run(recordOf(frames), (side) => ({
        ...side,
        absences: [],
        reels: side.reels.map((reel) => {
          const moved = reel.frames.map((frame): Frame => {
            const exposure = (frame.frame?.exposure ?? 0) - ((frame.frame?.exposure ?? 0) >= 6 ? 1 : 0);
            return { ...frame, frame: { text: String(exposure), exposure, half: '' } };
          });
          const first = (frame: Frame): number => Number((frame.issue === null) !== (order === 'the target is listed first'));
          return { ...reel, frames: moved.sort((a, b) => (a.frame?.exposure ?? 0) - (b.frame?.exposure ?? 0) || first(a) - first(b)) };
        }),
      }));
      expect(codes(result)).toEqual(['frame-number-repeated']);
      expect(result.findings[0]?.repair.every(({ field }) => field === 'frame' || field === 'number')).toBe(true);
    },
  );
});

describe('one date of the record for what came as several issues', () => {
  const dates = ['1902-08-06', '1902-08-13', '1902-08-20', '1902-08-27'];

  // two pages of the second issue were passed over and filmed at the end, so that no page of the record shows where one issue ends
  const film = [
    ...issues(dates).filter(({ frame }) => frame !== '6' && frame !== '7'),
    ...issues(dates).filter(({ frame }) => frame === '6' || frame === '7'),
  ].map((frame, at) => ({ ...frame, frame: String(at + 1) }));

  it('is one finding, charged to the record, whose page numbers begin anew four times', () => {
    const copied = film.map((frame) => ({ ...frame, date: '1902-08-06' }));
    let right: Side | null = null;
    run(recordOf(film), (side) => (right = returnOf(side)));
    const result = run(recordOf(copied), () => right as unknown as Side);
    expect(result.findings.map(({ code, cause }) => [code, cause])).toEqual([['date-differs', 'collation']]);
    expect(result.findings[0]?.says).toContain('came as 4 issues, dated 1902-08-06, 1902-08-13, 1902-08-20 and 1902-08-27');
  });
});

describe('frames that the record lacks', () => {
  it('are one finding where they end one issue and begin the next', () => {
    const all = issues(['1902-08-06', '1902-08-13', '1902-08-20']);
    const lacking = all.filter(({ frame }) => !['7', '8', '9', '10'].includes(frame));
    let right: Side | null = null;
    run(recordOf(all), (side) => (right = returnOf(side)));
    const result = run(recordOf(lacking), () => right as unknown as Side);
    expect(codes(result)).toEqual(['page-not-in-collation']);
    expect(result.findings[0]?.says).toContain(
      '2 pages of The Saltreach Plowman of 1902-08-13 and 2 pages of The Saltreach Plowman of 1902-08-20',
    );
    expect(result.findings[0]?.billable).toEqual([{ class: 'page', change: -4 }]);
  });
});

describe('an image that came twice under one number', () => {
  it('is one finding, whether its digest shows it or not', () => {
    for (const digest of [null, 'sha256:00ff']) {
      const result = run(recordOf(issues(['1902-08-06', '1902-08-13'])), (side) =>
        withFrames(returnOf(side), (frames) =>
          frames.flatMap((frame): Frame[] => {
            if (frame.frame?.exposure !== 3) return [frame];
            const files = frame.files.map((file) => ({ ...file, digest }));
            return [
              { ...frame, files },
              { ...frame, files },
            ];
          }),
        ),
      );
      expect(codes(result)).toEqual(['frame-scanned-twice']);
    }
  });
});

describe('a reading that is the same everywhere', () => {
  it('is said once, and its instruction names it once', () => {
    const result = run(
      recordOf(issues(['1902-08-06', '1902-08-13', '1902-08-20', '1902-08-27']).map((frame) => ({ ...frame, volume: '7' }))),
      (side) => ({
        ...returnOf(side),
        issues: side.issues.map((issue, at) => (at === 1 || at === 2 ? { ...issue, volume: '9' } : issue)),
      }),
    );
    expect(codes(result)).toEqual(['volume-differs']);
    const [told] = result.findings;
    expect(`${told?.says ?? ''} ${told?.instruction ?? ''}`).not.toMatch(/7 to 7|7, 7|9, 9|are all/u);
  });
});

describe('a page that the record counts twice', () => {
  it('is never a page that the vendor owes', () => {
    // the first take of page 2 lies on frame 2; the library forgot to hold it back
    const frames: FrameEntry[] = [
      page('1', 1),
      { ...page('2', 2), order: 2 },
      { ...page('3', 2), order: 3 },
      { ...page('4', 3), order: 4 },
      { ...page('5', 4), order: 5 },
    ];
    const result = run(recordOf(frames), (side) => {
      const returned = returnOf(side, [1, null, 3, 4, 5]);
      return withFrames(returned, (list) => list.map((frame, at) => ({ ...frame, order: at + 1 })));
    });
    expect(result.findings.map(({ code, cause, rescan, billable }) => [code, cause, rescan, billable])).toEqual([
      ['page-not-delivered', 'collation', 'no', []],
    ]);
  });
});
