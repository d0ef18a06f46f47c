import { strToU8, zipSync } from 'fflate';
import { describe, expect, it } from 'vitest';
import type { ReadingFile } from '../../src/model/reading.js';
import type { Workbook, WrittenGrid } from '../../src/model/written-grid.js';
import { readOds } from '../../src/read/ods/index.js';
import { readWorkbook } from '../../src/read/workbook/index.js';
import { understoodRecord } from '../../src/reading/index.js';
import { NO_READING, questionsOf } from '../../src/reading/propose/index.js';
import { bookOf, rows } from '../read/workbook/book-of.js';

const HEADS = ['reel', 'frame', 'title', 'date', 'page'];

/** A text whose part between tildes is struck through. */
const parts = (text: string): readonly (readonly [text: string, struck: boolean])[] =>
  text.split('~').map((part, at): readonly [string, boolean] => [part, at % 2 === 1]);

const LINES = [
  HEADS,
  ['14', '1', 'x1', '1899-01-04', '~2~ 1'],
  ['14', '2', 'x1', '1899-01-04', '2'],
  ['14', '3', 'x1', '1899-01-04', '3~a~'],
];

/** Runs of a text (ECMA-376 part 1, section 18.4.4), in the cell itself or shared. */
function xlsx(shared: boolean): Workbook {
  const strings: string[] = [];
  const runs = (text: string): string =>
    parts(text)
      .map(([part, struck]) => `<r><rPr>${struck ? '<strike/>' : '<strike val="0"/><b/>'}</rPr><t xml:space="preserve">${part}</t></r>`)
      .join('');
  const cell = (text: string, address: string): string => {
    if (!shared) return `<c r="${address}" t="inlineStr"><is>${runs(text)}</is></c>`;
    strings.push(runs(text));
    return `<c r="${address}" t="s"><v>${String(strings.length - 1)}</v></c>`;
  };
  const lines = LINES.map((texts, row) => texts.map((text, at) => cell(text, `${'ABCDE'.charAt(at)}${String(row + 1)}`)).join(''));
  return readWorkbook(bookOf({ sheets: { 'reel 14': rows(...lines) }, strings }), 'film.xlsx');
}

/** Spans of a text (OpenDocument 1.3, part 3, section 6.1.7). */
function ods(): Workbook {
  const names = ['office', 'table', 'text', 'style'].map((name) => `xmlns:${name}="urn:oasis:names:tc:opendocument:xmlns:${name}:1.0"`);
  const spans = (text: string): string =>
    parts(text)
      .map(([part, struck]) => `<text:span text:style-name="${struck ? 'struck' : 'plain'}">${part}</text:span>`)
      .join('');
  const styles =
    '<style:style style:name="plain" style:family="text"><style:text-properties style:text-line-through-style="none"/></style:style>' +
    '<style:style style:name="struck" style:family="text"><style:text-properties style:text-line-through-style="solid"/></style:style>';
  const lines = LINES.map(
    (texts) =>
      `<table:table-row>${texts.map((text) => `<table:table-cell office:value-type="string"><text:p>${spans(text)}</text:p></table:table-cell>`).join('')}</table:table-row>`,
  );
  const content = `<?xml version="1.0" encoding="UTF-8"?><office:document-content ${names.join(' ')}><office:automatic-styles>${styles}</office:automatic-styles><office:body><office:spreadsheet><table:table table:name="reel 14">${lines.join('')}</table:table></office:spreadsheet></office:body></office:document-content>`;
  const bytes = zipSync({ mimetype: strToU8('application/vnd.oasis.opendocument.spreadsheet'), 'content.xml': strToU8(content) });
  return readOds(Buffer.from(bytes), 'film.ods');
}

const gridsOf = ({ sheets, date1904, program }: Workbook, reading: number | null): readonly WrittenGrid[] =>
  sheets.map((sheet) => ({ file: 'film', sheet, book: { date1904, program }, reading }));

function pagesBy(book: Workbook, reading: ReadingFile) {
  const readings = [{ name: 'film.reading.json', reading }];
  const { record, warnings } = understoodRecord({ grids: gridsOf(book, 0), readings, remarks: [], records: [], inputs: [] });
  return { pages: record.reels[0]?.frames.map(({ page }) => page), warnings: warnings.join('\n') };
}

describe.each([
  ['XLSX, in the cell', () => xlsx(false)],
  ['XLSX, shared', () => xlsx(true)],
  ['ODS', ods],
])('what is struck through in a part of a cell, in %s', (_, book) => {
  it('is asked about', () => {
    expect(questionsOf(gridsOf(book(), null), NO_READING).map(({ about, asks, sure }) => [about, asks, sure])).toEqual([
      ['struck', 'Parts of 2 cells are struck through, the first is "2 1" in sheet "reel 14", row 2. Are they to be left out?', null],
    ]);
  });

  it('is read as it was answered, and said', () => {
    const out = pagesBy(book(), { ...NO_READING, struck: 'leave out' });
    expect(out.pages).toEqual(['1', '2', '3']);
    expect(out.warnings).toContain('2 cells are struck through in part, the first is E2; such parts are left out.');
    const kept = pagesBy(book(), { ...NO_READING, struck: 'keep' });
    expect(kept.pages).toEqual(['2 1', '2', '3a']);
    expect(kept.warnings).toContain('all that stands there is read.');
  });
});
