import { describe, expect, it } from 'vitest';
import type { BookFacts, TypedCell } from '../../src/model/written-sheet.js';
import { byCause, problemInWords } from '../../src/normalise/by-cause.js';
import { bothDays, readDayCell } from '../../src/normalise/day-cell.js';
import { normaliseRecord } from '../../src/normalise/record.js';
import { ALONE, type ColumnBeside, readTypedCell, typedCellText } from '../../src/normalise/typed-cell.js';

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

/** Why the cell is refused, with what was probably typed; null where it is read. */
function fault(field: string, facts: Partial<TypedCell>, book: BookFacts = EXCEL, beside: ColumnBeside = ALONE): string | null {
  const reading = readTypedCell(cell(facts), field, book, beside);
  return reading.text === null ? problemInWords({ file: '', sheet: '', row: 7, column: field, ...reading.fault }) : null;
}

/** What the cell is read as, and whether that is said. */
function read(field: string, facts: Partial<TypedCell>, book: BookFacts = EXCEL, beside: ColumnBeside = ALONE): unknown {
  const reading = readTypedCell(cell(facts), field, book, beside);
  return reading.text === null ? reading.fault : [reading.text, reading.remark === null ? 'as it is' : 'with a remark'];
}
const AGAIN = 'Format the column as text and write it again.';

describe('a label that a spreadsheet program has changed', () => {
  // What Excel and LibreOffice make of labels: Microsoft KB Q97912 (a slash or hyphen may become a date), and for the rest measured in
  // LibreOffice 7.4. Serial numbers of days by hand from ECMA-376 part 1, section 18.17.4.1: 36526 is 2000-01-01, 46023 is 2026-01-01.
  it.each<[string, Partial<TypedCell>, string]>([
    [
      '1-2',
      { kind: 'date', value: '46024', format: 'd-mmm' },
      'the day 2026-01-02, stored as the number 46024 in the format d-mmm, ("1-2" or "2-1"?) stands where text belongs.',
    ],
    ['3/3', { kind: 'date', value: '46084', format: 'd-mmm' }, '("3-3" or "3/3"?)'],
    ['12-88', { kind: 'date', value: '32478', format: 'mmm-yy' }, 'in the format mmm-yy, ("12-88" or "12/88"?)'],
    ['3E1', { value: '30', format: '0.00E+00' }, 'the number 30 in the format 0.00E+00 ("3E1"?) stands where text belongs.'],
    ['12E5', { value: '1200000', format: '0.00E+00' }, '("12E5"?)'],
    [
      '1:2',
      { kind: 'date', value: '0.0430555555555556', format: 'h:mm' },
      'a time, stored as the number 0.0430555555555556 in the format h:mm, ("1:2"?)',
    ],
    ['50%', { value: '0.5', format: '0%' }, '("50%"?)'],
    ['1 1/2', { value: '1.5', format: '# ?/?' }, '("1 1/2"?)'],
    ['1/2', { value: '0.5', format: '# ?/?' }, '("1/2"?)'],
    ['(3)', { value: '-3' }, 'the number -3 ("(3)" or "-3"?) stands where text belongs.'],
    [
      'a long number',
      { value: '1.23456789012346E+19' },
      'of which a spreadsheet program keeps no more than 15 digits, stands where text belongs.',
    ],
    ['TRUE', { kind: 'boolean', value: 'TRUE' }, 'the truth value TRUE ("true"?) stands where text belongs.'],
  ])('%s', (_, facts, says) => {
    const sentence = fault('page', facts);
    expect(sentence).toContain(says);
    expect(sentence).toContain(AGAIN);
  });

  it('is read where it can only be that, and said', () => {
    expect(read('page', { value: '12' })).toEqual(['12', 'with a remark']);
    expect(read('reel', { value: '12', format: '0000' })).toEqual(['0012', 'with a remark']);
    expect(read('page', { value: '1234', format: '#,##0' })).toEqual(['1234', 'with a remark']);
    expect(fault('reel', { value: '14' }, EXCEL, { ...ALONE, zeros: true })).toContain('others of the column have zeros in front');
    expect(read('reel', { value: '14', format: '0000' }, EXCEL, { ...ALONE, zeros: true })).toEqual(['0014', 'with a remark']);
  });

  it('a formula counts as its result, an error is refused', () => {
    expect(read('frame', { formula: 'B6+1', value: '13' })).toEqual(['13', 'with a remark']);
    expect(read('date', { formula: 'D6+7', value: '9506', kind: 'date', format: 'yyyy-mm-dd' })).toEqual(['1926-01-09', 'with a remark']);
    expect(read('page', { formula: '', value: '3A', kind: 'text' })).toEqual(['3A', 'with a remark']);
    for (const field of ['page', 'frame', 'date', 'note'])
      expect(fault(field, { kind: 'error', value: '#REF!', formula: 'Z1' })).toBe('the error #REF! stands there; write the text itself.');
  });
});

describe('a day that a spreadsheet program has counted', () => {
  it('is read where it can mean one day alone', () => {
    const day = ['1926-01-02', 'with a remark'];
    expect(read('date', { kind: 'date', value: '9499', format: 'yyyy\\-mm\\-dd' })).toEqual(day);
    expect(read('date', { kind: 'date', value: '8037', format: 'd-mmm-yy' }, { ...EXCEL, date1904: true })).toEqual(day);
    expect(read('date', { kind: 'date', value: '61', format: 'd-mmm-yy' })).toEqual(['1900-03-01', 'with a remark']);
    const office = { ...EXCEL, program: 'LibreOffice/7.4' };
    expect(read('date', { kind: 'date', value: '-4380', format: 'yyyy-mm-dd' }, office)).toEqual(['1888-01-02', 'with a remark']);
    expect(read('date', { kind: 'date', value: '1888-01-02T00:00:00' })).toEqual(['1888-01-02', 'with a remark']);
    const beside = { ...ALONE, years: [1904, 1906] } as const;
    expect(read('date', { kind: 'date', value: '1888', format: 'm/d/yyyy' }, EXCEL, beside)).toEqual(['1905-03-02', 'with a remark']);
    expect(read('date printed', { value: '1899' })).toEqual(['1899', 'as it is']);
  });

  it.each<[string, Partial<TypedCell>, BookFacts, ColumnBeside, string]>([
    [
      'of the century of the program',
      { kind: 'date', value: '32144', format: 'm/d/yy' },
      EXCEL,
      { ...ALONE, early: true },
      'the day 1988-01-02, stored as the number 32144 in the format m/d/yy, (1988-01-02?) stands beside days before 1900',
    ],
    [
      'below 0 in a program that has no such days',
      { kind: 'date', value: '-4380', format: 'yyyy-mm-dd' },
      EXCEL,
      ALONE,
      '(1888-01-02?) lies before the days',
    ],
    [
      'a year in a cell for days',
      { kind: 'date', value: '1888', format: 'm/d/yyyy' },
      EXCEL,
      ALONE,
      'the day 1905-03-02, stored as the number 1888 in the format m/d/yyyy, (the year 1888?) is probably a year that was typed into a cell for days.',
    ],
    [
      'the same, written out',
      { kind: 'date', value: '1905-03-02' },
      EXCEL,
      { ...ALONE, years: [1887, 1889] },
      'the day 1905-03-02 (the year 1888?) is probably a year',
    ],
    [
      'on which programs do not agree',
      { kind: 'date', value: '5', format: 'm/d/yyyy' },
      { ...EXCEL, program: 'LibreOffice/7.4$Linux' },
      ALONE,
      '(1900-01-05 or 1900-01-04?) means two days',
    ],
    ['the false leap day', { kind: 'date', value: '60', format: 'm/d/yyyy' }, EXCEL, ALONE, '(1900-02-29 or 1900-02-28?) means two days'],
    ['a year alone', { value: '1888' }, EXCEL, ALONE, 'the number 1888 (1888-XX-XX?) is probably a year'],
    [
      'without its format',
      { value: '9499' },
      EXCEL,
      ALONE,
      'the number 9499 stands where a day belongs; days may be counted by it. Look at the paper',
    ],
    ['out of all bounds', { kind: 'date', value: '1e300', format: 'm/d/yyyy' }, EXCEL, ALONE, 'a date, stored as the number 1e300'],
  ])('is refused: %s', (_, facts, book, beside, says) => {
    expect(fault('date', facts, book, beside)).toContain(says);
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

  it('is none where a day is written out that never was', () => {
    // the false leap day of the count that begins with 1900, as ECMA-376 part 1, section 18.17.4.1 has it
    for (const value of ['1900-02-29', '1899-02-29', '1888-04-31T00:00:00'])
      expect(fault('date', { kind: 'date', value, format: 'yyyy-mm-dd' })).toContain(`the date ${value} is not a day`);
  });
});

describe('a number that may be taken as it is', () => {
  it.each(['frame', 'first frame', 'order', 'edition', 'duplicate of', 'retake of'])('is a whole one in the column %s', (field) => {
    expect(read(field, { value: '12' })).toEqual(['12', 'as it is']);
    expect(read(field, { value: '12', format: '@' })).toEqual(['12', 'as it is']);
    expect(fault(field, { value: '12.5' })).toContain('("12.5"?)');
    expect(fault(field, { value: '-12' })).toContain('("(12)" or "-12"?)');
  });

  it('is any in a note, and a truth value answers yes or no', () => {
    expect(read('note', { value: '12.5', format: '0.00' })).toEqual(['12.5', 'as it is']);
    expect(read('deliver', { kind: 'boolean', value: 'TRUE' })).toEqual(['TRUE', 'as it is']);
    expect(typedCellText(cell({ kind: 'date', value: '46024', format: 'd-mmm' }), EXCEL)).toBe('2026-01-02');
  });
});

describe('a sheet with such cells', () => {
  it('gives one remark for each column, and one sentence for each cause', () => {
    const typed: TypedCell[] = [
      cell({ row: 2, column: 1, kind: 'date', value: '9499', format: 'm/d/yyyy' }),
      cell({ row: 3, column: 1, kind: 'date', value: '9500', format: 'm/d/yyyy' }),
      cell({ row: 2, column: 3, kind: 'date', value: '46024', format: 'm/d/yyyy' }),
      ...[2, 3, 4, 5].map((row) => cell({ row, column: 0, value: String(row) })),
      cell({ row: 3, column: 2, value: '12' }),
      ...[4, 5].map((row) => cell({ row, column: 2, kind: 'date', value: '46024', format: 'd-mmm' })),
    ];
    const row = (at: number, date: string) => ({ row: at, cells: [String(at), date, '1', '46024', 'tv1'] });
    const { record, problems, warnings } = normaliseRecord({
      sheets: [
        {
          file: 'x.xlsx',
          sheet: '14',
          headers: ['frame', 'date', 'page', 'collated on', 'title'],
          rows: [row(2, '9499'), row(3, '9500'), row(4, '1926-01-02'), row(5, '1926-01-02')],
          problems: [],
          warnings: [],
          typed: { cells: typed, book: EXCEL },
        },
      ],
      records: [],
    });
    expect(byCause(problems)).toEqual([
      'x.xlsx, sheet 14, column page, 2 cells, such as the day 2026-01-02, stored as the number 46024 in the format d-mmm, ("1-2" or "2-1"?, row 4) and the day 2026-01-02, stored as the number 46024 in the format d-mmm, ("1-2" or "2-1"?, row 5): each stands where text belongs. Format the column as text and write it again.',
    ]);
    expect(warnings.slice(-2)).toEqual([
      'x.xlsx, sheet 14, column date, 2 cells, such as the day 1926-01-02 (row 2) and the day 1926-01-03 (row 3): each is a day as the spreadsheet program counts days; it is read as that day.',
      'x.xlsx, sheet 14, row 3, column page: the number 12 stands where text belongs; its digits are read. Zeros in front would be lost.',
    ]);
    expect(record.reels[0]?.frames.map(({ frame, date, note }) => [frame, date, note])[0]).toEqual([
      '2',
      '1926-01-02',
      'collated on: 2026-01-02',
    ]);
  });

  it('tells 574 cells of 60 sheets as one', () => {
    const problems = Array.from({ length: 574 }, (_, at) => ({
      file: 'reels.xlsx',
      sheet: `Reel ${String(at % 60)}`,
      row: at + 2,
      column: 'Date',
      held: `"${String((at % 28) + 1)}/1/1899"`,
      says: 'is not a day.',
    }));
    expect(byCause(problems)).toEqual([
      'reels.xlsx, 60 sheets, column Date, 574 cells, such as "1/1/1899" (row 2 of reels.xlsx, sheet Reel 0), "2/1/1899" (row 3 of reels.xlsx, sheet Reel 1) and "3/1/1899" (row 4 of reels.xlsx, sheet Reel 2): each is not a day.',
    ]);
  });
});
