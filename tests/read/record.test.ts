import { mkdirSync, mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, describe, expect, it } from 'vitest';
import { readRecord } from '../../src/read/record.js';
import { readCsv } from '../../src/read/sheet-csv.js';

const root = mkdtempSync(join(tmpdir(), 'record-'));
afterAll(() => rmSync(root, { recursive: true }));

let count = 0;
/** A new folder with these files. */
function folder(files: Readonly<Record<string, string | Buffer>>): string {
  const path = join(root, String((count += 1)));
  mkdirSync(path);
  for (const [name, content] of Object.entries(files)) writeFileSync(join(path, name), content);
  return path;
}

const JSON_RECORD = JSON.stringify({ format: 'reeltally/collation-record/2', titles: [], reels: [] });
const CELLS = [
  ['reel', 'frame', 'note'],
  ['0014', '1', 'café; "closed"'],
  ['0014', '2', ''],
];

/** The sheet as text with a separator and an end of line. */
const text = (separator: string, end = '\r\n'): string =>
  CELLS.map((row) => row.map((cell) => (/["; ]/.test(cell) ? `"${cell.replaceAll('"', '""')}"` : cell)).join(separator)).join(end);

const utf16 = (plain: string, mark: string): Buffer => Buffer.from(mark + plain, 'utf16le');

describe('readCsv', () => {
  it('says what is not UTF-8: Windows-1252 as spreadsheet programs save it, and UTF-16', () => {
    // unicode.org, CP1252.TXT: 0x85 is an ellipsis, 0x96 a dash between figures.
    const { rows, warnings } = readCsv(Buffer.from('a,b\r\n1,caf\xe9 \x851\x962\r\n', 'latin1'), 'x.csv');
    expect(rows[0]?.cells[1]).toBe('café …1–2');
    expect(warnings).toEqual(['x.csv: the text is read as Windows-1252.']);
  });

  it.each([
    ['commas', Buffer.from(text(','))],
    ['semicolons', Buffer.from(text(';'))],
    ['tabs', Buffer.from(text('\t'))],
    ['a byte order mark', Buffer.from(`\ufeff${text(',')}`)],
    ['a line that names the separator', Buffer.from(`sep=;\r\n${text(';')}`)],
    ['a byte order mark and a line that names a bar', Buffer.from(`\ufeffsep=|\n${text('|')}`)],
    ['UTF-16 of little end', utf16(text('\t'), '\ufeff')],
    ['UTF-16 of big end', utf16(text('\t'), '\ufeff').swap16()],
    ['UTF-16 without a mark', utf16(text('\t'), '')],
    ['UTF-16 of big end without a mark', utf16(text('\t'), '').swap16()],
    ['line feeds', Buffer.from(text(',', '\n'))],
    ['carriage returns', Buffer.from(text(',', '\r'))],
    ['empty lines at the end', Buffer.from(`${text(',')}\r\n,,\r\n\r\n`)],
  ])('reads %s', (_, bytes) => {
    expect(readCsv(bytes, 'reel.csv')).toEqual({
      file: 'reel.csv',
      sheet: 'reel',
      headers: CELLS[0],
      rows: [
        { row: 2, cells: CELLS[1] },
        { row: 3, cells: CELLS[2] },
      ],
      problems: [],
      warnings: bytes.includes(0) ? ['reel.csv: the text is read as UTF-16.'] : [],
    });
  });

  it('keeps every cell as text', () => {
    const { rows } = readCsv(Buffer.from('a,b,c,d,e\r\n0012,1e3,1888-01-02,TRUE,1/2'), 'x.csv');
    expect(rows[0]?.cells).toEqual(['0012', '1e3', '1888-01-02', 'TRUE', '1/2']);
  });

  it('counts rows as a spreadsheet program does, mixed ends of lines, empty rows and line breaks in cells included', () => {
    const { rows } = readCsv(Buffer.from('a,b\r\n"one\nrow",2\n\r3,\n,,\r\n4,5'), 'x.csv');
    expect(rows.map(({ row, cells }) => [row, cells[0]])).toEqual([
      [2, 'one\nrow'],
      [4, '3'],
      [6, '4'],
    ]);
  });

  it('says which rows are short', () => {
    const short = (rows: number): readonly string[] => readCsv(Buffer.from(`a,b\n${'1\n'.repeat(rows)}`), 'x.csv').warnings;
    expect(short(1)).toEqual(['x.csv: row 2 has fewer cells than there are columns; the missing ones are taken as empty.']);
    expect(short(7)).toEqual([
      'x.csv: rows 2, 3, 4, 5, 6 and 2 more have fewer cells than there are columns; the missing ones are taken as empty.',
    ]);
  });

  it.each<[string, Buffer | string, string]>([
    ['an empty file', '', 'x.csv: the first row is empty'],
    ['an empty first row', '\n1,2', 'x.csv: the first row is empty'],
    ['a quotation mark that is never closed', 'a,b\n1,"2\n3,4\n', 'x.csv, row 2: a quotation mark is opened and never closed'],
    ['text behind a quotation mark', 'a,b\n1,"2"3\n', 'x.csv, line 2: a quotation mark stands where it cannot stand'],
    ['a quotation mark inside a cell', 'a,b\n1,2"3\n', 'x.csv, line 2: a quotation mark stands where it cannot stand'],
    ['the same place below a line that names the separator', 'sep=,\na,b\n1,2"3\n', 'x.csv, line 3: a quotation mark'],
    ['more cells than columns', 'a,b\n1,2,,3\n', 'x.csv, row 2: there are more cells than column names; the first one too many holds "3"'],
    ['two columns of one name', 'Page,date,PAGE \n1,2,3\n', 'x.csv, row 1: the columns 1 and 3 are both called "PAGE"'],
    ['a row without end', `a,b\n"${'x'.repeat(1_100_000)}"\n`, 'longer than 1000000 characters'],
    ['rows without end', `a,b\n${'1,2\n'.repeat(200_001)}`, 'x.csv: there are more than 200000 rows'],
    ['columns without end', `a${',b'.repeat(1200).replaceAll('b', '')}\n1`, 'there are 1201 columns'],
    ['a workbook', Buffer.from([0x50, 0x4b, 3, 4, 20, 0]), 'x.csv: this is a packed workbook under the name of a text file'],
    ['an old workbook', Buffer.from([0xd0, 0xcf, 0x11, 0xe0, 0xa1]), 'x.csv: this is a workbook of an old spreadsheet format'],
    [
      'bytes of no encoding',
      Buffer.from('a,b\r\n1,caf\xe9\x81\r\n', 'latin1'),
      'x.csv, line 2: the file is neither UTF-8 nor Windows-1252 text (byte 11); save it again as "CSV UTF-8"',
    ],
    ['half a UTF-16 character', Buffer.from([0xff, 0xfe, 0x61, 0, 0xd8]), 'x.csv: the file begins as UTF-16 text, but is none'],
    ['a NUL character', 'a,b\n1,2\0\n', 'x.csv, line 2: a NUL character stands there'],
  ])('refuses %s', (_, content, says) => {
    expect(() => readCsv(Buffer.from(content), 'x.csv')).toThrow(says);
  });
});

describe('readRecord', () => {
  it('takes the sheets and records of a folder in the order of their names and leaves the rest', async () => {
    const path = folder({
      'b.csv': 'frame\n1',
      'a.json': JSON_RECORD,
      'C.TSV': 'frame\tpage\n1\t2',
      'notes.txt': 'x',
      '.hidden.csv': 'x',
      'photo.jpg': 'x',
    });
    mkdirSync(join(path, 'more.csv'));
    const { grids, records, inputs } = await readRecord([path]);
    expect(grids.map(({ file, sheet: { name, rows } }) => [file, name, rows[0]?.cells.map(({ value }) => value)])).toEqual([
      ['C.TSV', 'C', ['frame', 'page']],
      ['b.csv', 'b', ['frame']],
    ]);
    expect(records.map(({ name }) => name)).toEqual(['a.json']);
    expect(inputs.map(({ role, name }) => [role, name])).toEqual([
      ['collation', 'C.TSV'],
      ['collation', 'a.json'],
      ['collation', 'b.csv'],
    ]);
  });

  it('takes the sheets of titles and reels beside a sheet, each once', async () => {
    const path = folder({ 'reel-1.csv': 'frame\n1', 'reel-2.csv': 'frame\n1', 'Titles.csv': 'id\nx', 'reels.csv': 'number\n1' });
    const names = async (...files: string[]): Promise<string[]> =>
      (await readRecord(files.map((file) => join(path, file)))).grids.map(({ file }) => file);
    expect(await names('reel-2.csv')).toEqual(['reel-2.csv', 'Titles.csv', 'reels.csv']);
    expect(await names('reel-2.csv', 'reel-1.csv', './reels.csv')).toEqual(['reel-2.csv', 'reel-1.csv', 'reels.csv', 'Titles.csv']);
  });

  it('says the digest of the bytes that were read', async () => {
    // FIPS 180-2, appendix B.1: SHA-256 of "abc".
    const { inputs } = await readRecord([join(folder({ 'abc.csv': 'abc' }), 'abc.csv')]);
    expect(inputs[0]?.sha256).toBe('ba7816bf8f01cfea414140de5dae2223b00361a396177a9cb410ff61f20015ad');
  });

  it.each([
    ['a folder without sheets', folder({ 'x.txt': 'x' }), 'holds no .csv, .tsv, .xlsx, .ods or .json file'],
    ['a file that is not there', join(root, 'nothing.csv'), 'there is no such file'],
    ['text named as a workbook', join(folder({ 'x.xlsx': 'x' }), 'x.xlsx'), 'this is plain text under the name of a workbook'],
    ['JSON of another kind', join(folder({ 'x.json': '{}' }), 'x.json'), 'does not say what it is'],
    [
      'JSON with a name twice',
      join(folder({ 'x.json': JSON_RECORD.replace('"titles":[]', '"titles":[],"titles":[]') }), 'x.json'),
      'titles',
    ],
  ])('refuses %s', async (_, path, says) => {
    await expect(readRecord([path])).rejects.toThrow(says);
    await expect(readRecord([path])).rejects.toMatchObject({ name: 'UserMistake' });
  });
});
