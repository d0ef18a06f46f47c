import { describe, expect, it } from 'vitest';
import { DEFAULT_POLICIES } from '../../src/catalogue/agreement.js';
import { checkRecord, openProblems } from '../../src/collation/check.js';
import { instructionsFor } from '../../src/collation/instructions/index.js';
import { expectedReturn } from '../../src/expect/index.js';
import type { AbsentEntry, CollationRecord, FrameEntry } from '../../src/model/collation-record.js';
import { normaliseRecord } from '../../src/normalise/record.js';
import { renderInstructionsHtml } from '../../src/report/instructions/html.js';
import { instructionsCsv } from '../../src/report/instructions/table.js';

const TITLE = { id: 'tv1', name: 'Tarn Valley Post', language: 'eng' };

function recordOf(frames: readonly FrameEntry[], absent: readonly AbsentEntry[] = []): CollationRecord {
  return {
    format: 'reeltally/collation-record/2',
    titles: [TITLE],
    reels: [{ number: '14', frames, ...(absent.length > 0 ? { absent } : {}) }],
  };
}

function understood(written: CollationRecord) {
  const { record, side, problems } = normaliseRecord({ records: [{ name: 'r.json', record: written }], sheets: [] });
  expect(problems).toEqual([]);
  return { record, side };
}

/** What the vendor is told, and whether it is marked as being checked. */
function told(written: CollationRecord): readonly (readonly [string, boolean])[] {
  const { record, side } = understood(written);
  const doubts = openProblems(record, side, []).map(({ touches }) => touches);
  return instructionsFor(record, side, expectedReturn(side, DEFAULT_POLICIES, {}), DEFAULT_POLICIES, [], doubts).flatMap(
    ({ instructions }) => instructions.map(({ frames, says, open }) => [`${frames ?? ''}: ${says}`, open] as const),
  );
}

/** What the check says of it. */
function items(written: CollationRecord): readonly string[] {
  const { record, side } = understood(written);
  return checkRecord(record, side, { tool: { name: 'x', version: '1' }, inputs: [], explained: [] }).items.map(({ says }) => says);
}

/** Pages of one issue as its labels are written, from a frame on; `4>1` is a duplicate of frame 1. */
function issue(date: string, from: number, ...labels: readonly string[]): FrameEntry[] {
  return labels.map((label, at) => {
    const [page = '', twin] = label.split('>');
    return { frame: String(from + at), date, page, ...(twin === undefined ? {} : { duplicateOf: twin }) };
  });
}

describe('instructions beside what the check of the record doubts', () => {
  it('are marked where they rest on it, and only there', () => {
    // Frame 4 repeats the label 3 by a slip: page 4 is not accounted for.
    const slip = [...issue('1899-01-05', 1, '1', '2', '3', '3>3', '5'), ...issue('1899-01-12', 6, '1', '2', '2>7', '3')];
    expect(items(recordOf(slip))).toEqual(['The issue of 1899-01-05 has no page 4, and the record does not say that it is absent.']);
    expect(told(recordOf(slip))).toEqual([
      ['frames 3 and 4: both show page 3: deliver both, as places 3 and 4 of the issue.', true],
      ['frames 7 and 8: both show page 2: deliver both, as places 2 and 3 of the issue.', false],
    ]);
  });

  it('do not say that two frames show one page where the record gives them two labels', () => {
    const frames = issue('1899-01-05', 1, '1', '2', '3', '4>3');
    expect(told(recordOf(frames))[0]?.[0]).toMatch(/^frames 3 and 4: page 3, and page 4, recorded as repeating it: deliver both/);
    const held = frames.map((frame) => (frame.frame === '4' ? { ...frame, deliver: false } : frame));
    expect(told(recordOf(held))[0]?.[0]).toBe('frame 4: page 4, recorded as repeating frame 3, page 3: hold it back.');
  });

  it('mark a number that was passed over', () => {
    const frames = [...issue('1899-01-05', 1, '1', '2', '3', '4'), ...issue('1899-01-12', 6, '1', '2', '3', '4')];
    expect(told(recordOf(frames))).toEqual([
      ['frame 6: follows frame 4, and the record has no frame 5: number the frames as they are counted here.', true],
    ]);
  });

  it('mark an absent page of an issue whose pages do not count on', () => {
    const frames = [...issue('1899-01-05', 1, '1', '2', '5'), ...issue('1899-01-12', 4, '1', '2', '3')];
    const absent: AbsentEntry[] = [
      { date: '1899-01-05', page: '3', published: 'yes' },
      { date: '1899-01-12', page: '4', published: 'yes' },
    ];
    expect(told(recordOf(frames, absent)).map(([says, open]) => [/of (\S+) is/.exec(says)?.[1], open])).toEqual([
      ['1899-01-05', true],
      ['1899-01-12', false],
    ]);
  });
});

describe('the sheet that goes with the film', () => {
  const line = (open: boolean) => ({
    kind: 'take' as const,
    frames: 'frames 3 and 4',
    title: null,
    date: null,
    edition: 1,
    says: 'both show page 3.',
    open,
  });
  const sheet = (...open: readonly boolean[]) => ({
    library: '',
    vendor: '',
    titles: [],
    reels: [{ number: '14', facts: [], instructions: open.map(line) }],
    record: '0'.repeat(64),
  });

  it('marks a line that is being checked, and says so at the top', () => {
    const page = renderInstructionsHtml(sheet(true, false), () => '');
    expect(page).toContain('one line below is marked “being checked”. Ask before you act on it.');
    expect(page.match(/Being checked by the library/g)).toHaveLength(1);
    expect(instructionsCsv(sheet(true))).toContain('both show page 3. Being checked by the library: ask before you act on it.');
    expect(renderInstructionsHtml(sheet(false), () => '')).not.toContain('checked');
  });
});

describe('several pages on one image', () => {
  const weeks = (...labels: readonly string[]): CollationRecord =>
    recordOf([...issue('1899-01-05', 1, ...labels), ...issue('1899-01-12', labels.length + 1, '1', '2', '3', '4')]);

  it.each([
    ['a spread within', ['1', '2-3', '4']],
    ['spreads alone', ['1-2', '3-4']],
    ['with a stroke', ['1/2', '3/4']],
    ['with the section twice', ['A1', 'A2-A3', 'A4']],
  ])('%s are all accounted for', (_, labels) => {
    expect(items(weeks(...labels))).toEqual([]);
  });

  it('may be counted as one place or as many', () => {
    const ordered = (...orders: readonly number[]): CollationRecord =>
      recordOf(issue('1899-01-05', 1, '1', '2-3', '4').map((frame, at) => ({ ...frame, order: orders[at] ?? 0 })));
    expect(items(ordered(1, 2, 3))).toEqual([]);
    expect(items(ordered(1, 2, 4))).toEqual([]);
    expect(items(ordered(1, 2, 5))).toEqual([
      'In the issue of 1899-01-05 no page is at places 3 and 4 of the reading order, and the record does not say that one is absent there.',
    ]);
  });

  it('leave a page that no image shows unaccounted', () => {
    expect(items(weeks('1', '2-3', '5'))).toEqual([
      'The issue of 1899-01-05 has no page 4, and the record does not say that it is absent.',
    ]);
  });
});
