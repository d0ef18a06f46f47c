import { strToU8, zipSync } from 'fflate';
import { describe, expect, it } from 'vitest';
import { readOds } from '../../../src/read/ods/index.js';

const NAMES = ['office', 'table', 'text', 'style', 'meta']
  .map((name) => `xmlns:${name}="urn:oasis:names:tc:opendocument:xmlns:${name}:1.0"`)
  .join(' ');
const FO = 'xmlns:fo="urn:oasis:names:tc:opendocument:xmlns:xsl-fo-compatible:1.0" xmlns:dc="http://purl.org/dc/elements/1.1/"';

/** An OpenDocument spreadsheet put together by hand after OpenDocument 1.3, part 3. */
function odsOf(tables: string, styles = ''): Buffer {
  const content = `<?xml version="1.0" encoding="UTF-8"?><office:document-content ${NAMES} ${FO}><office:automatic-styles>${styles}</office:automatic-styles><office:body><office:spreadsheet>${tables}</office:spreadsheet></office:body></office:document-content>`;
  const meta = `<?xml version="1.0" encoding="UTF-8"?><office:document-meta ${NAMES}><office:meta><meta:generator>LibreOffice/7.4</meta:generator></office:meta></office:document-meta>`;
  return Buffer.from(
    zipSync({
      mimetype: strToU8('application/vnd.oasis.opendocument.spreadsheet'),
      'content.xml': strToU8(content),
      'meta.xml': strToU8(meta),
    }),
  );
}

const cells = (inner: string, styles = '') =>
  readOds(odsOf(`<table:table table:name="a"><table:table-row>${inner}</table:table-row></table:table>`, styles), 'x.ods').sheets[0]
    ?.rows[0]?.cells;

describe('an OpenDocument sheet', () => {
  it.each([
    [
      'text in paragraphs and spans',
      '<table:table-cell office:value-type="string"><text:p>a <text:span>b</text:span><text:s text:c="2"/>c</text:p><text:p>d</text:p></table:table-cell>',
      { kind: 'text', value: 'a b  c\nd' },
    ],
    [
      'a number',
      '<table:table-cell office:value-type="float" office:value="12"><text:p>12</text:p></table:table-cell>',
      { kind: 'number', value: '12', format: 'General' },
    ],
    [
      'a number shown with zeros',
      '<table:table-cell office:value-type="float" office:value="12"><text:p>0012</text:p></table:table-cell>',
      { kind: 'number', value: '12', format: '0000' },
    ],
    [
      'a number in powers',
      '<table:table-cell office:value-type="float" office:value="30"><text:p>3.00E+01</text:p></table:table-cell>',
      { format: '0.00E+00' },
    ],
    [
      'a day, whatever is shown',
      '<table:table-cell office:value-type="date" office:date-value="1888-01-02"><text:p>2 Jan 88</text:p></table:table-cell>',
      { kind: 'date', value: '1888-01-02' },
    ],
    ['a time', '<table:table-cell office:value-type="time" office:time-value="PT01H02M00S"/>', { kind: 'date', format: 'h:mm' }],
    ['a truth value', '<table:table-cell office:value-type="boolean" office:boolean-value="true"/>', { kind: 'boolean', value: 'TRUE' }],
    [
      'a formula',
      '<table:table-cell table:formula="of:=[.A1]+1" office:value-type="float" office:value="2"><text:p>2</text:p></table:table-cell>',
      { kind: 'number', value: '2', formula: '[.A1]+1' },
    ],
    [
      'a formula without a result',
      '<table:table-cell table:formula="of:=[.A1]" office:value-type="string" office:string-value=""><text:p>#REF!</text:p></table:table-cell>',
      { kind: 'error', value: '#REF!' },
    ],
    [
      'a text with a comment',
      '<table:table-cell office:value-type="string"><office:annotation><dc:creator>Ada</dc:creator><text:p>not this</text:p></office:annotation><text:p>this</text:p></table:table-cell>',
      { value: 'this' },
    ],
    [
      'an empty cell in front',
      '<table:table-cell table:number-columns-repeated="3"/><table:table-cell office:value-type="string"><text:p>x</text:p></table:table-cell>',
      { address: 'D1', column: 3 },
    ],
    [
      'a cell beside a covered one',
      '<table:table-cell table:number-columns-spanned="2"/><table:covered-table-cell office:value-type="string"><text:p>hidden</text:p></table:covered-table-cell><table:table-cell office:value-type="string"><text:p>x</text:p></table:table-cell>',
      { address: 'C1', value: 'x' },
    ],
  ])('%s', (_, inner, expected) => {
    expect(cells(inner)).toMatchObject([expected]);
  });

  it('keeps the colour of a cell, and white is none', () => {
    const style = (name: string, colour: string): string =>
      `<style:style style:name="${name}" style:family="table-cell"><style:table-cell-properties fo:background-color="${colour}"/></style:style>`;
    const cell = (name: string): string =>
      `<table:table-cell table:style-name="${name}" office:value-type="string"><text:p>x</text:p></table:table-cell>`;
    const found = cells(cell('a') + cell('b') + cell('c'), style('a', '#ffff00') + style('b', '#ffffff') + style('c', 'transparent'));
    expect(found?.map(({ colour }) => colour)).toEqual(['FFFF00', null, null]);
  });

  it('counts rows as they are repeated, and tells what is hidden and merged', () => {
    const row = (attributes: string, text: string): string =>
      `<table:table-row ${attributes}><table:table-cell table:number-rows-spanned="2" office:value-type="string"><text:p>${text}</text:p></table:table-cell></table:table-row>`;
    const book = readOds(
      odsOf(
        `<table:table table:name="a" table:style-name="h"><table:table-column table:number-columns-repeated="2"/><table:table-column table:visibility="collapse"/>${row('', 'x')}<table:table-row table:number-rows-repeated="1000000"><table:table-cell table:number-columns-repeated="16384"/></table:table-row></table:table><table:table table:name="b"><table:table-row table:number-rows-repeated="3"><table:table-cell/></table:table-row>${row('table:visibility="filter" table:number-rows-repeated="2"', 'y')}</table:table>`,
        '<style:style style:name="h" style:family="table"><style:table-properties table:display="false"/></style:style>',
      ),
      'x.ods',
    );
    expect(book.program).toBe('LibreOffice/7.4');
    expect(
      book.sheets.map(({ name, hidden, rows, hiddenColumns, merged }) => [
        name,
        hidden,
        rows.map((one) => [one.row, one.hidden]),
        hiddenColumns,
        merged,
      ]),
    ).toEqual([
      ['a', true, [[1, false]], [{ from: 2, to: 2 }], ['A1:A2']],
      [
        'b',
        false,
        [
          [4, true],
          [5, true],
        ],
        [],
        ['A4:A5'],
      ],
    ]);
  });

  it('is refused where a cell is repeated without end, or the file is another', () => {
    const cell =
      '<table:table-cell table:number-columns-repeated="900000" office:value-type="string"><text:p>x</text:p></table:table-cell>';
    expect(() => cells(cell)).toThrow('x.ods, sheet a: the cell A1 holds something far from all others');
    const rows = `<table:table table:name="a"><table:table-row table:number-rows-repeated="900000">${cell.replace('900000', '1')}</table:table-row></table:table>`;
    expect(() => readOds(odsOf(rows), 'x.ods')).toThrow('far from all others');
    expect(() => readOds(Buffer.from(zipSync({ 'xl/workbook.xml': strToU8('<x/>') })), 'x.ods')).toThrow(
      'this is not an OpenDocument spreadsheet under that name',
    );
    expect(() => readOds(Buffer.from('text'), 'x.ods')).toThrow('this is plain text under the name of a workbook');
    const bomb = odsOf('<table:table table:name="a"/>').toString('latin1');
    expect(() => readOds(Buffer.from(bomb.slice(0, -30), 'latin1'), 'x.ods')).toThrow('cut off');
  });
});
