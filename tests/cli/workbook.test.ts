import { mkdirSync, readdirSync, readFileSync, writeFileSync } from 'node:fs';
import { dirname, join } from 'node:path';
import { describe, expect, it } from 'vitest';
import type { Findings } from '../../src/model/findings.js';
import { readXlsx } from '../../src/read/sheet-xlsx.js';
import { writeTables } from '../../src/report/xlsx/tables.js';
import { demoAgreement, demoRecord, demoReturn } from '../forge/demonstration.js';
import { bookOf, rows, text } from '../read/workbook/book-of.js';
import { newFolder, reeltally, shell } from './command.js';

const place = newFolder();
const json = join(place, 'record.json');
writeFileSync(json, JSON.stringify(demoRecord()));
const agreement = join(place, 'agreement.json');
writeFileSync(agreement, JSON.stringify(demoAgreement()));
const { files, plan } = demoReturn('faulty');
const batch = join(place, plan.batch);
for (const one of files) {
  mkdirSync(dirname(join(batch, one.path)), { recursive: true });
  writeFileSync(join(batch, one.path), one.text);
}
const verify = (collation: string, ...more: string[]) =>
  reeltally(['verify', '--collation', collation, '--batch', batch, '--agreement', agreement, '--at', '2031-03-04T10:00:00Z', ...more]);
const convert = (...args: string[]) => reeltally(['collation', 'convert', ...args]);

describe('a record in a workbook', () => {
  const book = join(place, 'books', 'reel.xlsx');

  it('is written in one file, which is never written over unasked, and comes back the same', () => {
    const first = convert(json, '--to', 'frame-sheet', '--out', book);
    expect(first).toMatchObject({ status: 0, stdout: '' });
    expect(first.stderr).toMatch(
      /^The record: 1 reel, \d+ frames: \d+ to deliver, \d+ held back\. \d+ issues from \d{4}-\d\d-\d\d to \d{4}-\d\d-\d\d\. Not on the film: .+\.\n/,
    );
    expect(first.stderr).toContain(`\nWritten to ${book}: the sheets frames, titles, reels.\n`);
    expect(readdirSync(dirname(book))).toEqual(['reel.xlsx']);
    const bytes = readFileSync(book);
    const again = convert(json, '--to', 'frame-sheet', '--out', book);
    expect(again.status).toBe(3);
    expect(again.stderr).toContain('already holds results (reel.xlsx)');
    expect(convert(json, '--to', 'frame-sheet', '--out', book, '--replace').status).toBe(0);
    expect(readFileSync(book).equals(bytes)).toBe(true);
    expect(convert(book, '--to', 'json').stdout).toBe(convert(json, '--to', 'json').stdout);
  });

  it('gives the same verdict and findings as the record itself, with places in its sheet', () => {
    const [own, other] = [json, book].map((path) => JSON.parse(verify(path, '--format', 'json').stdout) as Findings);
    expect(other?.verdict).toEqual(own?.verdict);
    expect(other?.findings.map(({ id }) => id)).toEqual(own?.findings.map(({ id }) => id));
    expect(other?.findings.flatMap(({ places }) => places.map(({ sheet }) => sheet))).toContain('frames (reel.xlsx)');
    expect(other?.run.inputs[0]).toMatchObject({ role: 'collation', name: 'reel.xlsx' });
  });

  it('with cells that are not text is read where they can mean one thing, and refused where they cannot', () => {
    const path = join(place, 'changed.xlsx');
    const cells = text('A1', 'reel') + text('B1', 'frame') + text('C1', 'title') + text('D1', 'date') + text('E1', 'page');
    const row = (page: string): string =>
      `<c r="A2"><v>14</v></c><c r="B2"><v>1</v></c>${text('C2', 'tv1')}<c r="D2" s="1"><v>9499</v></c>${page}`;
    const styles = '<cellXfs><xf numFmtId="0"/><xf numFmtId="14"/><xf numFmtId="16"/></cellXfs>';
    writeFileSync(path, bookOf({ sheets: { 'reel 14': rows(cells, row('<c r="E2" s="2"><v>46024</v></c>')) }, styles }));
    for (const { status, stdout, stderr } of [verify(path), convert(path, '--to', 'json')]) {
      expect([status, stdout]).toEqual([3, '']);
      expect(stderr).toBe(
        'reeltally: The collation record cannot be used as it is:\n  changed.xlsx, sheet reel 14, row 2, column page: the day 2026-01-02, stored as the number 46024 in the format d-mmm, ("1-2" or "2-1"?) stands where text belongs. Format the column as text and write it again.\n',
      );
    }
    writeFileSync(path, bookOf({ sheets: { 'reel 14': rows(cells, row(text('E2', '1-2'))) }, styles }));
    const read = convert(path, '--to', 'json');
    expect(read.status).toBe(0);
    expect(read.stdout).toContain('"date": "1926-01-02"');
    expect(read.stderr).toContain('row 2, column reel: the number 14 stands where text belongs; its digits are read.');
    expect(read.stderr).toContain('row 2, column date: the day 1926-01-02 is a day as the spreadsheet program counts days');
  });

  it('is no place for JSON', () => {
    const { status, stderr } = convert(json, '--to', 'json', '--out', join(place, 'x.xlsx'));
    expect(status).toBe(3);
    expect(stderr).toContain('A workbook holds sheets: say --to frame-sheet or --to issue-sheet');
  });
});

describe('the list as a workbook', () => {
  const result = JSON.parse(verify(json, '--format', 'json').stdout) as Findings;
  const saved = join(place, 'findings.json');
  writeFileSync(saved, JSON.stringify(result));
  reeltally(['render', saved, '--format', 'xlsx', '--out', join(place, 'list')]);
  const sheets = readXlsx(readFileSync(join(place, 'list', 'discrepancies.xlsx')), 'x.xlsx');

  /** The list with some cells filled in, by column head, in the row of a finding. */
  async function answered(cells: Readonly<Record<string, string>>): Promise<string> {
    const path = join(newFolder(), 'answered.xlsx');
    const filled = sheets.map(({ sheet, headers, rows: lines }, at) => ({
      name: sheet,
      heads: headers,
      rows: lines.map(({ cells: texts }, line) =>
        at === 1 && line === 0 ? texts.map((own, column) => cells[headers[column] ?? ''] ?? own) : texts,
      ),
    }));
    writeFileSync(path, await writeTables(filled));
    return path;
  }

  it('goes into a file or pipe, and not to a terminal', () => {
    const { stdout } = shell(`"$NODE" "$MAIN" render "${saved}" --format xlsx | head -c 2`);
    expect(stdout).toBe('PK');
    // script(1) of util-linux gives the command a terminal; --return hands on its status.
    const shown = shell(`script --quiet --return --command '"$NODE" "$MAIN" render "${saved}" --format xlsx' /dev/null`);
    expect(shown.status).toBe(3);
    expect(shown.stdout).toContain('A workbook cannot be shown in a terminal.');
  });

  it("takes the vendor's answers back, and no decision that was typed into it", async () => {
    const path = await answered({ 'vendor answer': '=we read 0012', 'answered on': '2031-03-05', 'fixed in delivery': '2' });
    const { status, stdout } = verify(json, '--answers', path, '--format', 'json');
    expect(status).toBe(1);
    const read = JSON.parse(stdout) as Findings;
    expect(read.findings.find(({ id }) => id === sheets[1]?.rows[0]?.cells.at(-1))).toMatchObject({
      answer: { text: '=we read 0012', fixedIn: '2', on: '2031-03-05' },
      ruling: null,
    });
    expect(read.run.inputs).toContainEqual(expect.objectContaining({ role: 'answers', name: 'answered.xlsx' }));
  });

  it('rules nothing', async () => {
    const { status, stdout, stderr } = verify(json, '--rulings', await answered({}));
    expect([status, stdout]).toEqual([3, '']);
    expect(stderr).toContain('this is the list that goes to the vendor, and nothing that is written into it rules.');
  });
});

describe("the library's own rulings in a workbook", () => {
  const result = JSON.parse(verify(json, '--format', 'json').stdout) as Findings;

  it('take a day that was typed as a date, and name a decision that is none by sheet and row', () => {
    const heads = ['id', 'decision', 'note', 'by', 'on'];
    const id = result.findings[0]?.id ?? '';
    const list = (decision: string): Buffer =>
      bookOf({
        sheets: {
          notes: rows(text('A1', 'Dear all'), text('A2', 'see below')),
          list: rows(
            heads.map((head, at) => text(`${'ABCDE'[at] ?? ''}1`, head)).join(''),
            `${text('A2', id)}${text('B2', decision)}<c r="C2"><v>12</v></c>${text('D2', 'Ada Pell')}<c r="E2" s="1"><v>47910</v></c>`,
          ),
        },
        styles: '<cellXfs><xf numFmtId="0"/><xf numFmtId="14"/></cellXfs>',
      });
    const path = join(newFolder(), 'rulings.xlsx');
    writeFileSync(path, list('vendor-corrects'));
    const { stdout } = verify(json, '--rulings', path, '--format', 'json');
    // 47910 days from 1899-12-30 on: 2031-03-03, by `date -d '1899-12-30 +47910 days'` of GNU coreutils.
    expect((JSON.parse(stdout) as Findings).findings.find((one) => one.id === id)).toMatchObject({
      ruling: { decision: 'vendor-corrects', note: '12', on: '2031-03-03' },
    });
    writeFileSync(path, list('perhaps'));
    const wrong = verify(json, '--rulings', path);
    expect(wrong.status).toBe(3);
    expect(wrong.stderr).toContain(`${path}, sheet list, row 2, column decision: "perhaps" is not a decision.`);
  });

  it.each<[string, Record<string, string>, string]>([
    [
      'no sheet of that kind',
      { a: rows(text('A1', 'x')), b: rows(text('A1', 'finding')) },
      "no sheet has the columns of the library's rulings; it needs id, decision",
    ],
    [
      'two of them',
      { a: rows(text('A1', 'finding') + text('B1', 'decision')), b: rows(text('A1', 'decision') + text('B1', 'Finding')) },
      "the sheets a and b both have the columns of the library's rulings",
    ],
    ['a column too few', { a: rows(text('A1', 'finding')) }, 'there is no column "decision"'],
  ])('is refused with %s', (_, sheetsOf, says) => {
    const path = join(newFolder(), 'answered.xlsx');
    writeFileSync(path, bookOf({ sheets: sheetsOf }));
    const { status, stderr } = verify(json, '--rulings', path);
    expect(status).toBe(3);
    expect(stderr).toContain(says);
  });
});
