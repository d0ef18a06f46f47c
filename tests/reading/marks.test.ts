import { strToU8, zipSync } from 'fflate';
import { describe, expect, it } from 'vitest';
import type { ReadingFile } from '../../src/model/reading.js';
import type { Workbook, WrittenGrid } from '../../src/model/written-grid.js';
import { readOds } from '../../src/read/ods/index.js';
import { readWorkbook } from '../../src/read/workbook/index.js';
import { understoodRecord } from '../../src/reading/index.js';
import { NO_READING, questionsOf, settledReading } from '../../src/reading/propose/index.js';
import { bookOf, rows } from '../read/workbook/book-of.js';

const SPREADSHEET = 'http://schemas.openxmlformats.org/spreadsheetml/2006/main';
const RELATIONS = 'http://schemas.openxmlformats.org/package/2006/relationships';
const HEADS = ['reel', 'frame', 'title', 'date', 'page', 'note'];
const LINES = [
  ['14', '1', 'x1', '1899-01-04', '1', ''],
  ['14', '2', 'x1', '1899-01-04', '2', 'badly lit'],
  ['14', '3', 'x1', '1899-01-04', '3', ''],
  ['14', '4', 'x1', '1899-01-04', '4', ''],
];

/** Styles: 1 red text, 2 struck through, 3 black text written out (ECMA-376 part 1, section 18.8). */
const STYLES = `<fonts><font><sz val="11"/><color theme="1"/></font><font><color rgb="FFFF0000"/></font><font><strike/></font><font><strike val="0"/><color rgb="FF000000"/></font></fonts>
  <cellXfs><xf numFmtId="0" fontId="0"/><xf numFmtId="0" fontId="1"/><xf numFmtId="0" fontId="2"/><xf numFmtId="0" fontId="3"/></cellXfs>`;
const COMMENTS = `<comments xmlns="${SPREADSHEET}"><authors><author>Ada Pell</author></authors><commentList>
  <comment ref="E2" authorId="0"><text><r><rPr><b/></rPr><t>Ada Pell:</t></r><r><t xml:space="preserve">
printed as 7</t></r></text></comment>
  <comment ref="F5" authorId="0"><text><t>[Threaded comment]

Your version of Excel allows you to read this threaded comment.

Comment:
    do not scan</t></text></comment></commentList></comments>`;

/** Row 3 in red, row 4 struck through, in row 5 one cell struck through; comments on E2 and on F5, which is empty. */
function xlsx(): Workbook {
  const styleOf = (row: number, column: number): number => (row === 3 ? 1 : row === 4 ? 2 : row === 5 && column === 2 ? 2 : 3);
  const line = (texts: readonly string[], row: number): string =>
    texts
      .map((text, at) =>
        text === ''
          ? ''
          : `<c r="${'ABCDEF'.charAt(at)}${String(row)}" s="${String(styleOf(row, at))}" t="inlineStr"><is><t>${text}</t></is></c>`,
      )
      .join('');
  return readWorkbook(
    bookOf({
      sheets: { 'reel 14': rows(...[HEADS, ...LINES].map((texts, at) => line(texts, at + 1))) },
      styles: STYLES,
      more: {
        'xl/worksheets/_rels/sheet1.xml.rels': `<Relationships xmlns="${RELATIONS}"><Relationship Id="rId1" Type="http://schemas.openxmlformats.org/officeDocument/2006/relationships/comments" Target="../comments1.xml"/></Relationships>`,
        'xl/comments1.xml': COMMENTS,
      },
    }),
    'film.xlsx',
  );
}

/** The same as an OpenDocument spreadsheet (OpenDocument 1.3, part 3, sections 14.3 and 20.376). */
function ods(): Workbook {
  const names = ['office', 'table', 'text', 'style'].map((name) => `xmlns:${name}="urn:oasis:names:tc:opendocument:xmlns:${name}:1.0"`);
  const fo = 'xmlns:fo="urn:oasis:names:tc:opendocument:xmlns:xsl-fo-compatible:1.0" xmlns:dc="http://purl.org/dc/elements/1.1/"';
  const style = (name: string, properties: string): string =>
    `<style:style style:name="${name}" style:family="table-cell"><style:text-properties ${properties}/></style:style>`;
  const note = (text: string): string =>
    `<office:annotation><dc:creator>Ada Pell</dc:creator><dc:date>2031-01-01</dc:date><text:p><text:span>${text}</text:span></text:p></office:annotation>`;
  const line = (texts: readonly string[], row: number): string =>
    `<table:table-row>${texts
      .map((text, at) => {
        const said = row === 2 && at === 4 ? note('printed as 7') : row === 5 && at === 5 ? note('do not scan') : '';
        const look = row === 3 ? 'red' : row === 4 || (row === 5 && at === 2) ? 'struck' : 'black';
        if (text === '') return `<table:table-cell>${said}</table:table-cell>`;
        return `<table:table-cell table:style-name="${look}" office:value-type="string">${said}<text:p>${text}</text:p></table:table-cell>`;
      })
      .join('')}</table:table-row>`;
  const styles =
    style('red', 'fo:color="#ff0000"') +
    style('black', 'fo:color="#000000" style:text-line-through-style="none"') +
    style('struck', 'style:text-line-through-style="solid"');
  const content = `<?xml version="1.0" encoding="UTF-8"?><office:document-content ${names.join(' ')} ${fo}><office:automatic-styles>${styles}</office:automatic-styles><office:body><office:spreadsheet><table:table table:name="reel 14">${[HEADS, ...LINES].map((texts, at) => line(texts, at + 1)).join('')}</table:table></office:spreadsheet></office:body></office:document-content>`;
  const bytes = zipSync({ mimetype: strToU8('application/vnd.oasis.opendocument.spreadsheet'), 'content.xml': strToU8(content) });
  return readOds(Buffer.from(bytes), 'film.ods');
}

const gridsOf = ({ sheets, date1904, program }: Workbook, reading: number | null): readonly WrittenGrid[] =>
  sheets.map((sheet) => ({ file: 'film', sheet, book: { date1904, program }, reading }));

function understood(book: Workbook, reading: ReadingFile | null) {
  const readings = reading === null ? [] : [{ name: 'film.reading.json', reading }];
  return understoodRecord({ grids: gridsOf(book, reading === null ? null : 0), readings, remarks: [], records: [], inputs: [] });
}

describe.each([
  ['XLSX', xlsx],
  ['ODS', ods],
])('what people mark in a workbook beside its text, in %s', (_, book) => {
  it('is asked: rows struck through and coloured text never taken unasked, comments once for all', () => {
    const questions = questionsOf(gridsOf(book(), null), NO_READING);
    expect(questions.map(({ about, of, proposed, sure }) => [about, of, proposed, sure])).toEqual([
      ['colours', 'font FF0000', null, null],
      ['struck', 'rows', 'leave out', null],
      ['comments', 'cells', 'notes', 'notes'],
    ]);
    expect(questions.map(({ asks }) => asks)).toEqual([
      'A row is written in red (FF0000): sheet "reel 14", row 3. What does that say of it?',
      'A row is struck through: sheet "reel 14", row 4. Is it to be left out?',
      '2 cells have comments, the first in sheet "reel 14", row 2, cell E2: "printed as 7". Are comments to be read as notes?',
    ]);
  });

  it('a comment that is read may state a fact, which is asked like that of a note', () => {
    const settled = settledReading(gridsOf(book(), null), NO_READING);
    expect(settled.comments).toBe('notes');
    expect(questionsOf(gridsOf(book(), null), settled).map(({ about, of }) => `${about} ${of}`)).toEqual([
      'colours font FF0000',
      'struck rows',
      'phrases do not scan',
      'phrases printed as …',
    ]);
  });

  it('is read as it was answered', () => {
    const { record, warnings } = understood(book(), {
      ...NO_READING,
      comments: 'notes',
      struck: 'leave out',
      colours: { 'font FF0000': 'held back' },
      phrases: { 'printed as': 'fact', 'not to be delivered': 'fact' },
    });
    expect(record.reels[0]?.frames.map(({ frame, deliver, pagePrinted, note }) => [frame, deliver, pagePrinted, note])).toEqual([
      ['1', undefined, '7', 'printed as 7'],
      ['2', false, undefined, 'badly lit'],
      ['4', false, undefined, 'do not scan'],
    ]);
    expect(warnings).toContain('film, sheet reel 14, row 4: "14" is struck through and left out.');
    expect(warnings).toContain('film, sheet reel 14: 2 cells have comments, the first is E2; comments are read as notes.');
  });

  it('is said, where nothing was answered, and changes nothing', () => {
    const { record, warnings } = understood(book(), null);
    expect(record.reels[0]?.frames.map(({ frame, deliver, note }) => [frame, deliver, note])).toEqual([
      ['1', undefined, undefined],
      ['2', undefined, 'badly lit'],
      ['3', undefined, undefined],
      ['4', undefined, undefined],
    ]);
    expect(warnings).toEqual([
      'film, sheet reel 14: 2 cells have comments, the first is E2; comments are not read.',
      'film, sheet reel 14: 5 cells are struck through with their rows, the first is A4; such rows are read as they stand.',
      'film, sheet reel 14: the cell C5 is struck through; what stands there is read all the same.',
      'film, sheet reel 14: 6 cells are written in another colour, the first is A3; the colour says nothing that is read.',
    ]);
  });
});
