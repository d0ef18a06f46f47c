import { writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { expect } from 'vitest';
import { newFolder } from '../cli/command.js';
import { bookOf, rows, text } from '../read/workbook/book-of.js';
import { type Ending, limited } from './limits.js';
import type { Row } from './row.js';

export const kept = (name: string, content: string | Buffer): string => {
  const path = join(newFolder(), name);
  writeFileSync(path, content);
  return path;
};

/** The record in a sheet, as JSON. */
const converted = async (name: string, content: string | Buffer): Promise<Ending> =>
  limited(['collation', 'convert', kept(name, content), '--to', 'json']);

const LINES = ['reel,frame,title,date,page', '0012,1,sn99000001,1888-01-02,1', '0012,2,sn99000001,1888-01-02,1e3', ''];
const CSV = LINES.join('\n');

/** A sheet that is read as the plain one is. */
function same(code: string, name: string, content: string | Buffer): Row {
  return {
    code,
    name,
    status: 0,
    says: '"number": "0012"',
    run: async () => converted('reel.csv', content),
    holds: async ({ stdout }) => {
      expect(stdout).toBe((await converted('reel.csv', CSV)).stdout);
    },
  };
}

function refused(code: string, name: string, content: string | Buffer, says: string, file = 'reel.csv'): Row {
  return {
    code,
    name,
    status: 3,
    says,
    run: async () => converted(file, content),
    holds: ({ stdout }) => {
      expect(stdout).toBe('');
    },
  };
}

const withSheet = (inner: string): Buffer => bookOf({ sheets: { frames: inner } });
/** A megabyte of zip that swells to a gigabyte. */
const bomb = (): Buffer => withSheet(rows(text('A1', ' '.repeat(120_000_000))));

/** A workbook with the size of its sheet changed in the list at its end (PKWARE APPNOTE 6.3.10, section 4.3.12). */
function lying(): Buffer {
  const bytes = Buffer.from(bomb());
  bytes.writeUInt32LE(1000, bytes.lastIndexOf('xl/worksheets/sheet1.xml') - 46 + 24);
  return bytes;
}

export const SHEET_ROWS: readonly Row[] = [
  same('C1', 'semicolons between cells', CSV.replaceAll(',', ';')),
  same('C1', 'tabs between cells', CSV.replaceAll(',', '\t')),
  same('C1', 'a first line that names the separator', `sep=;\n${CSV.replaceAll(',', ';')}`),
  same('C1', 'UTF-16 as spreadsheet programs save it', Buffer.from(`\ufeff${CSV.replaceAll(',', '\t')}`, 'utf16le')),
  same('C2', 'three kinds of line ends in one file', `${LINES[0] ?? ''}\r\n${LINES[1] ?? ''}\r${LINES[2] ?? ''}\n`),
  refused(
    'C3',
    'a quotation mark that is never closed',
    `${CSV}0012,3,sn99000001,"1888-01-02,2\n`,
    'row 4: a quotation mark is opened and never closed',
  ),
  refused('C3', 'text behind a quotation mark', `${CSV}"0012"x,3,,,\n`, 'a quotation mark stands where it cannot stand'),
  {
    code: 'C4',
    name: 'more cells than columns: kept, and said',
    status: 0,
    says: 'the column number 6 (without a name) means nothing here and is kept as a note',
    run: async () => converted('reel.csv', `${CSV}0012,3,sn99000001,1888-01-02,2,surplus\n`),
    holds: ({ stdout }) => {
      expect(stdout).toContain('"note": "surplus"');
    },
  },
  refused(
    'C4',
    'fewer cells than columns, so that a page has no day',
    `${CSV}0012,3\n`,
    'row 4, column date: a page that is delivered has no date',
  ),
  refused('C5', 'two columns of one name', CSV.replace('page', 'date'), 'mean the same; keep one of them'),
  same(
    'C6',
    'an empty head, heads in capitals with blanks, and rows without anything',
    `${CSV.replace('reel,frame', ' Reel , FRAME ').replaceAll('\n', ',\n')},,,,,\n,,,,,\n`,
  ),
  refused('C6', 'heads and no rows', `${LINES[0] ?? ''}\n`, 'no rows'),
  refused('C6', 'an empty file', '', 'nothing stands in the file'),
  {
    ...same('C7', '0012, 1e3 and days stay text', CSV),
    holds: ({ stdout }) => {
      expect(stdout).toContain('"page": "1e3"');
      expect(stdout).toContain('"date": "1888-01-02"');
    },
  },
  { ...refused('C8', 'a row of 60 MB', `${CSV}"${'x'.repeat(60_000_000)}"\n`, 'longer than 1000000 characters'), slow: true },
  {
    ...refused('C8', 'a quotation mark open for 50 MB', `${CSV}"${'x,y\n'.repeat(12_500_000)}`, 'longer than 1000000 characters'),
    slow: true,
  },
  { ...refused('C8', 'a million columns', `${'a,'.repeat(400_000)}\n1\n`, 'columns'), slow: true },
  {
    ...refused(
      'C8',
      'a million rows',
      `${LINES[0] ?? ''}\n${Array.from({ length: 1_000_000 }, (_, at) => `1,${String(at + 1)},sn99000001,1888-01-02,1`).join('\n')}\n`,
      'more than 200000 rows',
    ),
    slow: true,
  },
  {
    ...refused(
      'C8',
      'a cell of pages that makes half a million frames',
      `reel,title,date,pages\n1,sn99000001,1888-01-02,"${Array.from({ length: 1400 }, () => '1-400').join(',')}"\n`,
      'names more than 5000 frames',
    ),
  },
  {
    ...refused(
      'C8',
      'pages that make four million frames in all',
      `reel,title,date,pages\n${Array.from({ length: 1000 }, (_, at) => `1,sn99000001,18${String(50 + (at % 50))}-01-0${String((at % 9) + 1)},"${Array.from({ length: 10 }, () => '1-400').join(',')}"`).join('\n')}\n`,
      'makes more than 200000 frames',
    ),
    slow: true,
  },
  {
    code: 'C8',
    name: '60,000 frames of one issue',
    status: 0,
    says: '1 issue',
    slow: true,
    run: async () =>
      limited([
        'collation',
        'check',
        kept(
          'reel.csv',
          `reel,frame,title,date,page\n${Array.from({ length: 60_000 }, (_, at) => `1,${String(at + 1)},sn99000001,1888-01-02,${String(at + 1)}`).join('\n')}\n`,
        ),
      ]),
  },
  refused(
    'C9',
    'a workbook under the name of a text file',
    bookOf({ sheets: { frames: rows(text('A1', 'frame')) } }),
    'a packed workbook under the name of a text file',
  ),
  refused('Z1', 'a workbook that swells to a gigabyte', bomb(), 'would swell to', 'reel.xlsx'),
  refused('Z1', 'a workbook that lies about its size', lying(), 'damaged, or larger than it says', 'reel.xlsx'),
  refused(
    'Z1',
    'a cell in the last row and column there is',
    withSheet('<sheetData><row r="1048576"><c r="XFD1048576"><v>1</v></c></row></sheetData>'),
    'far from all others',
    'reel.xlsx',
  ),
  refused(
    'Z1',
    'a document type in a workbook',
    bookOf({
      sheets: { frames: rows(text('A1', 'frame')) },
      more: { 'xl/sharedStrings.xml': '<!DOCTYPE sst [<!ENTITY a "b">]><sst>&a;</sst>' },
    }),
    'document type declaration',
    'reel.xlsx',
  ),
  refused('Z1', 'a text under the name of a workbook', CSV, 'plain text under the name of a workbook', 'reel.xlsx'),
];
