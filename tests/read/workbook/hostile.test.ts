import fc from 'fast-check';
import { strToU8 } from 'fflate';
import { describe, expect, it } from 'vitest';
import { UserMistake } from '../../../src/read/mistake.js';
import { readXlsx } from '../../../src/read/sheet-xlsx.js';
import { readWorkbook } from '../../../src/read/workbook/index.js';
import { bookOf, packed, partsOf, rows, text } from './book-of.js';

const FINE = bookOf({ sheets: { frames: rows(text('A1', 'frame') + text('B1', 'page'), text('A2', '1') + text('B2', '1-2')) } });
const withSheet = (inner: string): Buffer => bookOf({ sheets: { frames: inner } });
const withPart = (name: string, content: string | Uint8Array | null): Buffer =>
  bookOf({ sheets: { frames: rows(text('A1', 'frame')) }, strings: ['<t>x</t>'], more: { [name]: content } });

/** The workbook with a 32-bit number of the list at the end changed, for the part of that name (PKWARE APPNOTE 6.3.10, section 4.3.12). */
function relisted(bytes: Buffer, name: string, field: number, value: number): Buffer {
  const copy = Buffer.from(bytes);
  const at = copy.lastIndexOf(name) - 46;
  expect(copy.readUInt32LE(at)).toBe(0x02014b50);
  copy.writeUInt32LE(value, at + field);
  return copy;
}

const SHEET = 'xl/worksheets/sheet1.xml';
const SIZE = 24;
const CRC = 16;
const OFFSET = 42;

/** 40 million blanks in a sheet: about 40 kB packed. */
const bomb = bookOf({ sheets: { frames: rows(text('A1', ' '.repeat(40_000_000))) } });
const many = packed(
  Object.fromEntries([
    ...Object.entries(partsOf({ sheets: { a: rows(text('A1', 'frame')) } })),
    ...Array.from({ length: 5001 }, (_, at) => [`x/${String(at)}`, strToU8('')] as const),
  ]),
);
const compound = Buffer.concat([Buffer.from([0xd0, 0xcf, 0x11, 0xe0, 0xa1, 0xb1, 0x1a, 0xe1]), Buffer.alloc(600)]);

describe('a file that is not a workbook, or a hostile one, is refused in a sentence', () => {
  it.each<[string, Buffer, string]>([
    ['nothing at all', Buffer.alloc(0), 'x.xlsx: the file is empty'],
    ['a CSV file', Buffer.from('frame,page\n1,1'), 'x.xlsx: this is plain text under the name of a workbook; give it the ending .csv'],
    ['a web page', Buffer.from('\n<!DOCTYPE html><html>'), 'x.xlsx: this is a web page under the name of a workbook'],
    ['a table that calls itself a workbook', Buffer.from('<table><tr>'), 'x.xlsx: this is a web page'],
    ['a PDF', Buffer.from('%PDF-1.7'), 'x.xlsx: this is a PDF document'],
    ['other bytes', Buffer.from([1, 0, 2, 0]), 'x.xlsx: this is not a workbook'],
    ['an old workbook', compound, 'x.xlsx: this is a workbook of an old spreadsheet format (.xls); save it as .xlsx.'],
    [
      'an encrypted workbook',
      Buffer.concat([compound, Buffer.from('EncryptedPackage', 'utf16le')]),
      'x.xlsx: this workbook is protected by a password; save it without one.',
    ],
    [
      'an OpenDocument sheet',
      packed({ mimetype: strToU8('application/vnd.oasis.opendocument.spreadsheet'), 'content.xml': strToU8('<x/>') }),
      'x.xlsx: this is an OpenDocument file under the name of an .xlsx workbook; give it the ending .ods.',
    ],
    ['a binary workbook', withPart('xl/workbook.bin', 'x'), 'x.xlsx: this is a binary workbook (.xlsb)'],
    ['a text document', withPart('word/document.xml', '<x/>'), 'x.xlsx: this is a text document (.docx)'],
    ['an archive of pictures', packed({ 'a.jpg': strToU8('x') }), 'x.xlsx: this is an archive, but there is no workbook in it'],
    [
      'a workbook that was cut off',
      FINE.subarray(0, FINE.length - 200),
      'x.xlsx: the workbook cannot be opened: the list of its parts is missing',
    ],
    ['a bomb', bomb, `x.xlsx: the part ${SHEET} of the workbook would swell to`],
    [
      'a bomb that lies about its size',
      relisted(bomb, SHEET, SIZE, 1000),
      `x.xlsx: the part ${SHEET} of the workbook is damaged, or larger than it says`,
    ],
    ['a part of 4 GB', relisted(FINE, SHEET, SIZE, 0xfffffff0), 'would have more than 268435456 bytes when unpacked'],
    ['a part of 200 MB', relisted(FINE, SHEET, SIZE, 200_000_000), 'more than any collation record needs'],
    ['a part that says it is longer than it is', relisted(FINE, SHEET, SIZE, 5000), 'says that it has 5000 bytes, but has'],
    ['a part with another check sum', relisted(FINE, SHEET, CRC, 1), 'is damaged: its check sum is another'],
    ['a part outside the file', relisted(FINE, SHEET, OFFSET, 0x7fffffff), 'lies outside the file'],
    ['parts without end', many, 'it holds 5009 parts, and no workbook needs more than 5000'],
    ['a part twice', withPart('XL/Workbook.xml', '<x/>'), 'it holds the part "XL/Workbook.xml" twice'],
    ['a workbook without its main part', withPart('xl/workbook.xml', null), 'x.xlsx: there is no workbook in the file'],
    ['a sheet that is not there', withPart(SHEET, null), 'x.xlsx: the sheet "frames" is listed in the workbook and is not in it'],
    [
      'a document type declaration',
      withPart('xl/sharedStrings.xml', '<!DOCTYPE sst [<!ENTITY a "b">]><sst>&a;</sst>'),
      'x.xlsx, part xl/sharedStrings.xml: the part holds a document type declaration',
    ],
    ['markup that does not close', withSheet('<sheetData><row>'), 'x.xlsx, sheet frames: the part is not well-formed XML'],
    ['depth without end', withSheet('<sheetData>'.repeat(100)), 'x.xlsx, sheet frames: the part is nested deeper than 64 elements'],
    ['bytes that are not UTF-8', withPart('xl/styles.xml', new Uint8Array([0x3c, 0x61, 0xff])), 'x.xlsx, part xl/styles.xml: '],
    [
      'a cell at the far corner',
      withSheet('<sheetData><row r="1048576"><c r="XFD1048576"><v>1</v></c></row></sheetData>'),
      'the cell XFD1048576 holds something far from all others',
    ],
    [
      'a cell beyond the far corner',
      withSheet('<sheetData><row r="1"><c r="XFE1"><v>1</v></c></row></sheetData>'),
      'the cell "XFE1" cannot stand in row 1',
    ],
    [
      'a cell in another row than its own',
      withSheet('<sheetData><row r="1"><c r="A2"><v>1</v></c></row></sheetData>'),
      'the cell "A2" cannot stand in row 1',
    ],
    [
      'a cell twice',
      withSheet('<sheetData><row r="1"><c r="A1"><v>1</v></c><c r="A1"><v>2</v></c></row></sheetData>'),
      'the cell "A1" cannot stand in row 1',
    ],
    ['rows that go back', withSheet('<sheetData><row r="2"/><row r="2"/></sheetData>'), 'the rows do not follow each other at row 2'],
    ['a text that is not there', withSheet(rows('<c r="A1" t="s"><v>7</v></c>')), 'the cell A1 refers to text number "7"'],
    ['a text by a word', withSheet(rows('<c r="A1" t="s"><v>__proto__</v></c>')), 'the cell A1 refers to text number "__proto__"'],
    ['a number that is none', withSheet(rows('<c r="A1"><v>0x1F</v></c>')), 'the cell A1 is said to hold a number, but holds "0x1F"'],
    [
      'a kind of cell that is none',
      withSheet(rows('<c r="A1" t="constructor"><v>1</v></c>')),
      'the cell A1 is of the unknown kind "constructor"',
    ],
    ['sheets without anything in them', withSheet('<sheetData/>'), 'x.xlsx: every sheet of the workbook is empty'],
  ])('%s', (_, bytes, says) => {
    expect(() => readXlsx(bytes, 'x.xlsx')).toThrow(says);
    expect(() => readXlsx(bytes, 'x.xlsx')).toThrow(UserMistake);
  });

  it('but a false size of the sheet, formats without end and links to the outside do no harm', () => {
    const formats = Array.from(
      { length: 20_000 },
      (_, at) => `<row r="${String(at + 2)}" s="1"><c r="A${String(at + 2)}" s="0"/></row>`,
    ).join('');
    const outside = `<Relationships xmlns="http://schemas.openxmlformats.org/package/2006/relationships">
      <Relationship Id="rId1" Type="x/worksheet" Target="../../../xl/worksheets/sheet1.xml"/>
      <Relationship Id="rId9" Type="x/sharedStrings" Target="file:///etc/passwd" TargetMode="External"/></Relationships>`;
    const bytes = bookOf({
      sheets: { frames: `<dimension ref="A1:XFD1048576"/><sheetData><row r="1">${text('A1', 'frame')}</row>${formats}</sheetData>` },
      more: { 'xl/_rels/workbook.xml.rels': outside },
    });
    expect(readXlsx(bytes, 'x.xlsx')).toMatchObject([{ headers: ['frame'], rows: [] }]);
  });
});

describe('bytes changed at random', () => {
  it('are refused in a sentence or read, never anything else', () => {
    const plain = readWorkbook(FINE, 'x.xlsx');
    let refused = 0;
    fc.assert(
      fc.property(fc.array(fc.tuple(fc.nat(FINE.length - 1), fc.nat(255)), { minLength: 1, maxLength: 3 }), (changes) => {
        const copy = Buffer.from(FINE);
        for (const [at, byte] of changes) copy[at] = byte;
        try {
          // The check sums hold the content, so that what is read is what was written.
          expect(readWorkbook(copy, 'x.xlsx').sheets).toEqual(plain.sheets);
        } catch (error) {
          if (!(error instanceof UserMistake)) throw error;
          refused += 1;
        }
      }),
      { seed: 1900, numRuns: 3000 },
    );
    expect(refused).toBeGreaterThan(1000);
  });
});
