import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import type { CollationRecord } from '../../src/model/collation-record.js';
import { newFolder, reeltally } from './command.js';
import { type Filled, filledIn, OFFICE, savedInOffice } from './new-sheet.js';

const WORDS = ['--title', 'sn99018200', '--from-day', '1879-01-01', '--to-day', '1879-06-30', '--pattern', 'wed,sat', '--pages', '4'];
/** 1 January 1879 was a Wednesday (any perpetual calendar), and the half year has 26 weeks: as many Wednesdays and Saturdays. */
const ISSUES = 2 * 26;

function sheetOf(per: 'issue' | 'frame'): string {
  const path = join(newFolder(), 'lantern.xlsx');
  const made = reeltally(['collation', 'new', ...WORDS, '--per', per, '--out', path]);
  expect([made.status, made.stdout]).toEqual([0, '']);
  return path;
}

/** What a coordinator fills in: everything on the film but three issues, a page filmed twice, one printed otherwise, labels with zeros. */
function issues(): readonly Filled[] {
  const cells: Filled[] = [];
  const write = (column: string, row: number, text: string): void => void cells.push({ sheet: 'issues', column, row, text });
  write('reel', 2, '00417');
  write('first frame', 2, '1');
  for (let at = 0; at < ISSUES; at += 1) {
    const row = at + 2;
    const absent = ['yes', 'no', 'unknown'][at - 20];
    if (absent !== undefined) write('published', row, absent);
    else write('pages', row, at === 5 ? '1-2,x2,3(5),[4]' : at === 6 ? '1-3,d3,4,_' : '1-4');
    // Numbers that are counted only where something came out, so that nothing is left to ask.
    if (absent === undefined) write('issue number', row, String(at + 1 - (at > 21 ? 1 : 0)).padStart(4, '0'));
  }
  write('note', 3, '1-2');
  write('note', 8, 'both kept, see the second');
  cells.push({ sheet: 'titles', column: 'name', row: 2, text: 'The Tolmouth Lantern' });
  return cells;
}

function frames(): readonly Filled[] {
  const cells: Filled[] = [];
  const write = (column: string, row: number, text: string): void => void cells.push({ sheet: 'frames', column, row, text });
  write('reel', 2, '00417');
  let frame = 0;
  for (let at = 0; at < ISSUES * 4; at += 1) {
    if (at === 9) write('published', at + 2, 'yes');
    else write('frame', at + 2, String((frame += 1)));
  }
  write('page printed', 4, '0012');
  write('condition', 5, 'torn');
  return cells;
}

/** The record in canonical form, read without a question and without a remark. */
function readWithoutAWord(path: string): CollationRecord {
  const read = reeltally(['collation', 'read', path]);
  expect([read.status, read.stderr, read.stdout]).toEqual([0, '', expect.stringContaining('The record: 1 reel')]);
  const check = reeltally(['collation', 'check', path]);
  expect([check.status, check.stderr, check.stdout]).toEqual([0, '', expect.stringContaining('Nothing in it contradicts itself.')]);
  const converted = reeltally(['collation', 'convert', path, '--to', 'json', '--quiet']);
  expect([converted.status, converted.stderr]).toEqual([0, '']);
  return JSON.parse(converted.stdout) as CollationRecord;
}

describe.runIf(OFFICE)('a new sheet that is filled in and saved in LibreOffice', () => {
  it.each([
    ['issue', issues],
    ['frame', frames],
  ] as const)('is read without a question from every form in which it can be saved: per %s', { timeout: 600_000 }, (per, cells) => {
    const opened = join(savedInOffice(sheetOf(per), 'fods'), 'lantern.fods');
    const filled = filledIn(opened, cells());
    const forms = [
      join(savedInOffice(filled, 'xlsx:Calc MS Excel 2007 XML'), 'lantern.xlsx'),
      join(savedInOffice(filled, 'ods'), 'lantern.ods'),
      // Each sheet as a file of its own (LibreOffice help, "Filter Options for CSV"), as it is shown.
      savedInOffice(filled, 'csv:Text - txt - csv (StarCalc):44,34,76,1,,0,false,true,false,false,false,-1'),
    ];
    const [first, ...others] = forms.map(readWithoutAWord);
    for (const other of others) expect(other).toEqual(first);
    const [reel] = first!.reels;
    expect(first!.titles[0]).toMatchObject({ id: 'sn99018200', patterns: [{ days: ['wed', 'sat'], usualPages: [4] }] });
    if (per === 'issue') {
      expect(reel!.frames).toHaveLength((ISSUES - 3) * 4 + 2);
      expect(first!.titles[0]!.name).toBe('The Tolmouth Lantern');
      expect(reel!.absent!.filter(({ page }) => page === undefined).map(({ date, published }) => [date, published])).toEqual([
        ['1879-03-12', 'yes'],
        ['1879-03-15', 'no'],
        ['1879-03-19', 'unknown'],
      ]);
      expect(reel!.frames[4]).toMatchObject({ date: '1879-01-04', issueNumber: '0002', note: '1-2' });
      expect(reel!.frames.filter(({ duplicateOf }) => duplicateOf !== undefined).map(({ frame, deliver }) => [frame, deliver])).toEqual([
        ['23', false],
        ['28', true],
      ]);
    } else {
      expect(reel!.frames).toHaveLength(ISSUES * 4 - 1);
      expect(reel!.absent).toEqual([expect.objectContaining({ date: '1879-01-08', page: '2', published: 'yes' })]);
      expect(reel!.frames.slice(2, 4)).toEqual([
        expect.objectContaining({ page: '3', pagePrinted: '0012' }),
        expect.objectContaining({ page: '4', condition: ['torn'] }),
      ]);
    }
  });
});
