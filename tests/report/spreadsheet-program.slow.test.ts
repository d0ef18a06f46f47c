import { spawnSync } from 'node:child_process';
import { mkdtempSync, readFileSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { parse } from 'csv-parse/sync';
import { describe, expect, it } from 'vitest';
import { readAnswerFiles } from '../../src/acts/inputs/answer-files.js';
import { convertToWorkbook } from '../../src/collation/convert.js';
import type { Findings } from '../../src/model/findings.js';
import { problemInWords } from '../../src/normalise/by-cause.js';
import { normaliseRecord } from '../../src/normalise/record.js';
import { readXlsx } from '../../src/read/sheet-xlsx.js';
import { listCells, listRows } from '../../src/report/discrepancies.js';
import { render } from '../../src/report/index.js';
import { shownLines, shownText } from '../../src/report/xlsx/cell-text.js';
import { writeTables } from '../../src/report/xlsx/tables.js';
import { demoRecord } from '../forge/demonstration.js';
import { EXAMPLE } from './example.js';
import { HOSTILE_RESULT } from './hostile.js';

// LibreOffice reads and writes workbooks with code that has nothing in common with ours. `.ci/run` installs it; elsewhere these tests run where it is there.
const found = spawnSync('soffice', ['--version'], { encoding: 'utf8' }).status === 0;
const folder = mkdtempSync(join(tmpdir(), 'reeltally-office-'));

/** Opens a file in LibreOffice and saves it in another form; gives the path of a file made. */
function saved(name: string, bytes: Uint8Array | string, to: string, made: string): string {
  writeFileSync(join(folder, name), bytes);
  const { stderr } = spawnSync(
    'soffice',
    [
      '--headless',
      `-env:UserInstallation=file://${folder}/profile`,
      '--convert-to',
      to,
      '--outdir',
      join(folder, 'out'),
      join(folder, name),
    ],
    { encoding: 'utf8' },
  );
  expect(stderr).not.toContain('Error');
  return join(folder, 'out', made);
}

/** Commas, double quotes, UTF-8, every text quoted, as shown; -1 writes each sheet to a file of its own (LibreOffice help, "Filter Options for CSV"). */
const CSV = 'csv:Text - txt - csv (StarCalc):44,34,76,1,,0,true,true,false,false,false,-1';

describe.runIf(found)('in LibreOffice', () => {
  it.each<[string, Findings]>([
    ['an example', EXAMPLE],
    ['hostile', HOSTILE_RESULT],
  ])('the list for the vendor shows every text as it is: %s', async (name, result) => {
    const path = saved(`${name}.xlsx`, await render(result, 'xlsx'), CSV, `${name}-discrepancies.csv`);
    const cells: string[][] = parse(readFileSync(path), { bom: true, record_delimiter: '\n', relax_column_count: true });
    expect(cells.slice(1)).toEqual(listRows(result, 'workbook').map((row) => listCells(row, shownText, shownLines)));
  });

  it('the list for the vendor comes back as a spreadsheet of OpenDocument with its answers', async () => {
    const path = saved('answered.xlsx', await render(EXAMPLE, 'xlsx'), 'ods', 'answered.ods');
    const { answers, rows, remarks } = await readAnswerFiles([path]);
    expect([...answers]).toEqual(
      EXAMPLE.findings.flatMap(({ id, answer }) => (answer === null ? [] : [[id, { text: answer.text, on: answer.on }]])),
    );
    expect([...rows].sort()).toEqual(EXAMPLE.findings.map(({ id }) => id).sort());
    expect(remarks).toEqual([]);
  });

  it('a record stays the same when it is opened and saved again', async () => {
    const record = demoRecord();
    const { sheets } = convertToWorkbook(record, 'frame-sheet');
    const path = saved('record.xlsx', await writeTables(sheets), 'xlsx:Calc MS Excel 2007 XML', 'record.xlsx');
    const understood = (bytes: Buffer) => normaliseRecord({ sheets: readXlsx(bytes, 'record.xlsx'), records: [] });
    const again = understood(readFileSync(path));
    expect(again.problems).toEqual([]);
    expect(again.record).toEqual(understood(Buffer.from(await writeTables(sheets))).record);
    expect(again.record.reels[0]?.frames).toHaveLength(record.reels[0]?.frames.length ?? 0);
  });

  it('what a CSV file loses on being opened is refused with a good guess', () => {
    const csv = 'frame,date,page,title\n1,1888-01-02,0012,tv1\n2,1926-01-02,3E1,tv1\n3,1900-01-04,1-2,tv1\n4,1926-01-02,=1+1,tv1\n';
    const sheets = readXlsx(readFileSync(saved('14.csv', csv, 'xlsx:Calc MS Excel 2007 XML', '14.xlsx')), '14.xlsx');
    const { problems, warnings } = normaliseRecord({ sheets, records: [] });
    const sentences = problems.map(problemInWords);
    expect(sentences).toEqual([
      expect.stringMatching(/^a date, stored as the number 5 in the format .*, \(1900-01-05 or 1900-01-04\?\) means two days/),
    ]);
    // What can only mean one thing is read, and each column says so once.
    expect(
      warnings.filter((says) => /column (date|page), [23] cells/.test(says)),
      warnings.join('\n'),
    ).toHaveLength(2);
    expect(warnings.join('\n')).toContain(
      'row 5, column page: =1+1 with the result "2" is a formula; the result that the workbook shows is read.',
    );
  });
});
