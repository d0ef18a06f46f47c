import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { type PagesItem, readPages } from '../../src/normalise/pages-notation.js';

/** An item in short: `3`, `3(8)`, `x3=415`, `[5] yes`, `blank`, `@2A`, with the section behind a slash. */
function short(item: PagesItem): string {
  if (item.is === 'jump') return `@${item.frame}`;
  if (item.is === 'other') return item.kind;
  const section = item.section === null ? '' : `/${item.section}`;
  if (item.is === 'absent') return `[${item.label}] ${item.published}${section}`;
  return `${item.deliver ? (item.again ? 'd' : '') : 'x'}${item.label}${item.printed === null ? '' : `(${item.printed})`}${item.duplicateOf === null ? '' : `=${item.duplicateOf}`}${section}`;
}

function read(cell: string): readonly string[] {
  const { items, faults } = readPages(cell);
  expect(faults).toEqual([]);
  return items.map(short);
}

describe('the pages cell reads', () => {
  it.each([
    ['a range', '1-4', ['1', '2', '3', '4']],
    ['sections', 'A1-A2,B1-B2', ['A1/A', 'A2/A', 'B1/B', 'B2/B']],
    ['a range that names its section once', 'A1-2', ['A1/A', 'A2/A']],
    ['a page of a section', 'A3', ['A3/A']],
    ['a page printed with another number', '4,5(6),6', ['4', '5(6)', '6']],
    ['a page on which something other than a number is printed', '2(8, second time)', ['2(8, second time)']],
    ['a page on which nothing is printed', '1(-),2', ['1(-)', '2']],
    ['a range on which nothing is printed', '1-2(-)', ['1(-)', '2(-)']],
    ['a page that is wanting', '1-2,[3],4', ['1', '2', '[3] yes', '4']],
    ['a page of which it is not known whether it was published', '[5?]', ['[5] unknown']],
    ['a page that was not published', '[5-]', ['[5] no']],
    ['several absent pages', '[5-6],[B1-B2?],[7-8-]', ['[5] yes', '[6] yes', '[B1] unknown/B', '[B2] unknown/B', '[7] no', '[8] no']],
    ['several absent pages in one bracket', '[5,7?]', ['[5] yes', '[7] unknown']],
    ['a held-back page', '1-3,x3,4', ['1', '2', '3', 'x3', '4']],
    ['a held-back range', 'x1-2', ['x1', 'x2']],
    ['a held-back page that is printed otherwise', 'x5(6)', ['x5(6)']],
    ['a held-back page and the frame that it duplicates', 'x3=415', ['x3=415']],
    ['a held-back page and a frame of another reel', 'x3(9)=14:415A', ['x3(9)=14:415A']],
    ['a duplicate that is delivered too', '1-3,d3,4', ['1', '2', '3', 'd3', '4']],
    ['a range delivered twice, and a frame that is named', 'd1-2,d3(-)=415', ['d1', 'd2', 'd3(-)=415']],
    ['pages out of order', '1-4,3,5', ['1', '2', '3', '4', '3', '5']],
    ['blanks, targets and voids', 't,_,v,1', ['target', 'blank', 'void', '1']],
    ['a new frame number', '1,@2A,2-3', ['1', '@2A', '2', '3']],
    ['other labels', '2a,12B,iv,S1,3 bis', ['2a', '12B', 'iv', 'S1/S', '3 bis']],
    ['sections with a hyphen', 'A-3', ['A-3/A']],
    ['capital letters that are signs in small ones', 'X1,T,V,D3', ['X1/X', 'T', 'V', 'D3/D']],
    ['spaces anywhere between', ' 1 - 2 , x 3 = 415 , [ 4 ? ] , @ 5a ', ['1', '2', 'x3=415', '[4] unknown', '@5A']],
  ])('%s', (_, cell, expected) => {
    expect(read(cell)).toEqual(expected);
  });
});

describe('the pages cell refuses', () => {
  it.each([
    ['1,,2', 'a comma too many'],
    ['', 'a comma too many'],
    ['8-1', 'runs backwards'],
    ['A1-B4', 'from one section into another'],
    ['1-8000', 'more than 400 pages'],
    ['01-08', 'zeros in front'],
    ['2()', 'an empty bracket'],
    ['1-4(8)', 'each page with its own bracket'],
    ['x', 'an x without a page'],
    ['d', 'a d without a page'],
    ['d_', 'only pages have duplicates'],
    ['d1-d4', 'from one section into another'],
    ['d1-2=415', 'each page with its own ='],
    ['x_', 'needs no x'],
    ['xt', 'needs no x'],
    ['3=415', 'such as x3=415'],
    ['x3=', 'such as x3=415'],
    ['x3=next', 'such as x3=415'],
    ['x3=4=5', 'not a page, range or sign'],
    ['x3-4=415', 'each page with its own ='],
    ['[5', 'in square brackets'],
    ['[]', 'in square brackets'],
    ['[?]', 'in square brackets'],
    ['x[5]', 'not a page, range or sign'],
    ['@', 'such as @12'],
    ['@0', 'such as @12'],
    ['@12C', 'such as @12'],
    ['(8)', 'not a page, range or sign'],
    ['1;2', 'not a page, range or sign'],
    ['?', 'not a page, range or sign'],
    ['1(8)(9)', 'not a page, range or sign'],
    [`1${' '.repeat(20_000)}`, 'longer than 10000 characters'],
  ])('%j', (cell, says) => {
    const { faults } = readPages(cell);
    expect(faults).toHaveLength(1);
    expect(faults[0]?.says).toContain(says);
  });

  it('a part and reads the rest', () => {
    const { items, faults } = readPages('1,8-2,3');
    expect(items.map(short)).toEqual(['1', '3']);
    expect(faults.map(({ part }) => part)).toEqual(['8-2']);
  });

  it('nothing by throwing, whatever stands there', () => {
    fc.assert(
      fc.property(fc.string({ unit: fc.constantFrom(...Array.from('0123456789AxdtvB_-,()[]=?@ .')), maxLength: 40 }), (cell) => {
        const { items, faults } = readPages(cell);
        expect(items.length + faults.length).toBeGreaterThan(0);
      }),
      { numRuns: 2000 },
    );
  });
});
