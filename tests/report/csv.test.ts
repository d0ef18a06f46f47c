import { parse } from 'csv-parse/sync';
import { describe, expect, it } from 'vitest';
import type { Findings } from '../../src/model/findings.js';
import { renderCorrections } from '../../src/report/corrections.js';
import { render } from '../../src/report/index.js';
import { cell } from '../../src/report/sheet.js';
import { EXAMPLE } from './example.js';
import { HOSTILE, HOSTILE_RESULT, STEERING } from './hostile.js';

const rowsOf = (csv: string): Record<string, string>[] => parse(csv, { bom: true, columns: true, record_delimiter: '\r\n' });
const csvOf = async (result: Findings): Promise<string> => String(await render(result, 'csv'));

describe('the list for the vendor', () => {
  it('begins with the byte order mark, ends each row with CR LF and quotes every cell (RFC 4180)', async () => {
    const csv = await csvOf(EXAMPLE);
    expect([...Buffer.from(csv).subarray(0, 3)]).toEqual([0xef, 0xbb, 0xbf]);
    const lines = csv.slice(1).split('\r\n');
    expect(lines).toHaveLength(EXAMPLE.findings.length + EXAMPLE.corrected.length + 2);
    expect(lines.at(-1)).toBe('');
    expect(csv.replaceAll('\r\n', '')).not.toMatch(/[\r\n]/);
    for (const line of lines.slice(0, -1)) expect(line).toMatch(/^"([^"]|"")*"(,"([^"]|"")*")*$/);
  });

  it('has one row per thing to do, worst first, with room for the answer', async () => {
    const rows = rowsOf(await csvOf(EXAMPLE));
    expect(rows.map((row) => `${row.severity!} ${row['who acts']!}`)).toEqual([
      'critical vendor',
      'critical vendor',
      'major vendor; open since an earlier delivery',
      'major library',
      'minor nobody',
      'critical nobody; corrected since the earlier delivery',
    ]);
    expect(rows[2]).toEqual({
      'your file': 'vz90000001/00417/1899011201/1899011201.xml',
      'your frame': '',
      'our frame': 'reel 00417, frames 42 to 812',
      issue: 'The Tolmouth Lantern, 1899-01-12',
      severity: 'major',
      'what is wrong': 'Frame 41, a blank between two issues, was left out, and every later frame carries a number one too low.',
      'what to do': 'Renumber frames 42 to 812 by +1; no rescan is needed.',
      'in your files': '',
      rescan: 'no',
      'who acts': 'vendor; open since an earlier delivery',
      'vendor answer': '',
      'fixed in delivery': '',
      'answered on': '',
      finding: 'frame-not-scanned:00417:41',
    });
    expect(rows[4]).toMatchObject({ 'vendor answer': 'We read it from page 2.' });
    expect(rows[5]).toMatchObject({ finding: 'title-differs:1', 'fixed in delivery': '2', 'what to do': '', 'in your files': '' });
  });

  it('names the file in which something wanting is to be put, and where the steps stand that are too many for a row', async () => {
    const [first] = EXAMPLE.findings;
    const step = { do: 'add', element: null, frame: null, field: null, from: null } as const;
    const steps = ['1', '2', '3', '4', '5'].map((to) => ({ ...step, document: 'a/1879112201.xml', to }));
    const wanting = { ...EXAMPLE, findings: [{ ...first!, places: [{ sheet: 'frames.csv', row: 116 }], repair: steps }] };
    expect(rowsOf(await csvOf(wanting))[0]).toMatchObject({
      'your file': 'a/1879112201.xml',
      'in your files':
        'put in as page 1 | put in as page 2 | put in as page 3 | and 2 more in discrepancies.xlsx, on the sheet "all steps"',
    });
  });

  it('leaves out what the library ruled to be a slip of its own record', async () => {
    const ruled: Findings = {
      ...EXAMPLE,
      findings: EXAMPLE.findings.map((finding) =>
        finding.cause === 'collation'
          ? { ...finding, ruling: { decision: 'collation-wrong', note: 'Seen on film.', by: 'Ada Pell', on: '1926-01-13' } }
          : finding,
      ),
    };
    expect(rowsOf(await csvOf(ruled)).map((row) => row.finding)).not.toContainEqual(expect.stringContaining('page-not-in-collation'));
    const corrections = rowsOf(renderCorrections(ruled) ?? '');
    expect(corrections).toEqual([
      {
        reel: "'00417",
        frame: '300',
        action: 'insert-after',
        field: 'page',
        from: '',
        to: '5',
        finding: 'page-not-in-collation:00417:after-300',
        by: 'Ada Pell',
        on: "'1926-01-13",
        'why none': '',
      },
    ]);
    expect(renderCorrections(EXAMPLE)).toBeNull();
  });
});

describe('hostile text in the list', () => {
  // OWASP, CSV Injection: a cell is run when it begins with = + - @, a tab or a carriage return.
  const RUN = /^[\s\u00a0]*[=+\-@\t\r＝＋－＠]/u;

  it('is never run by a spreadsheet and stays on its row', async () => {
    const csv = await csvOf(HOSTILE_RESULT);
    const cells = rowsOf(csv).flatMap((row) => Object.values(row));
    expect(cells.filter((value) => RUN.test(value))).toEqual([]);
    expect(csv.split('\r\n')).toHaveLength(HOSTILE_RESULT.findings.length + HOSTILE_RESULT.corrected.length + 2);
    expect(STEERING.exec(csv.slice(1).replaceAll('\r\n', ''))).toBeNull();
  });

  it('fits into the cell of a spreadsheet', async () => {
    // Excel specifications and limits: 32,767 characters in a cell.
    const longest = Math.max(...rowsOf(await csvOf(HOSTILE_RESULT)).flatMap((row) => Object.values(row).map((value) => value.length)));
    expect(longest).toBeGreaterThan(1_000);
    expect(longest).toBeLessThan(32_767);
  });

  it.each([
    ['=1+1', "'=1+1"],
    ['-', "'-"],
    ['@x', "'@x"],
    [' =1', "' =1"],
    ["'tis", "''tis"],
    ['0012', "'0012"],
    ['1-2', "'1-2"],
    ['1899-01-04', "'1899-01-04"],
    ['3E1', "'3E1"],
    ['1:2', "'1:2"],
    ['50%', "'50%"],
    ['MAR1', "'MAR1"],
    ['4-Jul', "'4-Jul"],
    ['1234567890123456', "'1234567890123456"],
    ['TRUE', "'TRUE"],
  ])('%s is marked as text', (text, wanted) => {
    expect(cell(text)).toBe(wanted);
    // Taking one mark off again gives back what was there.
    expect(cell(text).replace(/^'/, '')).toBe(text);
  });

  it.each(['', '0', '42', '12A', 'A3', '3A', 'frames 42 to 812', 'major', 'The date differs', 'March of Time', 'Market Day'])(
    '%s needs no mark',
    (text) => {
      expect(cell(text)).toBe(text);
    },
  );

  it('shows controls instead of writing them', () => {
    expect(cell(HOSTILE.controls!)).toContain('line \\u{a} del \\u{7f}');
  });
});
