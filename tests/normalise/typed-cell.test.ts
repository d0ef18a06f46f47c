import { describe, expect, it } from 'vitest';
import type { BookFacts, TypedCell } from '../../src/model/written-sheet.js';
import { bothDays, readDayCell } from '../../src/normalise/day-cell.js';
import { normaliseRecord } from '../../src/normalise/record.js';
import { typedCellFault, typedCellText } from '../../src/normalise/typed-cell.js';

const EXCEL: BookFacts = { date1904: false, program: 'Microsoft Excel' };
const cell = (facts: Partial<TypedCell>): TypedCell => ({
  row: 7,
  column: 2,
  address: 'C7',
  kind: 'number',
  value: '12',
  format: 'General',
  formula: null,
  ...facts,
});
const fault = (field: string, facts: Partial<TypedCell>, book: BookFacts = EXCEL): string | null =>
  typedCellFault(cell(facts), field, book);
const AGAIN = 'Format the column as text and write it again.';

describe('a label that a spreadsheet program has changed', () => {
  // What Excel and LibreOffice make of labels: Microsoft KB Q97912 (a slash or hyphen may become a date), and for the rest measured in
  // LibreOffice 7.4. Serial numbers of days by hand from ECMA-376 part 1, section 18.17.4.1: 36526 is 2000-01-01, 46023 is 2026-01-01.
  it.each<[string, Partial<TypedCell>, string]>([
    [
      '1-2',
      { kind: 'date', value: '46024', format: 'd-mmm' },
      'the day 2026-01-02, stored as the number 46024 in the format d-mmm, and not text; "1-2" or "2-1" was probably typed.',
    ],
    ['3/3', { kind: 'date', value: '46084', format: 'd-mmm' }, '"3-3" or "3/3" was probably typed.'],
    [
      '12-88',
      { kind: 'date', value: '32478', format: 'mmm-yy' },
      'the day 1988-12-01, stored as the number 32478 in the format mmm-yy, and not text; "12-88" or "12/88" was probably typed.',
    ],
    ['3E1', { value: '30', format: '0.00E+00' }, 'the number 30 in the format 0.00E+00 and not text; "3E1" was probably typed.'],
    ['12E5', { value: '1200000', format: '0.00E+00' }, '"12E5" was probably typed.'],
    [
      '1:2',
      { kind: 'date', value: '0.0430555555555556', format: 'h:mm' },
      'a time, stored as the number 0.0430555555555556 in the format h:mm, and not text; "1:2" was probably typed.',
    ],
    ['50%', { value: '0.5', format: '0%' }, '"50%" was probably typed.'],
    ['1 1/2', { value: '1.5', format: '# ?/?' }, '"1 1/2" was probably typed.'],
    ['1/2', { value: '0.5', format: '# ?/?' }, '"1/2" was probably typed.'],
    ['(3)', { value: '-3' }, 'the number -3 and not text; "(3)" or "-3" was probably typed.'],
    ['1,234', { value: '1234', format: '#,##0' }, '"1,234" was probably typed.'],
    ['0012 that still looks so', { value: '12', format: '0000' }, '"0012" was probably typed.'],
    ['0012', { value: '12' }, 'the number 12 and not text; "12" was probably typed. Zeros in front of it would be lost.'],
    ['30', { value: '30' }, '"30" or "3E1" was probably typed.'],
    [
      'a long number',
      { value: '1.23456789012346E+19' },
      'of which a spreadsheet program keeps no more than 15 digits, and not text; what was typed cannot be told.',
    ],
    ['TRUE', { kind: 'boolean', value: 'TRUE' }, 'the truth value TRUE and not text; "true" was probably typed.'],
  ])('%s', (_, facts, says) => {
    const sentence = fault('page', facts);
    expect(sentence).toContain('the cell C7 holds ');
    expect(sentence).toContain(says);
    expect(sentence).toContain(AGAIN);
  });

  it('a formula or an error is refused whatever the column', () => {
    for (const field of ['page', 'frame', 'date', 'note']) {
      expect(fault(field, { formula: 'B7+1', value: '13' })).toBe(
        'the cell C7 holds the formula =B7+1 with the result "13"; write the text itself.',
      );
      expect(fault(field, { kind: 'error', value: '#REF!' })).toBe('the cell C7 holds the error #REF!; write the text itself.');
    }
    expect(fault('frame', { formula: '', value: '' })).toBe(
      'the cell C7 holds a formula that is written in another cell; write the text itself.',
    );
  });
});

describe('a day that a spreadsheet program has counted', () => {
  it.each<[string, Partial<TypedCell>, BookFacts, string]>([
    [
      'after the false leap day',
      { kind: 'date', value: '9499', format: 'yyyy\\-mm\\-dd' },
      EXCEL,
      'the day 1926-01-02, stored as the number 9499 in the format yyyy-mm-dd, and not text; 1926-01-02 was probably typed. Look at the paper',
    ],
    [
      'of the century of the program',
      { kind: 'date', value: '32144', format: 'm/d/yy' },
      EXCEL,
      '1988-01-02 was probably typed, unless only two digits of the year were.',
    ],
    [
      'counted from 1904',
      { kind: 'date', value: '8037', format: 'd-mmm-yy' },
      { ...EXCEL, date1904: true },
      'the day 1926-01-02, stored as the number 8037 of the count that begins with 1904',
    ],
    [
      'below 0',
      { kind: 'date', value: '-4380', format: 'yyyy-mm-dd' },
      { ...EXCEL, program: 'LibreOffice/7.4' },
      '; 1888-01-02 was probably typed.',
    ],
    [
      'a year in a cell for days',
      { kind: 'date', value: '1888', format: 'm/d/yyyy' },
      EXCEL,
      'the day 1905-03-02, stored as the number 1888 in the format m/d/yyyy, and not text; it is that day, or the year 1888 was typed',
    ],
    [
      'on which programs do not agree',
      { kind: 'date', value: '5', format: 'm/d/yyyy' },
      { ...EXCEL, program: 'LibreOffice/7.4$Linux' },
      'do not agree whether that is 1900-01-05 or 1900-01-04, and LibreOffice wrote the workbook.',
    ],
    [
      'the false leap day',
      { kind: 'date', value: '60', format: 'm/d/yyyy' },
      { ...EXCEL, program: null },
      'do not agree whether that is 1900-02-29 or 1900-02-28.',
    ],
    [
      'written out',
      { kind: 'date', value: '1888-01-02T00:00:00' },
      EXCEL,
      'the day 1888-01-02T00:00:00 as a date and not text; 1888-01-02 was probably typed.',
    ],
    [
      'a year alone',
      { value: '1888' },
      EXCEL,
      'the number 1888 and not text; the year 1888 was probably typed. A year alone is written 1888-XX-XX.',
    ],
    [
      'without its format',
      { value: '9499' },
      EXCEL,
      'the number 9499 and not text, by which days may be counted. Look at the paper, write YYYY-MM-DD',
    ],
    ['out of all bounds', { kind: 'date', value: '1e300', format: 'm/d/yyyy' }, EXCEL, 'a date, stored as the number 1e300'],
  ])('%s', (_, facts, book, says) => {
    expect(fault('date', facts, book)).toContain(says);
  });

  it('is the day that the standard gives', () => {
    // ECMA-376 part 1, section 18.17.4.1: 1900 date base, 1 is 1900-01-01 and 2958465 is 9999-12-31; 1904 date base, 0 is 1904-01-01 and 2957003 is 9999-12-31.
    const day = (value: string, date1904 = false): string | null =>
      readDayCell(cell({ kind: 'date', value }), { date1904, program: null }).day;
    expect(['61', '36526', '2958465'].map((value) => day(value))).toEqual(['1900-03-01', '2000-01-01', '9999-12-31']);
    expect(['0', '2957003'].map((value) => day(value, true))).toEqual(['1904-01-01', '9999-12-31']);
    expect(bothDays(1)).toEqual(['1900-01-01', '1899-12-31']);
    expect(day('2958466')).toBeNull();
  });
});

describe('a number that may be taken as it is', () => {
  it.each(['frame', 'first frame', 'order', 'edition', 'duplicate of', 'retake of'])('is a whole one in the column %s', (field) => {
    expect(fault(field, { value: '12' })).toBeNull();
    expect(fault(field, { value: '12', format: '@' })).toBeNull();
    expect(fault(field, { value: '12.5' })).toContain('"12.5" was probably typed.');
    expect(fault(field, { value: '12', format: '0000' })).toContain('"0012" was probably typed.');
    expect(fault(field, { value: '-12' })).toContain('"(12)" or "-12" was probably typed.');
  });

  it.each([
    'page',
    'page printed',
    'pages',
    'reel',
    'source reel',
    'title',
    'id',
    'number',
    'volume',
    'issue number',
    'section',
    'date',
    'date printed',
    'edition label',
  ])('is none in the column %s', (field) => {
    expect(fault(field, { value: '12' })).toContain('the cell C7 holds the number 12 and not text');
  });

  it('is any in a note, and a truth value answers yes or no', () => {
    expect(fault('note', { value: '12.5', format: '0.00' })).toBeNull();
    expect(fault('deliver', { kind: 'boolean', value: 'TRUE' })).toBeNull();
    expect(typedCellText(cell({ kind: 'date', value: '46024', format: 'd-mmm' }), EXCEL)).toBe('2026-01-02');
  });
});

describe('a sheet with such cells', () => {
  it('is complained about once for each cell, and columns without a meaning keep what they show', () => {
    const cells: TypedCell[] = [
      cell({ row: 2, column: 1, address: 'B2', kind: 'date', value: '9499', format: 'm/d/yyyy' }),
      cell({ row: 2, column: 3, address: 'D2', kind: 'date', value: '46024', format: 'm/d/yyyy' }),
      cell({ row: 3, column: 0, address: 'A3', value: '2' }),
      cell({ row: 3, column: 2, address: 'C3', value: '12' }),
    ];
    const { record, problems } = normaliseRecord(
      {
        sheets: [
          {
            file: 'x.xlsx',
            sheet: '14',
            headers: ['Bild', 'date', 'page', 'collated on', 'title'],
            rows: [
              { row: 2, cells: ['1', '9499', '1', '46024', 'tv1'] },
              { row: 3, cells: ['2', '1926-01-02', '12', '', 'tv1'] },
            ],
            problems: [],
            warnings: [],
            typed: { cells, book: EXCEL },
          },
        ],
        records: [],
        inputs: [],
      },
      { Bild: 'frame' },
    );
    expect(problems.map(({ row, column, says }) => `${String(row)} ${column ?? ''} ${says.slice(0, 34)}`)).toEqual([
      '2 date the cell B2 holds the day 1926-01-',
      '3 page the cell C3 holds the number 12 an',
    ]);
    expect(record.reels[0]?.frames.map(({ frame, note }) => [frame, note])).toEqual([
      ['1', 'collated on: 2026-01-02'],
      ['2', undefined],
    ]);
  });
});
