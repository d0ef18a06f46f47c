import { mkdtempSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { normaliseRecord } from '../../src/normalise/record.js';
import { readRecord } from '../../src/read/record.js';
import { readXlsx } from '../../src/read/sheet-xlsx.js';
import { understoodRecord } from '../../src/reading/index.js';
import { bookOf, rows, text } from './workbook/book-of.js';

const FRAMES = `<sheetData><row r="2">${text('A2', 'reel')}${text('B2', 'frame')}${text('C2', 'title')}${text('D2', 'date')}${text('E2', 'page')}</row>
  <row r="3">${text('A3', '0014')}<c r="B3"><v>1</v></c>${text('C3', 'tv1')}${text('D3', '1900-01-04')}${text('E3', '1-2')}</row>
  <row r="5" hidden="1">${text('B5', '2')}${text('C5', 'tv1')}${text('D5', '1900-01-04')}${text('E5', '3')}</row></sheetData>`;

describe('readXlsx', () => {
  it('gives a sheet for each tab that holds anything, with the rows as a spreadsheet program counts them', () => {
    const bytes = bookOf({ sheets: { 'reel 14': FRAMES, empty: '<sheetData/>', titles: rows(text('A1', 'id'), text('A2', 'tv1')) } });
    expect(readXlsx(bytes, 'a.xlsx')).toMatchObject([
      {
        file: 'a.xlsx',
        sheet: 'reel 14',
        headers: ['reel', 'frame', 'title', 'date', 'page'],
        rows: [
          { row: 3, cells: ['0014', '1', 'tv1', '1900-01-04', '1-2'] },
          { row: 5, cells: ['', '2', 'tv1', '1900-01-04', '3'] },
        ],
        problems: [],
        typed: { cells: [{ row: 3, column: 1, address: 'B3', kind: 'number', value: '1', format: 'General', formula: null }] },
      },
      { sheet: 'titles', rows: [{ row: 2, cells: ['tv1'] }] },
    ]);
  });

  it('warns of what a person does not see, with the address', () => {
    const hidden = rows(
      ...['frame', 'page', 'note']
        .map((head, at) => text(`${'ABC'[at] ?? ''}1`, head))
        .join('')
        .split('|'),
      text('A2', '1'),
    );
    const bytes = bookOf({
      sheets: {
        a: `<cols><col min="2" max="9" hidden="true"/></cols>${hidden}<mergeCells><mergeCell ref="A2:B2"/><mergeCell ref="A4:B4"/></mergeCells>`,
        b: FRAMES,
      },
      states: { a: 'state="veryHidden"' },
    });
    expect(readXlsx(bytes, 'x.xlsx').flatMap(({ warnings }) => warnings)).toEqual([
      'x.xlsx, sheet a: the sheet is hidden; it is read like the others.',
      'x.xlsx, sheet a: the columns B and C are hidden; what stands there is read like the rest.',
      'x.xlsx, sheet a: the ranges A2:B2 and A4:B4 are merged; only the first cell of a range counts, the others are taken as empty.',
      'x.xlsx, sheet b: the row 5 is hidden or filtered away; what stands there is read like the rest.',
    ]);
  });

  it('names columns of one name and cells beside the columns', () => {
    const bytes = bookOf({ sheets: { a: rows(text('A1', 'Frame') + text('C1', 'frame '), text('A2', '1') + text('F2', 'sum')) } });
    expect(readXlsx(bytes, 'x.xlsx')[0]?.problems).toEqual([
      {
        file: 'x.xlsx',
        sheet: 'a',
        row: 1,
        column: null,
        says: 'the columns A and C are both called "frame"; rename or remove one of them.',
      },
      {
        file: 'x.xlsx',
        sheet: 'a',
        row: 2,
        column: null,
        says: 'the cell F2 holds "sum", but its column has no name; name the column, or empty the cell.',
      },
    ]);
  });
});

describe('a record in a workbook', () => {
  it('is read with the sheets of titles and reels in it, and places name sheet and file', async () => {
    const path = join(mkdtempSync(join(tmpdir(), 'book-')), 'record.xlsx');
    const sheets = {
      'reel 14': FRAMES,
      titles: rows(text('A1', 'id') + text('B1', 'name'), text('A2', 'tv1') + text('B2', 'Tarn Valley Beacon')),
      reels: rows(text('A1', 'number') + text('B1', 'position'), text('A2', '0014') + text('B2', '2B')),
      'what to do': rows(text('A1', 'Fill in every frame.')),
    };
    writeFileSync(path, bookOf({ sheets }));
    const { record, side, problems, warnings } = understoodRecord(await readRecord([path]));
    expect(problems).toEqual([]);
    expect(record).toMatchObject({
      titles: [{ id: 'tv1', name: 'Tarn Valley Beacon' }],
      reels: [
        {
          number: '0014',
          position: '2B',
          frames: [
            { frame: '1', page: '1-2' },
            { frame: '2', page: '3' },
          ],
        },
      ],
    });
    expect(JSON.stringify(side)).toContain('{"sheet":"reel 14 (record.xlsx)","row":5}');
    expect(warnings).toEqual([
      'record.xlsx, sheet reel 14: the row 5 is hidden or filtered away; what stands there is read like the rest.',
      'record.xlsx, sheet what to do: its columns are those of no sheet of a record, so the sheet is not read.',
    ]);
  });

  it('may have a sheet for each reel, whose name is the number', () => {
    const reel = (page: string): string =>
      rows(
        ['frame', 'title', 'date', 'page'].map((head, at) => text(`${'ABCD'[at] ?? ''}1`, head)).join(''),
        text('A2', '1') + text('B2', 'tv1') + text('C2', '1900-01-04') + text('D2', page),
      );
    const { record } = normaliseRecord({
      sheets: readXlsx(bookOf({ sheets: { 'reel 14': reel('1'), '0015': reel('2') } }), 'x.xlsx'),
      records: [],
    });
    expect(record.reels.map(({ number, frames }) => [number, frames[0]?.page])).toEqual([
      ['14', '1'],
      ['0015', '2'],
    ]);
  });

  it('may be an issue sheet; a workbook without any sheet of a record is a problem', () => {
    const issue = rows(
      ['first frame', 'title', 'date', 'pages'].map((head, at) => text(`${'ABCD'[at] ?? ''}1`, head)).join(''),
      `<c r="A2"><v>4</v></c>${text('B2', 'tv1')}${text('C2', '1900-01-04')}${text('D2', '1-2')}`,
    );
    const understood = (sheets: Record<string, string>) => normaliseRecord({ sheets: readXlsx(bookOf({ sheets }), 'x.xlsx'), records: [] });
    expect(understood({ '14': issue }).record.reels[0]?.frames.map(({ frame, page }) => [frame, page])).toEqual([
      ['4', '1'],
      ['5', '2'],
    ]);
    expect(understood({ a: rows(text('A1', 'sum')), titles: rows(text('A1', 'id'), text('A2', 'x')) }).problems[0]).toMatchObject({
      sheet: 'a',
      row: 1,
    });
  });

  it('is taken from a folder, without what a spreadsheet program leaves beside an open workbook', async () => {
    const folder = mkdtempSync(join(tmpdir(), 'book-'));
    writeFileSync(join(folder, 'a.xlsx'), bookOf({ sheets: { '14': FRAMES } }));
    writeFileSync(join(folder, '~$a.xlsx'), 'someone');
    expect((await readRecord([folder])).inputs.map(({ name }) => name)).toEqual(['a.xlsx']);
  });
});
