import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { dateDamage, labelDamage } from '../../src/normalise/sheet-damage.js';
import { withGuard, withoutGuard } from '../../src/normalise/sheet-guard.js';

describe('labelDamage', () => {
  // Microsoft Knowledge Base Q97912 says that a typed hyphen or slash may become a date; forms with months of other languages from memory.
  it.each([
    ['2-Jan', '1-2 or 2-1'],
    ['02-Jan', '1-2 or 2-1'],
    ['4. Jul', '7-4 or 4-7'],
    ['2-Mrz', '3-2 or 2-3'],
    ['1-févr', '2-1 or 1-2'],
    ['2-Jan-2026', '1-2 or 2-1'],
    ['Dec-88', '12-88'],
    ['Jan-01', '1-1'],
    ['1/2/2026', 'such as 1-2'],
    ['01.02.2026', 'such as 1-2'],
    ['2026-01-02', 'such as 1-2'],
    ['3.00E+01', 'such as 3E1'],
    ['3E+01', 'such as 3E1'],
    ['12.0', '12 is a number with a decimal point'],
    ['-3', 'such as (3)'],
    ['#REF!', 'cannot compute or show'],
    ['########', 'cannot compute or show'],
  ])('sees what became of a label in %s', (text, says) => {
    const damage = labelDamage(text);
    expect(`${damage?.guess ?? ''} ${damage?.says ?? ''}`).toContain(says);
  });

  it.each([
    '1',
    '12',
    '0012',
    '3A',
    '2a',
    'A3',
    'A-3',
    '1-2',
    '12-13',
    'iv',
    '3E1',
    '-',
    'Supplement',
    'March',
    'Mar',
    'Extra 2',
    'No. 5',
    '2 bis',
    '3/4',
    'B 12',
  ])('sees nothing in %s', (text) => {
    expect(labelDamage(text)).toBeNull();
  });
});

describe('dateDamage', () => {
  it.each([
    ['1900-02-29', 'some spreadsheet programs count it'],
    ['1899-04-31', 'a day that never was'],
    ['1/4/1900', 'as a spreadsheet program shows it'],
    ['04.01.00', 'as a spreadsheet program shows it'],
    ['4-Jan-00', 'as a spreadsheet program shows it'],
    ['Jan 4, 1900', 'as a spreadsheet program shows it'],
    ['1899/01/04', 'as a spreadsheet program shows it'],
    ['366', 'by which a spreadsheet program counts days'],
    ['-4380', 'by which a spreadsheet program counts days'],
    ['36526.5', 'by which a spreadsheet program counts days'],
    ['Thursday', 'is not a date'],
  ])('says of %s', (text, says) => {
    expect(dateDamage(text)).toContain(says);
  });
});

describe('the guard mark of CSV', () => {
  // OWASP, "CSV Injection": cells that begin with = + - @ tab or carriage return.
  it.each([
    '=1+1',
    '+1',
    '-1',
    '@SUM(A1)',
    '\tx',
    '\rx',
    '0012',
    '1-2',
    '1900-01-04',
    '3E1',
    '1:2',
    '50%',
    '(3)',
    'MAR1',
    'Dec 1',
    '4-Jul',
    'TRUE',
  ])('stands in front of %j', (text) => {
    expect(withGuard(text)).toBe(`'${text}`);
    expect(withoutGuard(`'${text}`)).toBe(text);
  });

  it.each(['', '1', '812', 'A3', '3A', '-', "'s Avonds", 'Morning', '1899-01-XX?', 'torn; creased'])(
    'does not stand in front of %j',
    (text) => {
      expect(withGuard(text)).toBe(text);
      expect(withoutGuard(text)).toBe(text);
    },
  );

  it('comes off again, whatever the text', () => {
    fc.assert(
      fc.property(fc.string(), (text) => {
        expect(withoutGuard(withGuard(text))).toBe(text);
      }),
    );
    const risky = fc.string({ unit: fc.constantFrom("'", '=', '-', '1', '0', 'E', ' ', 'x'), maxLength: 6 });
    fc.assert(
      fc.property(risky, (text) => {
        expect(withoutGuard(withGuard(text))).toBe(text);
      }),
      { numRuns: 5000 },
    );
  });
});
