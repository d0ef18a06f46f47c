import { readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import type { RecordCheck } from '../../src/model/record-check.js';
import { schemaCheck } from '../../src/read/schemas.js';
import { readXlsx } from '../../src/read/sheet-xlsx.js';
import { writeTables } from '../../src/report/xlsx/tables.js';
import { newFolder, reeltally } from './command.js';

const HEAD = 'frame,title,date,weekday printed,issue number,page';
const RIGHT = [1, 2, 3, 4].map((week) => `${String(week)},tv1,1899-01-${String(week * 7 - 2).padStart(2, '0')},Thursday,${String(week)},1`);
const WRONG = RIGHT.map((row, at) => (at === 2 ? '3,tv1,1899-01-20,Thursday,3,1' : row));

function sheet(rows: readonly string[]): string {
  const path = join(newFolder(), 'reel-14.csv');
  writeFileSync(path, [HEAD, ...rows].join('\n'));
  return path;
}

const check = (...args: string[]) => reeltally(['collation', 'check', ...args]);

describe('collation check', () => {
  it('ends in 0 where nothing contradicts itself', () => {
    const { status, stdout } = check(sheet(RIGHT));
    expect([status, stdout]).toEqual([
      0,
      [
        'The record: 1 reel, 4 frames: 4 to deliver, 0 held back. 4 issues from 1899-01-05 to 1899-01-26. Not on the film: nothing is recorded.',
        'tv1: 4 issues from 1899-01-05 to 1899-01-26, no days of publication are known.',
        '',
        'Nothing in it contradicts itself.\n',
      ].join('\n'),
    ]);
  });

  it('tells what does not fit with frames, rows, evidence and the likely reading, and ends in 1', () => {
    const { status, stdout } = check(sheet(WRONG));
    expect(status).toBe(1);
    expect(stdout).toContain(
      [
        'The printed weekday does not fit the date (1)',
        '  A date and its weekday prove each other. Where they clash one of them was misread or misprinted.',
        '',
        '  The issue of 1899-01-20 prints a weekday that this day was not.',
        '    1899-01-20 was a Friday; the paper prints "Thursday".',
      ].join('\n'),
    );
    expect(stdout).toContain(
      '    Likely: Thursday 19 January 1899 was probably meant.\n    reel 14, frame 3; reel-14.csv, row 4\n    item weekday-clash-tv1-1899-01-20-14-3\n',
    );
  });

  it('names a day that the calendar does not have among what else does not fit', () => {
    const rows = RIGHT.map((row) => row.replace('1899-01-19', '1899-02-30')).map((row, at) => (at === 3 ? row.replace(',4,', ',9,') : row));
    const { status, stdout } = check(sheet(rows));
    expect(status).toBe(1);
    expect(stdout).toContain('The issue of 1899-02-30 is dated on a day that never was.');
    expect(stdout).toContain('On the film it lies between the issues of 1899-01-12 and 1899-01-26.');
    expect(stdout).toContain('The issue of 1899-01-26 has the number 9');
    // whatever is to be compared with a return has no such day
    const instructions = reeltally(['collation', 'instructions', sheet(rows), '--out', join(newFolder(), 'sent')]);
    expect([instructions.status, instructions.stderr]).toEqual([3, expect.stringContaining('"1899-02-30" is a day that never was')]);
  });

  it('writes a result that keeps to its schema, and leaves out what the library has explained', () => {
    const path = sheet(WRONG);
    const out = join(newFolder(), 'check');
    expect(check(path, '--out', out).status).toBe(1);
    const result = JSON.parse(readFileSync(join(out, 'record-check.json'), 'utf8')) as RecordCheck;
    const fits = schemaCheck('record-check', true);
    expect(fits(result), JSON.stringify(fits.errors)).toBe(true);
    expect(result.items.map(({ id, code, severity, explained }) => [id, code, severity, explained])).toEqual([
      ['weekday-clash-tv1-1899-01-20-14-3', 'weekday-clash', 'major', null],
    ]);
    writeFileSync(
      path.replace('.csv', '.explained.csv'),
      'item,note,by,on\nweekday-clash-tv1-1899-01-20-14-3,It is so on the film,Ada Pell,2031-03-01\nold-item,gone,Ada Pell,2031-03-01\n',
    );
    const again = check(path);
    expect([again.status, again.stdout]).toEqual([0, expect.stringContaining('1 item is explained and not listed.')]);
    expect(again.stderr).toContain('the explained item old-item is not found any more.');
    const json = JSON.parse(check(path, '--format', 'json').stdout) as RecordCheck;
    expect(json.items[0]?.explained).toEqual({ note: 'It is so on the film', by: 'Ada Pell', on: '2031-03-01' });
    expect(json.inputs.map(({ role }) => role)).toEqual(['collation', 'explained']);
  });

  it('writes a page to read and print: causes with their places, the calendar and the pages per issue, without a script', () => {
    const out = join(newFolder(), 'check');
    expect(check(sheet(WRONG), '--out', out).status).toBe(1);
    const page = readFileSync(join(out, 'record-check.html'), 'utf8');
    expect(page).not.toContain('<script');
    expect(page).toContain('<h3 id="cause-weekday-clash">The printed weekday does not fit the date (1)</h3>');
    expect(page).toContain('<td>Thursday 19 January 1899 was probably meant.</td><td>reel-14.csv, row 4</td>');
    for (const part of ['items', 'calendar', 'pages']) expect(page).toContain(`<a href="#${part}">`);
    expect(page).toContain('<caption>January 1899</caption>');
    // Nothing came yet, so nothing is said of what came.
    expect(page.slice(page.indexOf('<main>'))).not.toMatch(/return|pages that came|delivered otherwise/);
  });

  it('writes a list as a workbook, which filled in is a file of explained items', async () => {
    const path = sheet(WRONG);
    const out = join(newFolder(), 'check');
    expect(check(path, '--out', out).status).toBe(1);
    const list = join(out, 'record-check.xlsx');
    // Nothing is filled in yet, so nothing is explained.
    expect(check(path, '--explained', list).status).toBe(1);
    const [items] = readXlsx(readFileSync(list), 'record-check.xlsx');
    const heads = items?.headers ?? [];
    const filled = { note: 'It is so on the film', by: 'Ada Pell', on: '2031-03-01' };
    const rows = (items?.rows ?? []).map(({ cells }) =>
      heads.map((head, at) => new Map(Object.entries(filled)).get(head) ?? cells[at] ?? ''),
    );
    writeFileSync(list, await writeTables([{ name: 'items', heads, rows }]));
    expect(check(path, '--explained', list)).toMatchObject({ status: 0, stdout: expect.stringContaining('1 item is explained') as string });
  });

  it('refuses an explanation without a name, and a form that there is not', () => {
    const path = sheet(WRONG);
    writeFileSync(path.replace('.csv', '.explained.csv'), 'item,note,by,on\nx,so it is,,2031-03-01\n');
    expect(check(path)).toMatchObject({ status: 3, stderr: expect.stringContaining('row 2: the cell "by" is empty') as string });
    expect(check(sheet(RIGHT), '--format', 'xml')).toMatchObject({
      status: 3,
      stderr: expect.stringContaining('a check is written as text, json, xlsx, html') as string,
    });
  });
});
