import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import type { AbsentEntry, FrameEntry } from '../../src/model/collation-record.js';
import { withOrders } from '../../src/normalise/page-order.js';
import { issueKeys } from '../../src/normalise/record-issues.js';

/** Orders of the pages of one issue, written `A3`, `xA3` held back, `[A3]` absent, `3!7` with a given order, `-` without a label. */
function orders(...pages: readonly string[]): readonly (number | null)[] {
  const frames: FrameEntry[] = [];
  const absent: AbsentEntry[] = [];
  for (const [at, text] of pages.entries()) {
    const [, mark = '', section = '', label = '', given] = /^(x|\[)?([A-Z]?)([\w-]+)\]?(?:!(\d+))?$/.exec(text)!;
    const entry = {
      date: '1899-01-05',
      ...(section === '' ? {} : { section }),
      ...(label === '-' ? {} : { page: label }),
      ...(given === undefined ? {} : { order: Number(given) }),
    };
    if (mark === '[') absent.push(entry);
    else frames.push({ ...entry, frame: String(at + 1), ...(mark === 'x' ? { deliver: false } : {}) });
  }
  const reels = [{ number: '1', frames, absent }];
  const [reel] = withOrders(reels, issueKeys(reels, null));
  const found = [...reel!.frames, ...reel!.absent!].map(({ order }) => order ?? null);
  // In the order in which the pages were given.
  let frame = 0;
  let hole = frames.length;
  return pages.map((text) => found[text.startsWith('[') ? hole++ : frame++]!);
}

describe('the order of pages', () => {
  it.each([
    ['follows the labels, not the place on film', ['1', '2', '4', '3'], [1, 2, 4, 3]],
    ['takes sections by first appearance', ['B1', 'B2', 'A1', 'A2'], [1, 2, 3, 4]],
    ['keeps sections together that were filmed in turns', ['A1', 'B1', 'A2', 'B2'], [1, 3, 2, 4]],
    ['lets absent pages take their place', ['1', '2', '[3]', '4'], [1, 2, 3, 4]],
    ['leaves a hole where nobody wrote down what is absent', ['1', '2', '3', '4', '6', '7', '8'], [1, 2, 3, 4, 6, 7, 8]],
    ['leaves a hole where the first page is wanting', ['2', '3', '4'], [2, 3, 4]],
    ['counts a running pagination from one', ['401', '402', '404'], [1, 2, 4]],
    ['gives a held-back page none', ['1', '2', 'x2', '3'], [1, 2, null, 3]],
    ['keeps the place of a page that is only held back', ['A1', 'xA2', 'B1'], [1, null, 3]],
    ['counts a page that is held back twice once', ['A1', 'xA2', 'xA2', 'B1'], [1, null, null, 3]],
    ['gives several pages on one image one place', ['1', '2-3', '4'], [1, 2, 3]],
    ['leaves a hole behind them where one is left out', ['1-2', '5-6', '[3]', '[4]'], [1, 4, 2, 3]],
    ['puts letters behind their number', ['2b', '3', '1', '2a', '2'], [4, 5, 1, 3, 2]],
    ['leaves a page without a label behind the one before it', ['1', '-', '3', '2'], [1, 2, 4, 3]],
    ['lets pages without labels fill a hole', ['1', '2', '-', '-', '5'], [1, 2, 3, 4, 5]],
    ['treats a letter in front as a section', ['1', '2', 'S1', 'S2', '3'], [1, 2, 4, 5, 3]],
    ['takes no wild number for a hole', ['1', '2', '901'], [1, 2, 3]],
    ['keeps what is given', ['1!1', '2!3', '3!2'], [1, 3, 2]],
    ['fills in what is missing where the rest agrees', ['1!1', '2', '[3]', '4!4'], [1, 2, 3, 4]],
    ['fills in nothing where the rest does not agree', ['1!1', '2', '3!2'], [1, null, 2]],
  ])('%s', (_, pages, expected) => {
    expect(orders(...pages)).toEqual(expected);
  });

  it('is that of the labels for any filming order of an issue', () => {
    const issue = fc.integer({ min: 1, max: 24 }).chain((pages) =>
      fc.shuffledSubarray(
        Array.from({ length: pages }, (_, at) => String(at + 1)),
        { minLength: pages },
      ),
    );
    fc.assert(
      fc.property(issue, (labels) => {
        expect(orders(...labels)).toEqual(labels.map(Number));
      }),
    );
  });
});
