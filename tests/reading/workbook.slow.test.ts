import { spawnSync } from 'node:child_process';
import { readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import type { CollationRecord } from '../../src/model/collation-record.js';
import type { ReadingFile } from '../../src/model/reading.js';
import { newFolder, reeltally } from '../cli/command.js';
import { FRAMES, WORKBOOK } from './as-people-make-it.js';
import { fodsOf } from './workbook.fods.js';
import { excelizeBook, writtenBook } from './workbook-writers.js';

// LibreOffice writes the workbooks, with code that has nothing in common with ours.
const found = spawnSync('soffice', ['--version'], { encoding: 'utf8' }).status === 0;
const folder = newFolder();

function savedAs(name: string, to: string): string {
  const source = join(folder, 'reels.fods');
  writeFileSync(source, fodsOf(WORKBOOK));
  const out = newFolder();
  const { stderr } = spawnSync(
    'soffice',
    ['--headless', `-env:UserInstallation=file://${folder}/profile`, '--convert-to', to, '--outdir', out, source],
    { encoding: 'utf8' },
  );
  expect(stderr).not.toContain('Error');
  return join(out, name);
}

/** Writes answers beside the open questions of a reading file: by what is asked about. */
function answer(path: string, answers: Readonly<Record<string, string>>): void {
  const reading = JSON.parse(readFileSync(path, 'utf8')) as ReadingFile;
  const open = (reading.open ?? []).map((question) => ({ ...question, answer: answers[question.of] ?? null }));
  writeFileSync(path, JSON.stringify({ ...reading, open }));
}

const FORMS: readonly (readonly [writer: string, path: (() => Promise<string> | string) | null])[] = [
  ['LibreOffice as XLSX', found ? () => savedAs('reels.xlsx', 'xlsx:Calc MS Excel 2007 XML') : null],
  ['LibreOffice as ODS', found ? () => savedAs('reels.ods', 'ods') : null],
  ['excelize', async () => written(await excelizeBook(WORKBOOK))],
  ['write-excel-file', async () => written(await writtenBook(WORKBOOK))],
];

function written(bytes: Uint8Array): string {
  const path = join(newFolder(), 'reels.xlsx');
  writeFileSync(path, bytes);
  return path;
}

describe('a workbook as people make it', () => {
  it.each(FORMS.flatMap(([writer, path]) => (path === null ? [] : [[writer, path] as const])))(
    'is read in two steps as %s writes it, and every command reads it so from then on',
    async (writer, bookIn) => {
      const path = await bookIn();
      const before = reeltally(['collation', 'convert', path, '--to', 'json']);
      expect(before.status).toBe(3);
      expect(before.stderr).toContain('collation read');
      const first = reeltally(['collation', 'read', path, '--yes']);
      expect([first.status, first.stdout]).toEqual([3, expect.stringContaining('One question is open about how the record is read:')]);
      expect(first.stdout).toContain('What kind of frame is "missing" (sheet "Reel 15", row 6)?');
      const reading = path.replace(/\.[a-z]+$/, '.reading.json');
      answer(reading, { missing: 'not on the film' });
      const second = reeltally(['collation', 'read', path]);
      expect([second.status, second.stdout.split('\n').at(-2)]).toEqual([
        0,
        'The record: 2 reels, 10 frames: 8 to deliver, 2 held back. 4 issues from 1899-01-13 to 1901-03-14. Not on the film: 1 issue.',
      ]);
      // Nothing was taken without a word, and no word is said of each cell.
      expect(second.stdout).toContain('Words for "kind": "start target" is target; "bad frame" is void; "missing" is not on the film');
      const messages = second.stderr.split('\n').map((line) => line.replaceAll(/"[^"]*"|row \d+/g, ''));
      expect(new Set(messages).size).toBe(messages.length);
      expect(second.stderr).toContain('row 5 holds the names of the columns; what stands above is not read.');
      expect(second.stderr).toContain('"Total" is a row of totals and is not read.');
      expect(second.stderr).toContain('"3 i.e. 4" says what is printed and what is right; both are read.');
      if (writer !== 'write-excel-file') expect(second.stderr).toContain('is a formula; the result that the workbook shows is read.');
      const { stdout } = reeltally(['collation', 'convert', path, '--to', 'json', '--quiet']);
      const record = JSON.parse(stdout) as CollationRecord;
      const rows = record.reels.flatMap(({ number, frames }) =>
        frames.map((frame) => [
          number,
          frame.frame,
          frame.kind,
          frame.title,
          frame.date,
          frame.page,
          frame.pagePrinted,
          frame.volume === undefined ? undefined : `${frame.volume}/${frame.issueNumber ?? ''}`,
        ]),
      );
      expect(rows).toEqual(FRAMES);
      expect(record.reels[0]?.frames[5]?.datePrinted).toMatch(/^1898-01-20$|^20\/1\/1898$/);
      expect(record.reels[0]?.frames[2]?.note).toBe('torn at the top');
      expect(record.reels[1]?.absent).toMatchObject([{ title: 'sn90000002', date: '1901-03-21', published: 'yes' }]);
      expect(record.titles.map(({ id, name: title }) => [id, title])).toEqual([
        ['sn90000001', 'Tarn Valley Beacon'],
        ['sn90000002', 'Upper Tarn Mercury'],
      ]);
    },
  );
});
