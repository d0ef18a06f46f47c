import { describe, expect, it } from 'vitest';
import type { BookCell } from '../../../src/model/written-grid.js';
import { readWorkbook } from '../../../src/read/workbook/index.js';
import { isDateFormat } from '../../../src/read/workbook/number-format.js';
import { bookOf, rows, text } from './book-of.js';

const STYLES =
  '<numFmts><numFmt numFmtId="164" formatCode="yyyy\\-mm\\-dd;@"/><numFmt numFmtId="165" formatCode="0000"/></numFmts>' +
  '<cellStyleXfs><xf numFmtId="9"/></cellStyleXfs>' +
  '<cellXfs><xf numFmtId="0"/><xf numFmtId="16"/><xf numFmtId="164"/><xf numFmtId="165"/><xf numFmtId="49"/><xf numFmtId="11"/></cellXfs>';

const only = (inner: string, more = {}): readonly BookCell[] =>
  readWorkbook(bookOf({ sheets: { frames: `<sheetData><row r="1">${inner}</row></sheetData>` }, styles: STYLES, ...more }), 'x.xlsx')
    .sheets.flatMap((sheet) => sheet.rows)
    .flatMap((row) => row.cells);

describe('a cell', () => {
  // Kinds of cells: ECMA-376 part 1, section 18.18.11 (ST_CellType); number formats: section 18.8.30.
  it.each<[string, string, Partial<BookCell>]>([
    ['a shared text', '<c r="A1" t="s"><v>0</v></c>', { kind: 'text', value: 'first' }],
    ['a text of formatted pieces', '<c r="A1" t="s"><v>1</v></c>', { kind: 'text', value: 'two pieces' }],
    ['a text with readings above it', '<c r="A1" t="s"><v>2</v></c>', { kind: 'text', value: '課' }],
    ['a text of its own', text('A1', ' 1-2 '), { kind: 'text', value: ' 1-2 ' }],
    ['a text with a character by number', text('A1', 'a_x000D_b_x005F_x000D_'), { kind: 'text', value: 'a\rb_x000D_' }],
    ['a text in CDATA', '<c r="A1" t="str"><v><![CDATA[a<b]]></v></c>', { kind: 'text', value: 'a<b' }],
    ['a number', '<c r="A1"><v>12</v></c>', { kind: 'number', value: '12', format: 'General' }],
    ['a number with an exponent', '<c r="A1" s="5"><v>1.2E+6</v></c>', { kind: 'number', value: '1.2E+6', format: '0.00E+00' }],
    ['a number that is shown with zeros', '<c r="A1" s="3"><v>12</v></c>', { kind: 'number', value: '12', format: '0000' }],
    ['a number under a text format', '<c r="A1" s="4"><v>12</v></c>', { kind: 'number', value: '12', format: '@' }],
    ['a date', '<c r="A1" s="1"><v>46024</v></c>', { kind: 'date', value: '46024', format: 'd-mmm' }],
    ['a date before the count begins', '<c r="A1" s="2"><v>-4380</v></c>', { kind: 'date', value: '-4380', format: 'yyyy\\-mm\\-dd;@' }],
    ['a date written out', '<c r="A1" t="d"><v>1888-01-02</v></c>', { kind: 'date', value: '1888-01-02' }],
    ['a truth value', '<c r="A1" t="b"><v>1</v></c>', { kind: 'boolean', value: 'TRUE' }],
    ['an error', '<c r="A1" t="e"><v>#REF!</v></c>', { kind: 'error', value: '#REF!' }],
    ['a formula', '<c r="A1"><f>B1+1</f><v>2</v></c>', { kind: 'number', value: '2', formula: 'B1+1' }],
    ['a formula of another cell', '<c r="A1"><f t="shared" si="0"/><v>2</v></c>', { kind: 'number', formula: '' }],
    ['a formula that was never computed', '<c r="A1"><f>B1</f></c>', { value: '', formula: 'B1' }],
    ['a cell far to the right', '<c r="ALL1"><v>1</v></c>', { column: 999, address: 'ALL1' }],
  ])('%s', (_, inner, expected) => {
    const cells = only(inner, {
      strings: ['<t>first</t>', '<r><rPr><b/></rPr><t>two </t></r><r><t>pieces</t></r>', '<t>課</t><rPh sb="0" eb="1"><t>か</t></rPh>'],
    });
    expect(cells).toHaveLength(1);
    expect(cells[0]).toMatchObject({ formula: null, ...expected });
  });

  it('without an address stands behind the one before', () => {
    expect(only('<c><v>1</v></c><c r="C1"><v>2</v></c><c><v>3</v></c>').map(({ address }) => address)).toEqual(['A1', 'C1', 'D1']);
  });

  it('that has a format and nothing in it is none, and neither is one of another vocabulary', () => {
    expect(only('<c r="A1" s="2"/><x:c r="B1"><v>1</v></x:c><c r="C1"><v>3</v><x:v>4</x:v></c>').map(({ value }) => value)).toEqual(['3']);
  });
});

describe('a workbook', () => {
  const FULL = {
    sheets: {
      frames:
        '<cols><col min="2" max="3" hidden="1"/></cols><sheetData><row r="1"><c r="A1"><v>1</v></c></row>' +
        '<row r="4" hidden="1"><c r="B4"><v>2</v></c></row></sheetData><mergeCells><mergeCell ref="A1:C1"/></mergeCells>',
      notes: '<sheetData/>',
      deep: rows('<c r="A1"><v>9</v></c>'),
    },
    states: { notes: 'state="hidden"', deep: 'state="veryHidden"' },
    workbookPr: 'date1904="1"',
    app: 'LibreOffice/7.4',
  };

  it.each([
    ['transitional', false],
    ['strict', true],
  ])('in the %s form says what is hidden and merged, how it counts days and who wrote it', (_, strict) => {
    expect(readWorkbook(bookOf({ ...FULL, strict }), 'x.xlsx')).toMatchObject({
      date1904: true,
      program: 'LibreOffice/7.4',
      sheets: [
        {
          name: 'frames',
          hidden: false,
          rows: [
            { row: 1, hidden: false },
            { row: 4, hidden: true },
          ],
          hiddenColumns: [{ from: 1, to: 2 }],
          merged: ['A1:C1'],
        },
        { name: 'notes', hidden: true, rows: [] },
        { name: 'deep', hidden: true },
      ],
    });
  });

  it('is read whatever prefixes it uses, and without the parts that may be wanting', () => {
    const main = 'http://schemas.openxmlformats.org/spreadsheetml/2006/main';
    const bytes = bookOf({
      sheets: { a: '' },
      more: {
        'xl/worksheets/sheet1.xml': `<p:worksheet xmlns:p="${main}"><p:sheetData><p:row><p:c><p:v>7</p:v></p:c></p:row></p:sheetData></p:worksheet>`,
        'xl/styles.xml': null,
        'xl/sharedStrings.xml': null,
        'docProps/app.xml': null,
        '_rels/.rels': null,
      },
    });
    expect(readWorkbook(bytes, 'x.xlsx')).toMatchObject({ program: null, sheets: [{ rows: [{ cells: [{ value: '7' }] }] }] });
  });

  it('may hold sheets of charts, which have no cells', () => {
    const chart =
      '<Relationships xmlns="http://schemas.openxmlformats.org/package/2006/relationships"><Relationship Id="rId1" Type="http://schemas.openxmlformats.org/officeDocument/2006/relationships/chartsheet" Target="chartsheets/sheet1.xml"/></Relationships>';
    expect(readWorkbook(bookOf({ sheets: { chart: '' }, more: { 'xl/_rels/workbook.xml.rels': chart } }), 'x.xlsx').sheets).toEqual([]);
  });
});

describe('isDateFormat', () => {
  // Codes as ECMA-376 part 1, section 18.8.30 and 18.8.31 give them.
  it.each([
    'mm-dd-yy',
    'd-mmm',
    'mmm-yy',
    'h:mm AM/PM',
    '[h]:mm:ss',
    'mmss.0',
    '[$-409]mmmm\\ d\\,\\ yyyy;@',
    'yyyy"年"m"月"d"日"',
    '[Red]d/m/yyyy',
  ])('%s shows a day or a time', (format) => {
    expect(isDateFormat(format)).toBe(true);
  });
  it.each([
    'General',
    '0',
    '0.00E+00',
    '##0.0E+0',
    '# ?/?',
    '@',
    '0%',
    '"day "0',
    '\\d0',
    '[Red]0',
    '[$€-2] #,##0',
    '_d0',
    '#,##0 ;[Red](#,##0)',
    '',
  ])('%s shows a number', (format) => {
    expect(isDateFormat(format)).toBe(false);
  });
});
